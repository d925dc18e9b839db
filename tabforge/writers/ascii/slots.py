"""A bar as slots: what stands in one column of the tab, and what reaches over several columns. No column has a place yet."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import Enum
from typing import NamedTuple

from tabforge.writers.ascii.plain import width_of

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


class Style(Enum):
    """What a reach looks like: ``PM---|``, a tuplet's ``[-3-]``, a hairpin's ``<----``, or a word in one column."""

    EXTENT = "extent"
    BRACKET = "bracket"
    HAIRPIN = "hairpin"
    WORD = "word"


class Reach(NamedTuple):
    """A sign over several slots, or a word in a row that has such signs too: the reaches of a row are in order.

    ``first`` and ``last`` are indexes of slots; None where it comes from the piece before or goes on in the next one. A hairpin begins
    ``skip`` columns after its first slot, and ends before its last slot or, ``through``, with the end of it.
    """

    row: int
    first: int | None
    last: int | None
    text: str
    style: Style = Style.EXTENT
    skip: int = 0
    through: bool = True


@dataclass(slots=True)
class Ending:
    """A piece of an ending bracket. ``text`` is its numbers where it begins here, else None; ``closes`` and ``hooked`` say how it ends."""

    text: str | None
    closes: bool = False
    hooked: bool = False


@dataclass(slots=True)
class Over:
    """Words over a bar in one row: at its start and at its end."""

    start: str = ""
    end: str = ""

    @property
    def width(self) -> int:
        """Columns they need together."""
        return width_of(self.start) + width_of(self.end) + bool(self.start and self.end)


@dataclass(slots=True)
class Piece:
    """A bar, a part of one that is too wide for a line, or several bars of rest (then ``rest`` is what stands on the strings).

    ``left`` and ``right`` are edges (see ``lines``); ``width`` is without bar lines, 0 until it is measured. ``over`` has the words of
    each row that stands over whole bars. ``breaks``: it begins a line of its own.
    """

    slots: list[Slot]
    reaches: list[Reach]
    ticks: int
    left: str
    right: str
    over: dict[int, Over] = field(default_factory=dict)
    ending: Ending | None = None
    rest: str = ""
    breaks: bool = False
    width: int = 0
