"""A bar as slots: what stands in one column of the tab, and what reaches over several columns. No column has a place yet."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

Label = tuple[int, str, int]
"""Row, text, and the columns it needs in that row; an empty text only keeps the room free."""

Cell = tuple[int, str, int]
"""String, text, and how many characters of it stand left of the slot's column."""


class Slot:
    """One column. ``before`` and ``after`` are the characters its widest cell needs left of the column and from it on; ``x`` is the
    column once it is measured."""

    __slots__ = ("after", "before", "cells", "grace", "labels", "onset", "x")

    def __init__(self, onset: int, grace: bool) -> None:
        self.onset = onset
        self.grace = grace
        self.cells: list[Cell] = []
        self.labels: list[Label] = []
        self.before = 0
        self.after = 1
        self.x = 0


class Reach(NamedTuple):
    """A sign over several slots: an extent such as ``PM---|`` or, with ``bracket``, a tuplet's ``[-3-]``.

    ``first`` and ``last`` are indexes of slots; None where it comes from the piece before or goes on in the next one.
    """

    row: int
    first: int | None
    last: int | None
    text: str
    bracket: bool = False


@dataclass(slots=True)
class Ending:
    """A piece of an ending bracket. ``text`` is its numbers where it begins here, else None; ``closes`` and ``hooked`` say how it ends."""

    text: str | None
    closes: bool = False
    hooked: bool = False


@dataclass(slots=True)
class Piece:
    """A bar, or a part of one that is too wide for a line. ``left`` and ``right`` are edges (see ``lines``); ``width`` is without bar
    lines, 0 until it is measured."""

    slots: list[Slot]
    reaches: list[Reach]
    ticks: int
    left: str
    right: str
    direction: str = ""
    count: str = ""
    ending: Ending | None = None
    width: int = 0
