# ruff: noqa: E501  # tables are read by their columns
"""Chords of scales and their numerals against music21: every degree of every seven-note scale of the table.

The normal run takes each scale on two roots, ``--long`` on all twelve (and on both spellings of the black keys).

What music21 does not model, so that other checks must do: it has no common name for altered fifths as a player means them (7b5 is its
"French augmented sixth chord in root position", majb5 an "incomplete half-diminished seventh chord"), so of those only the intervals above the root
are compared; no names of ninth chords that tell their quality; no numeral that says the quality of a seventh (its ``II7`` takes the seventh from
the key); and no numerals in keys of modes: degrees are compared in the major key on the root, where an accidental says how far they
lie from it. A root that sounds like a note of that key and is spelled otherwise (Fb in C) counts as that note with us, and there not.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import pytest
from music21 import chord as m21chord
from music21 import key as m21key
from music21 import pitch as m21pitch
from music21 import roman as m21roman

from tabforge.model.pitch import STEPS, Pitch, PitchClass
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_labels
from tabforge.theory.harmony import Stack, stacked
from tabforge.theory.labels import read_label
from tabforge.theory.roman import numeral_of, read_numeral
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale

SEVEN: Final = [kind for kind in SCALES if len(kind.labels) == 7]

ROOTS: Final = [PitchClass(step, alter) for step in STEPS for alter in (-1, 0, 1) if f"{step}{alter}" not in ("E1", "B1", "C-1", "F-1")]

NAMES: Final = {
    "": "major triad", "m": "minor triad", "dim": "diminished triad", "aug": "augmented triad",
    "maj7": "major seventh chord", "7": "dominant seventh chord", "m7": "minor seventh chord",
    "m7b5": "half-diminished seventh chord", "dim7": "diminished seventh chord", "mmaj7": "minor-augmented tetrachord",
    "augmaj7": "augmented major tetrachord", "aug7": "augmented seventh chord",
}
"""Our suffix → music21's ``commonName``."""

NUMERALS: Final = ("", "m", "dim", "aug", "dim7", "m7b5")
"""Suffixes whose numeral music21 builds as we mean it."""


def on(root: PitchClass, name: str) -> Scale:
    found = named_scale(Pitch(root.step, root.alter, 3), name)
    assert found
    return found


def theirs(tone: PitchClass, octave: int | None = None) -> m21pitch.Pitch:
    made = m21pitch.Pitch(tone.step)
    made.accidental = m21pitch.Accidental(tone.alter)
    made.octave = octave
    return made


def chord_of(stack: Stack) -> m21chord.Chord:
    """The stack in close position from its root."""
    pitches: list[m21pitch.Pitch] = []
    octave = 3
    for tone in stack.tones:
        if pitches and STEPS.index(tone.step) < STEPS.index(pitches[-1].step):
            octave += 1
        pitches.append(theirs(tone, octave))
    return m21chord.Chord(pitches)


def stacks(name: str, root: PitchClass) -> Iterator[tuple[Scale, int, Stack]]:
    own = on(root, name)
    for size in (3, 4):
        for at, stack in enumerate(stacked(own, size)):
            yield own, at, stack


def judge(name: str, root: PitchClass) -> None:
    """One scale on one root: the name, the root and the numeral of each of its triads and sevenths."""
    key = m21key.Key(theirs(root), "major")
    plain = on(root, "major")
    for own, at, stack in stacks(name, root):
        their = chord_of(stack)
        if stack.chord is None:
            assert their.quality == "other" or their.commonName.startswith("enharmonic equivalent"), (stack, their.commonName)
            continue
        suffix = stack.chord.suffix
        meant = {read_label(label).number: read_label(label).offset for label in chord_labels(stack.chord)}
        assert meant == {1: 0} | {step: their.semitonesFromChordStep(step) for step in (3, 5, 7) if step in meant}
        assert their.root().name == theirs(own.tones[at]).name
        # In its own scale the bare numeral stands on this degree.
        assert stack.numeral is not None
        assert not stack.numeral.startswith(("b", "#", "n"))
        back = read_numeral(stack.numeral, own)
        assert back is not None
        assert (back.suffix, back.root) == (suffix, stack.chord.root)
        if suffix not in NAMES:
            continue
        assert their.commonName == NAMES[suffix], stack
        # Where it stands, and the case.
        again = m21roman.romanNumeralFromChord(their, key)
        numeral = numeral_of(stack.chord, plain)
        assert numeral is not None
        assert stack.chord.root is not None
        if stack.chord.root not in plain.tones and stack.chord.root.semitone in {tone.semitone for tone in plain.tones}:
            continue
        assert numeral.startswith(again.frontAlterationString.replace("-", "b") + again.romanNumeral.lstrip("#b-")), (numeral, again.figure)
        # Built again by music21 from our numeral in the major key.
        if suffix in NUMERALS:
            built = m21roman.RomanNumeral(numeral.replace("°", "o"), key)
            assert {each.name for each in built.pitches} == {theirs(tone).name for tone in stack.tones}, (numeral, stack)


def small(own: Scale) -> bool:
    """Whether no tone has more than a double accidental: music21 has no others in chords."""
    return all(abs(tone.alter) < 3 for tone in own.tones)


@pytest.mark.parametrize(("at", "kind"), list(enumerate(SEVEN)), ids=[kind.name for kind in SEVEN])
def test_chords_and_numerals_of_every_degree(at: int, kind: object, request: pytest.FixtureRequest) -> None:
    name = getattr(kind, "name", "")
    roots = ROOTS if request.config.getoption("--long") else [ROOTS[at % len(ROOTS)], ROOTS[(5 * at + 3) % len(ROOTS)]]
    judged = [root for root in roots if small(on(root, name))]
    for root in judged:
        judge(name, root)


def test_every_scale_is_judged_on_some_root() -> None:
    assert len(SEVEN) >= 49
    for kind in SEVEN:
        assert sum(small(on(root, kind.name)) for root in ROOTS) >= 12, kind.name


def test_a_wrong_name_would_be_found() -> None:
    """The comparison itself can fail: a chord of other notes has another name there."""
    stack = stacked(on(PitchClass("C"), "major"), 4)[4]
    assert stack.chord is not None
    assert NAMES[stack.chord.suffix] != chord_of(stacked(on(PitchClass("C"), "lydian"), 4)[4]).commonName


@pytest.mark.parametrize("root", ROOTS, ids=str)
def test_natural_minor_has_the_numerals_of_the_minor_key(root: PitchClass) -> None:
    """music21's minor key counts III, VI and VII from the natural minor scale, as a bare numeral of ours does."""
    own = on(root, "natural minor")
    if not small(own):
        return
    key = m21key.Key(theirs(root), "minor")
    for stack in stacked(own, 3):
        assert stack.numeral is not None
        built = m21roman.RomanNumeral(stack.numeral.replace("°", "o"), key)
        assert {each.name for each in built.pitches} == {theirs(tone).name for tone in stack.tones}, stack
