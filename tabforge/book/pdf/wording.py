"""Words as they are printed."""

from __future__ import annotations

import re
from typing import Final

_LONG: Final = re.compile(r"\S{31,}")
_STEP: Final = 15
_SHORTEST: Final = 56
_ROOT: Final = re.compile(r"^([A-G])(b+|#+)(?= )")
_SIGNS: Final = str.maketrans({"b": "♭", "#": "♯"})


def breakable(words: str) -> str:
    """The same words with places where one of extreme length may be broken, so that it does not leave the page."""
    return _LONG.sub(lambda found: "\u200b".join(found[0][at : at + _STEP] for at in range(0, len(found[0]), _STEP)), words)


def short(words: str) -> str:
    """Words cut to what a running head holds."""
    return words if len(words) <= _SHORTEST else words[: _SHORTEST - 1].rstrip() + "…"


def with_signs(key: str) -> str:
    """A key with the signs for flat and sharp: ``B♭ lydian``."""
    return _ROOT.sub(lambda found: found[1] + found[2].translate(_SIGNS), key)


def day_words(day: str) -> str:
    """A date of the form 2026-11-01 as it is read: 1 November 2026."""
    year, month, number = day.split("-")
    return f"{int(number)} {_MONTHS[int(month) - 1]} {year}"


_MONTHS: Final = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December",
)  # fmt: skip
