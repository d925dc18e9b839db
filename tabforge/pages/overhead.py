"""What stands over the staff when chord charts need room there: charts over their symbols, everything that was above them moved up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final

from tabforge.model.score import Score
from tabforge.pages.cleaning import NUMBER, SVG, Scribe
from tabforge.pages.fonts import Fonts
from tabforge.pages.fretboxes import fret_box
from tabforge.pages.places import Placed
from tabforge.pages.reading import System, chord_symbols
from tabforge.pages.shapes import Box, around

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_OVER: Final = 60.0
_MOVABLE: Final = frozenset({"reh", "tempo", "dir", "repeatMark", "ending"})


class Overhead:
    """The charts of one system and the elements that must make room for them."""

    def __init__(self, score: Score, system: System, bars: Sequence[Sequence[Placed]], *, wanted: bool) -> None:
        self._left_handed = score.left_handed
        self._charts: list[tuple[tuple[int | None, ...], Element]] = []
        self._movable: list[Element] = []
        if not wanted:
            return
        for measure, events in zip(system.measures, bars, strict=True):
            symbols = [each.event.attached.chord for each in events if each.event.attached.chord is not None]
            drawn = chord_symbols(measure)
            if len(symbols) == len(drawn):
                pairs = zip(symbols, drawn, strict=True)
                self._charts += [(symbol.shape, element) for symbol, element in pairs if symbol.shape and set(symbol.shape) != {None}]
        if self._charts:
            line = min(self._height(element) for _, element in self._charts)
            hung = [*system.others, *(each for measure in system.measures for each in measure.others)]
            self._movable = [each for each in hung if each.get("class", "").partition(" ")[0] in _MOVABLE and self._low(each) < line]
        self._taken = {id(each) for each in self._movable}

    def takes(self, element: Element) -> bool:
        """Whether an element is written here, so that nobody else must."""
        return bool(self._charts) and id(element) in self._taken

    def write(self, fonts: Fonts, notes: Mapping[str, str], number: int) -> Scribe:
        """Charts, and the elements that were moved."""
        scribe = Scribe(fonts, notes)
        rows: list[Box] = []
        symbols = [_covered(fonts, element) for _, element in self._charts]
        line = min((box.top for box in symbols), default=0.0) - _OVER
        for (grip, _), box in zip(self._charts, symbols, strict=True):
            middle = (box.left + box.right) / 2
            shape = fret_box(fonts, grip, middle, line, left_handed=self._left_handed)
            while any(shape.box.meets(each) for each in rows):  # crowded: one over the other
                foot = min(each.top for each in rows if shape.box.meets(each)) - _OVER
                shape = fret_box(fonts, grip, middle, foot, left_handed=self._left_handed)
            rows.append(shape.box)
            scribe.out.append(f'<g class="mark chord-chart">{shape.svg}</g>')
            scribe.boxes.append(shape.box)
        if self._movable:
            foot = max(self._low(each) for each in self._movable)
            rise = foot - (min(each.top for each in rows) - _OVER)
            moved = Scribe(fonts, notes, lambda y: y - rise)
            for element in self._movable:
                moved.write(element)
            scribe.take(moved)
        return scribe

    @staticmethod
    def _height(element: Element) -> float:
        text = next(element.iter(f"{SVG}text"), None)
        return float(text.get("y", 0)) if text is not None else 0.0

    @classmethod
    def _low(cls, element: Element) -> float:
        """The lowest height of an element: the base line of its words, or where its sign stands."""
        heights = [float(each.get("y", 0)) for each in element.iter() if each.get("y") and each.tag != f"{SVG}rect"]
        heights += [float(each.get("y", 0)) + float(each.get("height", 0)) for each in element.iter(f"{SVG}rect")]
        for use in element.iter(f"{SVG}use"):
            heights.append(float(NUMBER.findall(use.get("transform", ""))[1]))
        return max(heights, default=0.0)


def _covered(fonts: Fonts, element: Element) -> Box:
    """What a chord symbol covers."""
    symbol = Scribe(fonts, {})
    symbol.write(element)
    return around(symbol.boxes)
