"""Note values: the one home of every written duration.

Names are MusicXML 4.0's ``note-type-value``; letters are the language's. A value's length is exact: quarters of a note as a
Fraction, turned into whole ticks once a score's division is known.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteValue:
    """An undotted note value. ``quarters`` is its length in quarter notes; ``flags`` its number of beams (0 for a quarter)."""

    letter: str
    name: str
    spoken: str
    quarters: Fraction
    flags: int


VALUES: Final[tuple[NoteValue, ...]] = (
    NoteValue(letter="w", name="whole", spoken="whole note", quarters=Fraction(4), flags=0),
    NoteValue(letter="h", name="half", spoken="half note", quarters=Fraction(2), flags=0),
    NoteValue(letter="q", name="quarter", spoken="quarter note", quarters=Fraction(1), flags=0),
    NoteValue(letter="e", name="eighth", spoken="eighth note", quarters=Fraction(1, 2), flags=1),
    NoteValue(letter="s", name="16th", spoken="sixteenth note", quarters=Fraction(1, 4), flags=2),
    NoteValue(letter="t", name="32nd", spoken="thirty-second note", quarters=Fraction(1, 8), flags=3),
)
BY_LETTER: Final[dict[str, NoteValue]] = {value.letter: value for value in VALUES}

MAX_DOTS: Final = 2

DOT_FACTOR: Final[tuple[Fraction, ...]] = (Fraction(1), Fraction(3, 2), Fraction(7, 4))
"""A note with n dots lasts this many times its undotted value (common practice: each dot adds half of what precedes)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratio:
    """A tuplet: ``actual`` notes in the time of ``normal``."""

    actual: int
    normal: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """How one event is written: a value, its dots, and the tuplets around it from the outermost to the innermost.

    ``opens`` and ``closes`` hold the nesting levels (0 is the outermost) of the tuplets that begin and end on this event.
    ``units`` names, for each tuplet around the event, the value the ratio counts in (an eighth for three eighths in the time of two).
    One object is shared by all events that are written alike.
    """

    value: NoteValue
    dots: int = 0
    tuplets: tuple[Ratio, ...] = ()
    units: tuple[NoteValue, ...] = ()
    opens: tuple[int, ...] = ()
    closes: tuple[int, ...] = ()

    @property
    def quarters(self) -> Fraction:
        """Length in quarter notes, tuplets applied."""
        length = self.value.quarters * DOT_FACTOR[self.dots]
        for ratio in self.tuplets:
            length = length * ratio.normal / ratio.actual
        return length
