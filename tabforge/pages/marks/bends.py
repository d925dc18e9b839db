"""Bends: an arrow from the number up to its amount, down again where the string is let back, a dashed line where it is held."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Final

from tabforge.pages.board import Board
from tabforge.pages.marks.reaches import Reach
from tabforge.pages.shapes import THIN, Shape, arrow_head, line, path, together, words
from tabforge.pages.stage import Head, Stage

BENDS: Final = 0
"""Bends stand nearest to the strings, which they come from."""

_PARTS: Final = {Fraction(0): "", Fraction(1, 4): "\u00bc", Fraction(1, 2): "\u00bd", Fraction(3, 4): "\u00be"}
_HEIGHT: Final = 300.0
"""How high an arrow rises over the lane's foot."""
_LABEL: Final = 270.0
_WIDE: Final = 300.0
"""Width of the bow of an arrow where there is room."""


def amount_text(steps: Fraction) -> str:
    """An amount in whole steps as players write it (common practice, no source): full is one whole step."""
    whole, part = divmod(steps, 1)
    if steps == 1:
        return "full"
    return f"{whole or ''}{_PARTS[part]}"


BENT: Final = {"bend": (False, False), "bend and release": (False, True), "pre-bend": (True, False), "pre-bend and release": (True, True)}
"""Techniques drawn here: whether the string is bent before it is struck, and whether it is let back."""


def bends(stage: Stage, reaches: Sequence[Reach]) -> None:
    """All bends of a section. The notes of a chord are bent together: their arrows go up side by side to one amount, or to several."""
    groups: dict[tuple[str, int], list[Reach]] = {}
    for reach in reaches:
        groups.setdefault((reach.name, reach.first.placed.number), []).append(reach)
    for group in groups.values():
        _group(stage, sorted(group, key=lambda reach: reach.string or 0))


def _group(stage: Stage, group: Sequence[Reach]) -> None:
    before, release = BENT[group[0].name]
    first = group[0].first
    amounts = dict.fromkeys(amount_text(reach.mark.amount or Fraction(0)) for reach in group)
    label = "/".join(amounts)
    half = stage.fonts.width(label) * _LABEL / 2
    lasts = [stage.last_of(reach.last, reach.string) for reach in group]
    last = max(lasts, key=lambda spot: spot.placed.number)
    bar = first.bar_right - half - 40  # the label stays clear of the bar line
    for board, left, right, begins, ends in stage.stretches(first, last):
        figures: list[_Figure] = []
        for reach in group:
            head = reach.head
            if head is not None:
                start = first.x + (0 if before else head.half + 24) if begins else left
                until = max(right, start + (420 if release else 160))
                own = label if begins and not figures else ""
                figures.append(_Figure(stage, head, start, until, before, release and ends, own, begins, last is not first, bar))
        if figures:
            _lane(board, group[0].name, figures, half if begins else 0.0)


def _lane(board: Board, name: str, figures: Sequence[_Figure], half: float) -> None:
    left = min(min(each.start - 10, each.peak - half) for each in figures)
    right = max(each.right(half) for each in figures)
    height = _HEIGHT + (_LABEL if half else 60)
    board.stack(BENDS, name, left, right, height, lambda level: together([each.draw(level) for each in figures]), below=False)


class _Figure:
    """The lines of one bend in one system. ``peak`` is where its arrow points."""

    def __init__(
        self, stage: Stage, head: Head, start: float, until: float, before: bool, release: bool, label: str, begins: bool, held: bool,
        bar: float,
    ) -> None:
        self._stage, self._head, self.start, self._until = stage, head, start, until
        self._before, self._release, self._label, self._begins, self._held = before, release, label, begins, held
        width = min(_WIDE, (until - start) * (0.5 if release else 0.8))
        self.peak = start if before or not begins else max(min(start + max(width, 90), bar), start + 40)

    def right(self, half: float) -> float:
        """Where it ends, with half a label's width at its arrow."""
        return max(self.peak + half, self._until if self._held or self._release else self.peak + 60)

    def draw(self, level: float) -> Shape:
        """All of it, with the lane's foot at a height."""
        top = level - _HEIGHT
        y, peak, tip = self._head.y, self.peak, level - _HEIGHT
        shapes: list[Shape] = []
        foot = top + 90
        if self._begins and self._before:
            low = y - 0.48 * self._head.size
            shapes += [line(peak, low, peak, foot), arrow_head(peak, tip)]
        elif self._begins:
            data = f"M{self.start:.0f} {y:.0f}C{peak - 20:.0f} {y:.0f} {peak:.0f} {y - (y - foot) * 0.35:.0f} {peak:.0f} {foot:.0f}"
            shapes += [path([(self.start, y), (peak, foot)], data, THIN + 2), arrow_head(peak, tip)]
        onward = peak + 70 if self._begins else self.start
        if self._release:
            fall = max(onward + 60, self._until - _WIDE * 0.9) if self._held else onward
            end = max(self._until - 20, fall + 110)
            if fall > onward + 120:
                shapes.append(line(onward, tip + 20, fall, tip + 20, dashed=True))
            low = y - 0.15 * self._head.size
            data = f"M{fall:.0f} {tip + 20:.0f}C{end:.0f} {tip + 20:.0f} {end:.0f} {tip + (low - tip) * 0.4:.0f} {end:.0f} {low - 90:.0f}"
            shapes += [path([(fall, tip + 20), (end, low)], data, THIN + 2), arrow_head(end, low, down=True)]
        elif self._held and self._until > onward + 60:
            shapes.append(line(onward, tip + 20, self._until, tip + 20, dashed=True))
        if self._label:
            shapes.append(words(self._stage.fonts, self._label, peak, tip - 40, _LABEL, anchor="middle"))
        return together(shapes) if shapes else Shape("", line(self.start, level, self._until, level).box)
