"""Naming the chord that some notes make: by how it is spelled, by how it sounds, or as another chord over its lowest note."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import combinations
from typing import Final

from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import PitchClass
from tabforge.theory.chord_table import ADDED, ALTERED, QUALITIES
from tabforge.theory.chords import chord_labels, chord_named
from tabforge.theory.labels import read_label

_C: Final = PitchClass("C")
_UNUSUAL: Final = ("b6", "addb6", "add#5", "addb7", "add7", "add2")
"""Changes that some quality of the table, or another change, says better."""

_CHANGED: Final = ("", "m", "aug", "7", "maj7", "m7", "m7b5", "dim7", "mmaj7", "augmaj7", "aug7", "9", "maj9", "m9", "7sus4")
"""Qualities that may be named with a change after them; changes make less of others."""

_FEWEST: Final = 2
"""A power chord is the smallest there is."""

_MOST_TURNED: Final = 4
"""With more notes than these some chord or other fits, and says nothing."""

_TWO_CHANGES: Final = ("7", "m7", "maj7", "m7b5", "dim7", "mmaj7", "augmaj7", "aug7")
"""Qualities that may be named with two changes after them (7#5b9)."""


def _suffixes() -> Iterator[str]:
    """Suffixes from the plainest: the table's own, then those with one change, then sevenths with two."""
    forms = [quality.forms[0] for quality in QUALITIES]
    changes = [*ALTERED, *(f"add{each}" for each in ADDED)]
    usual = [change for change in changes if change not in _UNUSUAL]
    yield from forms
    for form in _CHANGED:
        yield from (form + change for change in usual)
    for form in _TWO_CHANGES:
        yield from (form + first + second for first, second in combinations(usual, 2))


@cache
def _by_labels() -> dict[tuple[str, ...], str]:
    named: dict[tuple[str, ...], str] = {}
    for suffix in _suffixes():
        chord = chord_named(_C, suffix)
        if chord:
            named.setdefault(chord_labels(chord), chord.suffix)
    return named


@cache
def _by_sound() -> dict[frozenset[int], str]:
    """The table's own qualities alone: with changes after it a name would fit nearly any notes."""
    named: dict[frozenset[int], str] = {}
    for quality in QUALITIES:
        chord = chord_named(_C, quality.forms[0])
        if chord:
            named.setdefault(frozenset(read_label(label).offset % 12 for label in chord_labels(chord)), chord.suffix)
    return named


def suffix_of_labels(labels: tuple[str, ...]) -> str | None:
    """What follows the root of the chord with exactly these tones (by number, from 1); None if it has no usual name."""
    return _by_labels().get(labels)


def suffix_of_sound(semitones: frozenset[int]) -> str | None:
    """The same for semitones above the root, however they are spelled."""
    return _by_sound().get(semitones)


def name_chord(labels: tuple[str, ...], tones: tuple[PitchClass, ...]) -> tuple[ChordSymbol | None, ChordSymbol | None]:
    """The name of a chord as it is spelled, and, if that has none, the name of what sounds like it.

    ``labels`` are its tones against the major scale on the first of ``tones``. What sounds like it may be another spelling on the same root
    (1 b3 5 bb7 sounds as a minor sixth) or another chord over the first tone (C E A is Am/C); both may be None.
    """
    suffix = suffix_of_labels(labels)
    if suffix is not None:
        return chord_named(tones[0], suffix), None
    semitones = [tone.semitone for tone in tones]
    for root in tones if len(tones) <= _MOST_TURNED else tones[:1]:
        suffix = suffix_of_sound(frozenset((each - root.semitone) % 12 for each in semitones))
        if suffix is not None and len(set(semitones)) > _FEWEST:
            return None, chord_named(root, suffix, tones[0] if root != tones[0] else None)
    return None, None
