"""Spelled pitch in scientific pitch notation: C4 is middle C, A4 sounds at 440 Hz.

MIDI numbers follow the usual convention (MIDI 1.0 leaves the octave's name open; here C4 = 60).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Final

STEPS: Final = "CDEFGAB"
SEMITONES: Final[dict[str, int]] = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
"""Semitones of the natural letters above C."""

ACCIDENTALS: Final[dict[int, str]] = {-2: "bb", -1: "b", 0: "", 1: "#", 2: "##"}
"""What an alteration in semitones is written as in text."""

ALTERS: Final[dict[str, int]] = {text: alter for alter, text in ACCIDENTALS.items()}


@dataclass(frozen=True, slots=True, order=False)
class PitchClass:
    """A spelled pitch without an octave: a letter and an alteration in semitones (triple accidentals may occur: |alter| <= 3)."""

    step: str
    alter: int = 0

    @property
    def semitone(self) -> int:
        """0 (C) to 11 (B)."""
        return (SEMITONES[self.step] + self.alter) % 12

    def __str__(self) -> str:
        return self.step + ("#" * self.alter if self.alter > 0 else "b" * -self.alter)


@dataclass(frozen=True, slots=True, order=False)
class Pitch:
    """A spelled, sounding pitch. ``cents`` is what it sounds above its spelling (-50 < cents <= 50); below it where negative."""

    step: str
    alter: int
    octave: int
    cents: int = 0

    @property
    def midi(self) -> int:
        """MIDI note number of the spelling, cents aside: C4 is 60. May leave 0..127 for absurd octaves."""
        return (self.octave + 1) * 12 + SEMITONES[self.step] + self.alter

    @property
    def pitch_class(self) -> PitchClass:
        """The pitch without its octave."""
        return PitchClass(self.step, self.alter)

    def __str__(self) -> str:
        return f"{self.pitch_class}{self.octave}{f'{self.cents:+d}' if self.cents else ''}"


def nearest_midi(cents: int) -> tuple[int, int]:
    """A sound given in cents above MIDI note 0, as the nearest MIDI number and the cents above it (-50 < cents <= 50)."""
    midi = -((50 - cents) // 100)
    return midi, cents - 100 * midi


PITCH_TEXT: Final = r"[A-G](?:##|#|bb|b)?-?[0-9]"
CENTS_TEXT: Final = r"[+-](?:50|[1-4][0-9]|[1-9])"
"""What a pitch sounds above or below its name, in cents."""
PITCH_CLASS_TEXT: Final = r"[A-G](?:##|#|bb|b)?"
_PITCH: Final = re.compile(rf"([A-G])(##|#|bb|b)?(-?[0-9])({CENTS_TEXT})?")
_CLASS: Final = re.compile(r"([A-G])(##|#|bb|b)?")


@cache
def parse_pitch(text: str) -> Pitch | None:
    """The pitch a text such as ``Bb2`` or ``E4-40`` names, or None. Cached: equal texts give the same object.

    Fifty cents below a name keep its letter: they are counted from a half step below (``E4-50`` is Eb4 and fifty cents).
    """
    found = _PITCH.fullmatch(text)
    if found is None:
        return None
    alter, cents = ALTERS[found[2] or ""], int(found[4] or 0)
    return Pitch(found[1], alter - 1, int(found[3]), 50) if cents == -50 else Pitch(found[1], alter, int(found[3]), cents)


@cache
def parse_pitch_class(text: str) -> PitchClass | None:
    """The pitch class a text such as ``F##`` names, or None."""
    found = _CLASS.fullmatch(text)
    return PitchClass(found[1], ALTERS[found[2] or ""]) if found else None


_SHARPS: Final = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
_FLATS: Final = ("C", "Db", "D", "Eb", "E", "F", "Gb", "G", "Ab", "A", "Bb", "B")


@cache
def spell_plainly(midi: int, flats: bool = False) -> Pitch:
    """A MIDI number spelled with at most one accidental, sharps or flats."""
    name = (_FLATS if flats else _SHARPS)[midi % 12]
    return Pitch(name[0], ALTERS[name[1:]], midi // 12 - 1)
