"""The rhythm line: letters for durations, numbers for tuplets, and how far apart notes stand."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from tabforge.model.events import Event
from tabforge.model.values import DOT_FACTOR, MAX_DOTS, VALUES, NoteValue, Ratio

TIED: Final = "+"
"""Before the letter of an event that only continues the one before: ``q +e`` is one sound as long as both."""
REST: Final = "r"
GRACE: Final = "g"
GRACE_ON_BEAT: Final = "!"
USUAL_GRACE: Final = "eighth"

QUARTER_WIDTH: Final = 5
GROWTH: Final = 0.68
"""Columns of a quarter note, and the power they grow by: a note of twice the length takes 1.6 times the room. Engravers widen by
about 1.4 to 1.6 for each doubling (common practice, no source); a straight proportion would leave whole bars empty."""
MIN_WIDTH: Final = 2


def duration(value: NoteValue, dots: int) -> str:
    """A written duration: ``q.``."""
    return value.letter + "." * dots


def label(event: Event, tied: bool) -> str:
    """What stands in the rhythm line for an event. ``tied``: all its notes continue from before."""
    written = event.written
    if event.grace:
        value = "" if written.value.name == USUAL_GRACE else written.value.letter
        return GRACE + value + (GRACE_ON_BEAT if event.grace == "on" else "")
    text = duration(written.value, written.dots)
    if not event.notes:
        return REST + text
    return TIED + text if tied else text


def tuplet_number(ratio: Ratio) -> str:
    """The number in a tuplet's bracket: alone if it stands in the time of the power of two below it, else the ratio."""
    usual = 1
    while usual * 2 < ratio.actual:
        usual *= 2
    return str(ratio.actual) if ratio.normal == usual else f"{ratio.actual}:{ratio.normal}"


def room(quarters: float) -> int:
    """Columns from the start of a note to the next, for its length in quarter notes."""
    return max(MIN_WIDTH, round(QUARTER_WIDTH * math.pow(quarters, GROWTH)))


def spoken_length(quarters: Fraction) -> str:
    """A length as a sum of durations, the longest first: ``q.+s``. What is finer than the shortest value is given in quarter notes."""
    parts = []
    for value in VALUES:
        for dots in range(MAX_DOTS, -1, -1):
            length = value.quarters * DOT_FACTOR[dots]
            while length <= quarters:
                parts.append(duration(value, dots))
                quarters -= length
    if quarters:
        parts.append(f"{quarters} of a quarter")
    return "+".join(parts)
