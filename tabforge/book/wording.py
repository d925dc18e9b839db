"""Words as they are printed."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

_LONG: Final = re.compile(r"\S{31,}")
_STEP: Final = 15
_ROOT: Final = re.compile(r"^([A-G])(b+|#+)(?= )")
_SIGNS: Final = str.maketrans({"b": "♭", "#": "♯"})


def breakable(words: str) -> str:
    """The same words with places where one of extreme length may be broken, so that it does not leave the page."""
    return _LONG.sub(lambda found: "\u200b".join(found[0][at : at + _STEP] for at in range(0, len(found[0]), _STEP)), words)


def short(words: str, letters: int) -> str:
    """Words cut to so many letters."""
    return words if len(words) <= letters else words[: letters - 1].rstrip() + "…"


def with_signs(key: str) -> str:
    """A key with the signs for flat and sharp: ``B♭ lydian``."""
    return _ROOT.sub(lambda found: found[1] + found[2].translate(_SIGNS), key)


class Day(NamedTuple):
    """A day of the calendar."""

    year: int
    month: int
    day: int

    @property
    def words(self) -> str:
        """The day as it is read: 1 November 2026."""
        return f"{self.day} {_MONTHS[self.month - 1]} {self.year}"


def day_of(written: str) -> Day | None:
    """The day of a date of the form 2026-11-01, None if there is no such day."""
    from calendar import monthrange  # noqa: PLC0415  # pure, but not cheap

    day = Day(*(int(each) for each in written.split("-")))
    return day if day.year and day.day <= monthrange(day.year, day.month)[1] else None


_MONTHS: Final = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip
