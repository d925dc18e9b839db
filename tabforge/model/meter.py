"""Meter, tempo and swing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from tabforge.model.values import NoteValue


@dataclass(frozen=True, slots=True, kw_only=True)
class Meter:
    """A time signature. ``groups`` are its numerator's parts: (4,) for 4/4, (2, 2, 3) for 2+2+3/8; ``unit`` its denominator."""

    groups: tuple[int, ...]
    unit: int

    @property
    def beats(self) -> int:
        """The whole numerator."""
        return sum(self.groups)

    @property
    def quarters(self) -> Fraction:
        """Length of a bar in quarter notes."""
        return Fraction(self.beats * 4, self.unit)

    @property
    def compound(self) -> bool:
        """Beats of three units each: 6/8, 9/8, 12/8, 6/16 and so on."""
        return len(self.groups) == 1 and self.unit >= 8 and self.beats > 3 and self.beats % 3 == 0

    @property
    def pulses(self) -> tuple[int, ...]:
        """The beats a player counts, each in units of the denominator; they add up to ``beats``.

        Written groups stand; compound meters count in threes; other meters over 8 or shorter count in twos with a three at the
        end where the number is odd (common practice, no source); the rest count every unit.
        """
        if len(self.groups) > 1:
            return self.groups
        if self.compound:
            return (3,) * (self.beats // 3)
        if self.unit >= 8 and self.beats > 3:
            return (2,) * (self.beats // 2 - self.beats % 2) + (3,) * (self.beats % 2)
        if self.unit >= 8:
            return (self.beats,)
        return (1,) * self.beats

    def __str__(self) -> str:
        return f"{'+'.join(str(part) for part in self.groups)}/{self.unit}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tempo:
    """Beats a minute, the note value that is the beat (with dots), and words such as "Slowly" that stand before it."""

    bpm: float
    beat: NoteValue
    dots: int = 0
    words: str | None = None

    @property
    def quarters_per_minute(self) -> float:
        """The tempo in quarter notes a minute."""
        return self.bpm * float(self.beat.quarters) * (1.0, 1.5, 1.75)[self.dots]


TEMPO_CHANGES: Final = {"rit": "rit.", "rall": "rall.", "accel": "accel.", "atempo": "a tempo"}
"""How a change of tempo is written in a tempo row, and its words in the score."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """Pairs of ``value`` are played long–short as ``first`` to ``second`` (MusicXML 4.0's swing)."""

    value: NoteValue
    first: int = 2
    second: int = 1
