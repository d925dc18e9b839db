"""What the readers of one text share, and what they make of a row."""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field
from typing import Final

from tabforge.limits import MAX_BARS
from tabforge.syntax.grammar import Row
from tabforge.syntax.report import Report
from tabforge.syntax.textorigins import RowPlaces, TextOrigins

MAX_SIGNS: Final = 100_000
"""Bar lines of one study that are not plain."""


@dataclass(slots=True)
class Bars:
    """A row as it was written, from ``start``.

    ``signs`` has the bar lines that are not plain: the number of bars before each, the sign, its offset.
    ``leading``: a bar line stands before the first bar.
    """

    bars: list[str]
    places: RowPlaces
    start: int
    signs: list[tuple[int, str, int]] = field(default_factory=list)
    leading: bool = False


@dataclass(slots=True)
class Reading:
    """What the readers of one text share.

    ``known`` remembers the bars of each kind of row and what became of them, ``good`` cells that are right; ``bars`` and ``signs``
    count those of all rows.
    """

    text: str
    report: Report
    origins: TextOrigins
    known: dict[str, dict[str, str]] = field(default_factory=dict)
    good: dict[str, set[str]] = field(default_factory=dict)
    bars: int = 0
    signs: int = 0

    def room(self, more: int) -> bool:
        """Count further bars; False if they are too many for one study."""
        self.bars += more
        return self.bars <= MAX_BARS

    def sign_room(self, more: int) -> bool:
        """Count further bar lines that are not plain; False if they are too many for one study."""
        self.signs += more
        return self.signs <= MAX_SIGNS


def begin_empty(row: Row, bars: Bars) -> None:
    """Put an empty bar before the first: the bar line that leads the row is the one that ends it."""
    places, at = bars.places, bars.start
    bars.bars.insert(0, "." if row.per_bar else "")
    places.places[:0] = array("I", [at, at])
    places.odd = {index + 1: starts for index, starts in places.odd.items()}
    if row.per_bar:
        places.odd[0] = array("I", [at])
    bars.signs[:] = [(before + 1, sign, offset) for before, sign, offset in bars.signs]
    bars.leading = False
