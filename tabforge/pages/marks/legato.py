"""What leads from one note to the next on its string: hammer-on, pull-off, slides."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.pages.board import Board
from tabforge.pages.marks.reaches import Reach
from tabforge.pages.shapes import THICK, Shape, arc, line, words
from tabforge.pages.stage import Head, Stage

LETTER: Final = 285.0
"""Size of a technique's letter."""

LETTERS: Final = 1
"""How near to the strings letters stand, counted from the nearest."""

_OVER: Final = 0.56
"""How far over its string an arc begins, in distances of strings."""

_HIGH: Final = 0.42
"""How high it rises, likewise."""

_APART: Final = 28.0
_SLOPE: Final = 58.0
_SHORT: Final = 150.0
"""Half the rise of a slide, its distance from a number, and the length of one from or to nowhere."""


def _ends(reach: Reach) -> tuple[Head | None, Head | None]:
    return reach.head, reach.last.on(reach.string)


def _arcs(stage: Stage, reach: Reach) -> None:
    """An arc over the string, in two halves where the line of music ends between the notes."""
    head, end = _ends(reach)
    if head is None:
        return
    for board, left, right, begins, ends in stage.stretches(reach.first, reach.last):
        y = (head if begins or end is None else end).y - _OVER * board.gap
        x1 = reach.first.x + (20 if not reach.first.event.grace else 0) if begins else left - 60
        x2 = (reach.last.left if reach.last.struck_across else reach.last.x) - 20 if ends else right
        if x2 > x1 + 30:
            board.put(reach.name, arc(x1, x2, y, _HIGH * board.gap))


def legato(letter: str) -> Callable[[Stage, Reach], None]:
    """An arc with its letter over TAB. A chord's notes each have an arc, and one letter."""

    def draw(stage: Stage, reach: Reach) -> None:
        _arcs(stage, reach)
        if reach.further:
            return
        board, left, right, _, ends = next(iter(stage.stretches(reach.first, reach.last)))
        middle = (reach.first.x + reach.last.x) / 2 if ends else (left + right) / 2
        said(stage, board, reach, letter, middle)

    return draw


def said(stage: Stage, board: Board, reach: Reach, letters: str, middle: float, rank: int = LETTERS) -> None:
    """Letters over (or under) TAB about a place."""
    half = stage.fonts.width(letters) * LETTER / 2
    height = LETTER * 0.7
    below = reach.below

    def draw(level: float) -> Shape:
        return words(stage.fonts, letters, middle, level + height if below else level, LETTER, anchor="middle")

    board.stack(rank, reach.name, middle - half, middle + half, height, draw, below=below)


def slide(stage: Stage, reach: Reach) -> None:
    """A line from number to number that rises or falls as the pitch does."""
    head, end = _ends(reach)
    if head is None or end is None:
        return
    rise = _SLOPE if reach.last.event.notes[end.note].fret >= reach.first.event.notes[head.note].fret else -_SLOPE
    for board, left, right, begins, ends in stage.stretches(reach.first, reach.last):
        y = (head if begins else end).y
        x1 = reach.first.x + head.half + _APART if begins else left - 150
        x2 = (reach.last.left if reach.last.struck_across else reach.last.x - end.half) - _APART if ends else right
        if x2 < x1 + 40:  # crowded: the line may touch the numbers rather than vanish
            middle = x2 - 45 if reach.last.struck_across else (x1 + x2) / 2
            x1, x2 = middle - 45, middle + 45
        board.put(reach.name, line(x1, y + rise, x2, y - rise, THICK - 4))


def legato_slide(stage: Stage, reach: Reach) -> None:
    """A slide under an arc."""
    _arcs(stage, reach)
    slide(stage, reach)


def from_or_to_nowhere(*, before: bool, rises: bool) -> Callable[[Stage, Reach], None]:
    """A short line into a number or out of it."""

    def draw(stage: Stage, reach: Reach) -> None:
        head = reach.head
        spot = reach.first if before else reach.last
        if head is None:
            return
        rise = _SLOPE if rises else -_SLOPE
        if before:
            x1, x2 = spot.x - head.half - _APART - _SHORT, spot.x - head.half - _APART
        else:
            x1 = spot.x + max(head.half, 70) + _APART
            x2 = max(min(x1 + _SHORT, stage.end(spot)), x1 + 60)
        stage.boards[spot.system].put(reach.name, line(x1, head.y + rise, x2, head.y - rise, THICK - 4))

    return draw
