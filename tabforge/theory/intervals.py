"""Intervals between spelled pitches, and transposition that keeps them.

An interval is counted twice over, as theory does: in letters (a third is two letters on) and in semitones (a minor third is three).
"""

from __future__ import annotations

from typing import Final, NamedTuple

from tabforge.model.pitch import SEMITONES, STEPS, Pitch, PitchClass
from tabforge.theory.labels import Label

_NATURALS: Final = tuple(SEMITONES[step] for step in STEPS)
_INDEX: Final = {step: index for index, step in enumerate(STEPS)}

MOST_ACCIDENTALS: Final = 2
"""A transposed note that would need more is spelled with another letter."""

MOST_IN_SCALE: Final = 3
"""A scale keeps one letter a degree up to triple accidentals."""


class Interval(NamedTuple):
    """Letters up (an octave is 7) and semitones up (12). Both are negative for an interval downward."""

    letters: int
    semitones: int


def _letter_number(pitch: Pitch) -> int:
    return pitch.octave * 7 + _INDEX[pitch.step]


def _at_letter(number: int, midi: int, cents: int) -> Pitch:
    """The pitch that is written on this letter (C0 is 0, counted in sevens) and sounds as this MIDI number and the cents above it."""
    octave, index = divmod(number, 7)
    return Pitch(STEPS[index], midi - (octave + 1) * 12 - _NATURALS[index], octave, cents)


def interval(low: Pitch, high: Pitch) -> Interval:
    """From one pitch to another."""
    return Interval(_letter_number(high) - _letter_number(low), high.midi - low.midi)


def interval_up(low: PitchClass, high: PitchClass) -> Interval:
    """From one pitch class up to another, less than an octave of letters: C to B is (6, 11), C to Cb (0, -1), C to B# (6, 12)."""
    start, letters = _INDEX[low.step], (_INDEX[high.step] - _INDEX[low.step]) % 7
    octave, index = divmod(start + letters, 7)
    return Interval(letters, octave * 12 + _NATURALS[index] - _NATURALS[start] + high.alter - low.alter)


def respell(pitch: Pitch, most: int = MOST_ACCIDENTALS) -> Pitch:
    """The same sound with at most ``most`` accidentals (1 or more), on the nearest letter that allows it."""
    while abs(pitch.alter) > most:
        pitch = _at_letter(_letter_number(pitch) + (1 if pitch.alter > 0 else -1), pitch.midi, pitch.cents)
    return pitch


def transpose(pitch: Pitch, by: Interval, most: int = MOST_ACCIDENTALS) -> Pitch:
    """A pitch moved by an interval; respelled only if it would need more than ``most`` accidentals."""
    return respell(_at_letter(_letter_number(pitch) + by.letters, pitch.midi + by.semitones, pitch.cents), most)


def transpose_class(pitch: PitchClass, by: Interval, most: int = MOST_ACCIDENTALS) -> PitchClass:
    """The same for a pitch class."""
    return transpose(Pitch(pitch.step, pitch.alter, 4), by, most).pitch_class


def degree_interval(label: Label) -> Interval:
    """From a root to a degree: ``#4`` is three letters and six semitones."""
    return Interval(label.number - 1, label.offset)
