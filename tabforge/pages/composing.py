"""One system put together: what the engraver drew, TAB moved to where it has room, numbers and marks, cut to what is there."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final, NamedTuple

from tabforge.pages.cleaning import Scribe
from tabforge.pages.engraver import SPACE
from tabforge.pages.hairpins import clear_hairpins
from tabforge.pages.lifting import WORDS, words_over, write_clear
from tabforge.pages.overhead import Overhead
from tabforge.pages.reading import System
from tabforge.pages.shapes import Box, Shape, around
from tabforge.pages.stage import Spot, Stage
from tabforge.pages.tabstaff import numeral, strings

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_GAP: Final = 0.45 * SPACE
"""Room between what hangs below the staff and what stands over TAB."""

_LEAST: Final = 3.4 * SPACE
"""Distance of the staff and TAB where nothing is between them."""

_EDGE: Final = 0.35 * SPACE
"""Paper left around a system."""


class Composed(NamedTuple):
    """A system's elements, the signs they use, and what they cover; ``marks`` with their places, TAB's move included."""

    svg: str
    glyphs: frozenset[str]
    box: Box
    marks: tuple[tuple[str, Box], ...]
    staff: tuple[Box, ...]


def compose(stage: Stage, number: int, system: System, spots: Sequence[Spot], notes: Mapping[str, str], overhead: Overhead) -> Composed:
    """One system. ``notes`` has the attributes by which notes are found again, by id."""
    fonts = stage.fonts
    board = stage.boards[number]
    upper = Scribe(fonts, notes)
    clear_hairpins(fonts, system)
    spanning = [each for each in system.others if each.get("class") in {None, "grpSym"}]
    for element in system.others:  # endings of repeats
        if element not in spanning and element.get("class") != "label" and not overhead.takes(element):
            upper.write(element)
    loud: list[Box] = []
    over: list[Element] = []
    for measure in system.measures:
        upper.write(measure.staff)
        for element in measure.others:
            if element.get("class") == "barLine":
                spanning.append(element)
            elif not overhead.takes(element):
                if element.get("class", "").partition(" ")[0] in WORDS:
                    over.append(element)
                else:
                    write_clear(upper, element, loud)
    above = overhead.write(fonts, notes, number)
    words_over(upper, over, above.boxes, system.staff[0])
    drawn = board.settled()
    move = _move(system, upper.boxes, [shape.box for _, shape in drawn])
    between = (system.staff[-1] + system.strings[0]) / 2
    across = Scribe(fonts, notes, lambda y: y + move if y > between else y)
    for element in spanning:
        if element.get("class") == "grpSym":
            _brace(across, element, system, move)
        else:
            across.write(element)
    lower = Scribe(fonts, notes)
    for measure in system.measures:
        _rest_of_tab(lower, measure.tab)
    tab = [shape.svg for shape in strings(spots, system.strings, system.measures[0].left, system.measures[-1].right)]
    numbers = [shape for spot in spots for shape in _numbers(stage, spot, notes)]
    tab += [shape.svg for shape in numbers]
    tab += [f'<g class="mark {name.replace(" ", "-")}">{shape.svg}</g>' for name, shape in drawn]
    marks = tuple((name, _moved(shape.box, move)) for name, shape in drawn)
    svg = "".join([*across.out, *upper.out, *above.out, f'<g transform="translate(0 {move:.0f})">', *lower.out, *tab, "</g>"])
    boxes = [*across.boxes, *upper.boxes, *above.boxes, *(_moved(each, move) for each in lower.boxes), *(box for _, box in marks)]
    boxes += [_moved(shape.box, move) for shape in numbers]
    whole = around(boxes)
    box = Box(whole.left - _EDGE, whole.top - _EDGE, whole.right + _EDGE, whole.bottom + _EDGE)
    glyphs = frozenset(across.glyphs | upper.glyphs | above.glyphs | lower.glyphs)
    return Composed(svg, glyphs, box, marks, (*upper.boxes, *above.boxes))


def _numbers(stage: Stage, spot: Spot, notes: Mapping[str, str]) -> list[Shape]:
    shapes = []
    for head in spot.heads:
        if head.text:
            shape = numeral(stage, spot, head)
            known = notes[f"s{spot.placed.number}-{head.note}"]
            kind = " dead" * head.cross + {"()": " bracketed", "<>": " harmonic"}.get(head.around, "")
            shapes.append(Shape(f'<g class="tab{kind}"{known} data-string="{head.string}">{shape.svg}</g>', shape.box))
    return shapes


def _rest_of_tab(scribe: Scribe, staff: Element) -> None:
    """What TAB has besides strings and numbers: clef, rests of several bars."""
    for child in staff:
        name = child.get("class", "")
        if name == "layer":
            for inner in child:
                if inner.get("class", "").startswith(("multiRest", "clef")):
                    scribe.write(inner)
        elif name and name not in {"keySig", "meterSig"}:  # the staff has them
            scribe.write(child)


def _brace(scribe: Scribe, element: Element, system: System, move: float) -> None:
    """The brace, drawn longer or shorter than it was."""
    top, bottom = system.staff[0], system.strings[-1]
    stretch = (bottom + move - top) / (bottom - top)
    stretched = scribe.mapped(lambda y: top + (y - top) * stretch)
    stretched.write(element)
    scribe.take(stretched)


def _move(system: System, staff: Sequence[Box], marks: Sequence[Box]) -> float:
    """How far TAB must go down (or may go up) to be clear of the staff with all its marks."""
    foot, top = system.staff[-1], system.strings[0]
    hanging = [box for box in staff if box.bottom > foot]
    room = foot + _LEAST - top
    if hanging:
        room = max(room, max(box.bottom for box in hanging) + _GAP - top + 0.35 * system.gap)
    for mark in marks:
        if mark.top < top:
            low = max((box.bottom for box in hanging if box.left < mark.right + _GAP and mark.left < box.right + _GAP), default=foot)
            room = max(room, max(low, foot) + _GAP - mark.top)
    return room


def _moved(box: Box, move: float) -> Box:
    return Box(box.left, box.top + move, box.right, box.bottom + move)
