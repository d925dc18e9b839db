"""Keys: signatures, walks through the twelve roots, and the plainer of two spellings of a root."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import Final, Literal

from tabforge.model.pitch import STEPS, PitchClass
from tabforge.model.score import Scale
from tabforge.theory.intervals import MOST_IN_SCALE, degree_interval, transpose_class
from tabforge.theory.labels import read_label

LINE: Final = "FCGDAEB"
"""The letters a fifth apart: the order in which a signature adds sharps, and backward flats (common practice)."""

MODE_FIFTHS: Final[Mapping[str, int]] = MappingProxyType(
    {"lydian": 1, "ionian": 0, "mixolydian": -1, "dorian": -2, "aeolian": -3, "phrygian": -4, "locrian": -5}
)
"""Sharps that the signature of each mode has more than that of the major key on the same root."""

MOST_FIFTHS: Final = 7
"""A key signature has at most seven sharps or flats."""

Way = Literal["fifths", "fourths", "chromatic"]
_WAY_SEMITONES: Final[dict[Way, int]] = {"fifths": 7, "fourths": 5, "chromatic": 1}


def key_fifths(tonic: PitchClass, mode: str = "ionian") -> int:
    """Sharps (or flats, below 0) of a key; more than seven where the key exists on paper only. KeyError for an unknown mode."""
    return LINE.index(tonic.step) - 1 + 7 * tonic.alter + MODE_FIFTHS[mode]


def written_fifths(tonic: PitchClass, mode: str | None) -> int:
    """The signature to write: that of the mode on this root, or 0 where there is none of at most seven signs, or no mode."""
    if mode is None:
        return 0
    fifths = key_fifths(tonic, mode)
    return fifths if abs(fifths) <= MOST_FIFTHS else 0


def tonic_of(fifths: int, mode: str = "ionian") -> PitchClass:
    """The root whose key in this mode has this signature. KeyError for an unknown mode."""
    alter, letter = divmod(fifths - MODE_FIFTHS[mode] + 1, 7)
    return PitchClass(LINE[letter], alter)


@cache
def signature(fifths: int) -> Mapping[str, int]:
    """What a key signature does to each of the seven letters, in semitones."""
    letters = LINE[:fifths] if fifths >= 0 else LINE[fifths:]
    return MappingProxyType({step: (1 if fifths > 0 else -1) if step in letters else 0 for step in STEPS})


@cache
def spelled(root: PitchClass, labels: tuple[str, ...]) -> tuple[PitchClass, ...]:
    """The notes of these degrees on a root: one letter a degree, unless that took more than triple accidentals."""
    return tuple(transpose_class(root, degree_interval(read_label(label)), MOST_IN_SCALE) for label in labels)


def _clumsiness(root: PitchClass, labels: tuple[str, ...]) -> tuple[int, int]:
    """How clumsy a spelling is: accidentals beyond single ones, then all accidentals."""
    alters = [abs(tone.alter) for tone in (root, *spelled(root, labels))]
    return sum(alter - 1 for alter in alters if alter > 1), sum(alters)


@cache
def _plain_root(semitone: int, labels: tuple[str, ...]) -> PitchClass:
    roots = (PitchClass(step, alter) for alter in (0, -1, 1) for step in STEPS)
    return min((root for root in roots if root.semitone == semitone % 12), key=lambda root: _clumsiness(root, labels))


def plain_root(scale: Scale, semitone: int) -> PitchClass:
    """The root of this pitch (0 is C, 11 is B) on which the scale needs fewer accidentals; between equals the natural, then the flat."""
    return _plain_root(semitone, scale.labels)


def walk(scale: Scale, way: Way) -> tuple[PitchClass, ...]:
    """Twelve roots, each a fifth, a fourth or a half step above the one before, the first the scale's own as it is spelled."""
    first = scale.root.pitch_class
    step = _WAY_SEMITONES[way]
    return (first, *(plain_root(scale, first.semitone + step * turn) for turn in range(1, 12)))


def plainer_root(scale: Scale) -> PitchClass | None:
    """For a scale with double accidentals, the enharmonic root that spells it more plainly (G# lydian: Ab); None if there is none."""
    root = scale.root.pitch_class
    if root.alter in (-1, 0, 1) and all(abs(tone.alter) < 2 for tone in scale.tones):
        return None
    plainer = plain_root(scale, root.semitone)
    return plainer if _clumsiness(plainer, scale.labels) < _clumsiness(root, scale.labels) else None
