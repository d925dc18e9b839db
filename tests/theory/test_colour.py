# ruff: noqa: E501  # tables are read by their columns
"""The colour of scales: what to stay on, what to colour with, what to leave alone.

All expectations are common practice, no source, unless a line says otherwise; the program has no table of them.
"""

from __future__ import annotations

from typing import Final

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.model.pitch import STEPS, Pitch
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_tones
from tabforge.theory.colour import advised_vamp, home_chord, vamp_chords
from tabforge.theory.harmony import holds
from tabforge.theory.labels import read_label
from tabforge.theory.modes import modes_of, parent_of
from tabforge.theory.roman import read_numeral
from tabforge.theory.scale_families import FAMILIES
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale, on_root, scale_from_semitones
from tabforge.theory.traits import Role, colour_of, reference_of, role_of, with_role


def scale(name: str, root: str = "C") -> Scale:
    found = named_scale(Pitch(root[0], root.count("#") - root[1:].count("b"), 3), name)
    assert found
    return found


def names(own: Scale, role: Role) -> list[str]:
    return [stack.named.text for stack in with_role(own, role) if stack.named]


@pytest.mark.parametrize(("root", "name", "vamp"), [
    # Two chords, the home and the one that says it: of general use in teaching modes.
    ("C", "major", "C F G"), ("D", "dorian", "Dm G"), ("E", "phrygian", "Em F"), ("F", "lydian", "F G"), ("G", "mixolydian", "G F"), ("A", "natural minor", "Am G F"),
    ("B", "locrian", "Bdim F"),
    ("A", "harmonic minor", "Am E"), ("E", "phrygian dominant", "E F Dm"), ("D", "dorian #4", "Dm E"), ("F", "lydian #2", "F E"),
    ("A", "melodic minor", "Am D E"), ("D", "lydian dominant", "D7 E"), ("C", "harmonic major", "C Fm"), ("C", "double harmonic", "C Db"),
    ("C", "whole tone", "Caug Daug"), ("A", "minor pentatonic", "Am C"),
])
def test_the_vamp_that_keeps_the_colour(root: str, name: str, vamp: str) -> None:
    own = scale(name, root)
    assert " ".join(chord.text for chord in vamp_chords(own)) == vamp
    read = [read_numeral(text, own) for text in advised_vamp(own)]
    assert read == list(vamp_chords(own))


@pytest.mark.parametrize(("name", "tones"), [
    ("lydian", "#4"), ("mixolydian", "b7"), ("dorian", "6"), ("phrygian", "b2"), ("locrian", "b2 b5"), ("major", ""), ("natural minor", ""), ("harmonic minor", "7"),
    ("melodic minor", "6 7"), ("phrygian dominant", "b2 b6 b7"), ("lydian dominant", "#4 b7"), ("dorian #4", "#4 6"), ("minor pentatonic", ""), ("minor blues", "b5"),
    ("mixolydian b6", "b6 b7"), ("kumoi", "6"),
])
def test_characteristic_tones(name: str, tones: str) -> None:
    assert " ".join(tone.degree for tone in colour_of(scale(name)).tones) == tones


def test_what_tells_plain_major_and_minor() -> None:
    assert [tone.degree for tone in colour_of(scale("major")).telling] == ["4", "7"]
    assert [tone.degree for tone in colour_of(scale("natural minor")).telling] == ["2", "b6"]
    assert colour_of(scale("dorian")).telling == ()


def test_lydian_stays_on_one_and_leaves_five_alone() -> None:
    own = scale("lydian", "Bb")
    assert names(own, "colour") == ["C", "Am", "Am7"]
    assert names(own, "pull") == ["Edim", "C7", "Em7b5"]
    assert names(own, "parent") == ["F", "Fmaj7"]
    assert str(colour_of(own).parent) == "F major"


@pytest.mark.parametrize(("root", "name", "pull", "parent"), [
    # In each mode of C major: what holds B and F, and what is C.
    ("D", "dorian", "Bdim G7 Bm7b5", "C Cmaj7"), ("E", "phrygian", "Bdim G7 Bm7b5", "C Cmaj7"), ("G", "mixolydian", "Bdim Bm7b5", "C Cmaj7"),
    ("A", "natural minor", "Bdim G7 Bm7b5", "C Cmaj7"), ("C", "major", "", ""),
    # In each mode of A harmonic minor: what holds G# and D, and what is Am.
    ("E", "phrygian dominant", "G#dim G#dim7", "Am Ammaj7"), ("D", "dorian #4", "G#dim E7 G#dim7", "Am Ammaj7"), ("A", "harmonic minor", "", ""),
])
def test_what_pulls_to_the_parent(root: str, name: str, pull: str, parent: str) -> None:
    own = scale(name, root)
    assert sorted(names(own, "pull")) == sorted(pull.split())
    assert names(own, "parent") == parent.split()


def test_the_tritone_and_where_it_pulls() -> None:
    (tritone,) = colour_of(scale("dorian", "D")).tritones
    assert [str(tone.note) for tone in tritone.tones] == ["F", "B"]
    assert [[str(goal.note) for goal in goals] for goals in tritone.goals] == [["E"], ["C"]]
    assert tritone.away
    assert not colour_of(scale("major")).tritones[0].away
    assert not colour_of(scale("minor pentatonic")).tritones
    assert len(colour_of(scale("harmonic minor")).tritones) == 2


@pytest.mark.parametrize("parent", FAMILIES)
def test_every_mode_knows_its_parent_and_its_sisters(parent: str) -> None:
    own = scale(parent)
    for kind, mode in zip(FAMILIES[parent], modes_of(own), strict=True):
        assert mode.name == kind.name
        turned = scale(kind.name, str(mode.root))
        found = parent_of(turned)
        assert str(found) == (f"C {parent}" if mode.degree != "1" else "None")
        assert {tone.semitone for tone in turned.tones} == {tone.semitone for tone in own.tones}


MANY: Final = st.sampled_from(SCALES)
ROOTS: Final = st.builds(Pitch, st.sampled_from(STEPS), st.integers(-1, 1), st.integers(1, 5))
OWN: Final = st.sets(st.integers(1, 11), min_size=1, max_size=10)


def judged(own: Scale) -> None:
    colour = colour_of(own)
    missing = set(own.offsets) - set(reference_of(own).offsets)
    assert {read_label(tone.degree).offset for tone in colour.tones} == missing
    vamp = vamp_chords(own)
    assert len(vamp) <= 4
    assert all(holds(own, chord) for chord in vamp)
    assert len(advised_vamp(own)) == len(vamp)
    assert not vamp or vamp[0].root == own.tones[0]
    assert bool(vamp) == (home_chord(own) is not None)
    if colour.parent is not None:
        for chord in vamp[1:]:
            assert role_of(own, chord) in ("colour", "plain")
    for tritone in colour.tritones:
        low, high = (tone.note.semitone for tone in tritone.tones)
        assert (high - low) % 12 == 6
        for tone, goals in zip(tritone.tones, tritone.goals, strict=True):
            assert all((goal.note.semitone - tone.note.semitone) % 12 in (1, 11) for goal in goals)


@given(MANY, ROOTS)
def test_what_holds_for_every_named_scale(kind: object, root: Pitch) -> None:
    own = named_scale(root, getattr(kind, "name", ""))
    assert own is not None
    judged(own)
    there, here = (advised_vamp(on_root(own, each)) for each in (root, Pitch("C", 0, 3)))
    assert there == here  # a vamp in numerals moves with its scale


@given(OWN, ROOTS)
def test_what_holds_for_scales_of_ones_own(semitones: set[int], root: Pitch) -> None:
    own = scale_from_semitones(root, {0, *semitones})
    assert own is not None
    judged(own)


@pytest.mark.parametrize("kind", SCALES, ids=lambda kind: kind.name)
def test_the_vamp_sounds_every_characteristic_tone_where_a_plain_triad_has_it(kind: object) -> None:
    own = scale(getattr(kind, "name", ""))
    vamp = vamp_chords(own)
    if len(vamp) == 4 or not vamp:
        return
    sounded = {tone.semitone for chord in vamp for tone in chord_tones(chord)}
    for tone in colour_of(own).tones:
        if tone.note.semitone not in sounded:
            colours = [stack for stack in with_role(own, "colour") if stack.chord and stack.chord.suffix in ("", "m", "dim", "aug")]
            assert len(own.tones) != 7 or not any(tone.note in stack.tones for stack in colours), tone
