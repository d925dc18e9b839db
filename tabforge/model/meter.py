"""Meter, tempo and swing."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

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


@dataclass(frozen=True, slots=True, kw_only=True)
class Swing:
    """Pairs of ``value`` are played long–short as ``first`` to ``second`` (MusicXML 4.0's swing)."""

    value: NoteValue
    first: int = 2
    second: int = 1
