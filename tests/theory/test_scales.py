"""Scales on a root: worked examples, one's own scales, and properties that hold for every root."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.model.pitch import SEMITONES, STEPS, Pitch, parse_pitch
from tabforge.model.score import Scale
from tabforge.theory.labels import plain_labels, read_label
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scale_text import steps_text, tones_text
from tabforge.theory.scales import (
    all_scale_names,
    named_scale,
    on_root,
    scale_from_degrees,
    scale_from_semitones,
    scale_from_steps,
    scale_names,
)


def at(text: str) -> Pitch:
    pitch = parse_pitch(text)
    assert pitch is not None
    return pitch


ROOTS = st.builds(Pitch, st.sampled_from(STEPS), st.integers(-1, 1), st.integers(1, 5))
KINDS = st.sampled_from(SCALES)


@pytest.mark.parametrize(
    ("root", "name", "notes", "fifths"),
    [
        # Worked by hand: letter by letter from the root, accidentals as the steps demand.
        ("Bb2", "lydian", "Bb C D E F G A", -1),
        ("G#2", "lydian", "G# A# B# C## D# E# F##", 0),
        ("Ab2", "lydian", "Ab Bb C D Eb F G", -3),
        ("C4", "altered", "C Db Eb Fb Gb Ab Bb", -5),
        ("Db3", "superlocrian bb7", "Db Ebb Fb Gbb Abb Bbb Cbb", 0),
        ("F#3", "enigmatic", "F# G A# B# C## D## E#", 7),
        ("E3", "phrygian dominant", "E F G# A B C D", 0),
        ("A3", "harmonic minor", "A B C D E F G#", 0),
        ("Eb3", "minor pentatonic", "Eb Gb Ab Bb Db", -6),
        ("A2", "minor blues", "A C D Eb E G", 0),
        ("F3", "whole tone", "F G A B C# Eb", 0),
        ("D3", "bebop dominant", "D E F# G A B C C#", 1),
    ],
)
def test_spelling_and_signature(root: str, name: str, notes: str, fifths: int) -> None:
    made = named_scale(at(root), name)
    assert made is not None
    assert (tones_text(made), made.fifths) == (notes, fifths)


def test_the_name_is_the_one_asked_for_in_the_tables_spelling() -> None:
    made, same = named_scale(at("C4"), "IONIAN mode"), named_scale(at("C4"), "major")
    assert made is not None
    assert same is not None
    assert (made.name, same.name) == ("ionian", "major")
    assert made.tones == same.tones


def test_an_unknown_name_is_none() -> None:
    assert named_scale(at("C4"), "lydain") is None


@pytest.mark.parametrize(
    ("semitones", "labels"),
    [
        ("0 2 4 6 7 9 11", "1 2 3 #4 5 6 7"),
        ("0 1 4 5 7 8 10", "1 b2 3 4 5 b6 b7"),
        ("0 2 3 6 7 8 11", "1 2 b3 #4 5 b6 7"),
        ("0 3 4 6 8 10 11", "1 #2 3 #4 #5 #6 7"),
        ("0 1 2 3 4 5 6", "1 b2 2 b3 3 4 b5"),  # a letter a degree would take quadruple flats
        ("0 3 5 7 10", "1 b3 4 5 b7"),
        ("0 4 5 9 10", "1 3 4 6 b7"),
        ("0 2 5 6 8 11", "1 2 4 b5 b6 7"),
        ("0 6", "1 #4"),
        ("0", "1"),
    ],
)
def test_own_scales_get_their_labels_by_theory(semitones: str, labels: str) -> None:
    made = scale_from_semitones(at("C4"), map(int, semitones.split()))
    assert made is not None
    assert " ".join(made.labels) == labels
    assert [read_label(label).offset for label in made.labels] == list(map(int, semitones.split()))


@pytest.mark.parametrize(
    ("steps", "labels"),
    [
        ("W W W H W W H", "1 2 3 #4 5 6 7"),
        ("H W+H H W H W W", "1 b2 3 4 5 b6 b7"),
        ("W+H W W W+H W", "1 b3 4 5 b7"),
        ("W+W W+W W+W", "1 3 b6"),
        ("H W+W H H W+W H", "1 b2 4 #4 5 7"),
    ],
)
def test_steps(steps: str, labels: str) -> None:
    made = scale_from_steps(at("D3"), steps.split(), "Kiln")
    assert made is not None
    assert (" ".join(made.labels), made.name) == (labels, "Kiln")
    assert steps_text(made.offsets) == steps


@pytest.mark.parametrize("steps", ["", "W W W", "W W W H W W W", "W W X H W W H", "W+ W H W W W H", "H W+W+W W W W"])
def test_steps_that_make_no_octave(steps: str) -> None:
    assert scale_from_steps(at("D3"), steps.split()) is None


def test_steps_wider_than_the_usual_are_taken_too() -> None:
    made = scale_from_steps(at("D3"), ["H", "W+W+W", "W", "W", "H"])
    assert made is not None
    assert made.offsets == (0, 1, 7, 9, 11)


@pytest.mark.parametrize("semitones", [[], [2, 4], [0, 12], [0, -1, 3], [0, 3, 13]])
def test_semitones_outside_the_octave_or_without_a_root(semitones: list[int]) -> None:
    assert scale_from_semitones(at("D3"), semitones) is None


@pytest.mark.parametrize("degrees", ["", "2 3 4", "1 #4 b5", "1 b1", "1 #7", "1 bb2", "1 8", "1 h3", "b1 2 3", "1 ###4"])
def test_degrees_that_make_no_scale(degrees: str) -> None:
    assert scale_from_degrees(at("D3"), degrees.split()) is None


def test_degrees_keep_their_names_and_are_put_in_order() -> None:
    made = scale_from_degrees(at("D3"), ["5", "1", "#2", "b7", "b4", "1"])
    assert made is not None
    # #2 and b4 are a half step apart: F and Gb on D, E# and Gb as spelled.
    assert made.labels == ("1", "#2", "b4", "5", "b7")
    assert tones_text(made) == "D E# Gb A C"


def test_a_scale_of_ones_own_that_is_a_known_one_bears_its_name_unless_given_another() -> None:
    made = scale_from_degrees(at("D3"), ["1", "2", "3", "#4", "5", "6", "b7"])
    assert made is not None
    assert made.name == "lydian dominant"
    unknown = scale_from_degrees(at("D3"), ["1", "2", "3", "#4", "b7"])
    assert unknown is not None
    assert unknown.name == "1 2 3 #4 b7"
    mine = scale_from_semitones(at("D3"), [0, 2, 3, 6, 7, 8, 11], "Kiln")
    assert mine is not None
    assert mine.name == "Kiln"


def natural_midi(scale: Scale) -> list[int]:
    """Semitones above C of each tone by its letter and accidentals, read again from the text."""
    return [SEMITONES[str(tone)[0]] + str(tone).count("#") - str(tone)[1:].count("b") for tone in scale.tones]


@given(ROOTS, KINDS)
def test_tones_sound_as_the_offsets_say(root: Pitch, kind) -> None:
    made = named_scale(root, kind.name)
    assert made is not None
    assert [(midi - root.midi) % 12 for midi in natural_midi(made)] == list(made.offsets)


@given(ROOTS, KINDS)
def test_seven_notes_use_seven_letters_in_order(root: Pitch, kind) -> None:
    made = named_scale(root, kind.name)
    assert made is not None
    places = [(STEPS.index(tone.step) - STEPS.index(root.step)) % 7 + 1 for tone in made.tones]
    assert places == list(made.numbers)
    if len(kind.labels) == 7:
        assert sorted(places) == [1, 2, 3, 4, 5, 6, 7]
    assert all(abs(tone.alter) <= 3 for tone in made.tones)


@given(ROOTS, st.lists(st.sampled_from(["H", "W", "W+H", "W+W"]), min_size=3, max_size=12))
def test_offsets_match_the_steps(root: Pitch, steps: list[str]) -> None:
    sizes = [{"H": 1, "W": 2, "W+H": 3, "W+W": 4}[step] for step in steps]
    made = scale_from_steps(root, steps)
    assert (made is not None) == (sum(sizes) == 12)
    if made:
        assert [high - low for low, high in pairwise((*made.offsets, 12))] == sizes


@given(ROOTS, st.sets(st.integers(1, 11), max_size=11))
def test_any_set_of_semitones_is_spelled_as_it_sounds(root: Pitch, others: set[int]) -> None:
    made = scale_from_semitones(root, {0, *others})
    assert made is not None
    assert made.offsets == tuple(sorted({0, *others}))
    assert [(midi - root.midi) % 12 for midi in natural_midi(made)] == list(made.offsets)
    assert list(made.numbers) == sorted(made.numbers)
    assert abs(made.fifths) <= 7


@given(st.sets(st.integers(1, 11), min_size=6, max_size=6))
def test_seven_notes_of_ones_own_use_seven_letters_where_double_accidentals_do(others: set[int]) -> None:
    offsets = (0, *sorted(others))
    made = scale_from_semitones(at("C4"), offsets)
    assert made is not None
    alters = [offset - major for offset, major in zip(offsets, (0, 2, 4, 5, 7, 9, 11), strict=True)]
    if all(abs(alter) <= 2 for alter in alters):
        assert made.numbers == (1, 2, 3, 4, 5, 6, 7)
        assert [tone.alter for tone in made.tones] == alters
    else:
        assert made.labels == plain_labels(offsets)


@given(st.builds(Pitch, st.sampled_from(STEPS), st.integers(-2, 2), st.integers(0, 6)), KINDS)
def test_absurd_roots_still_sound_right(root: Pitch, kind) -> None:
    made = named_scale(root, kind.name)
    assert made is not None
    assert [(tone.semitone - root.midi) % 12 for tone in made.tones] == list(made.offsets)
    assert all(abs(tone.alter) <= 3 for tone in made.tones)


@given(ROOTS, ROOTS, KINDS)
def test_moving_to_a_root_is_building_on_it(root: Pitch, other: Pitch, kind) -> None:
    made, there = named_scale(root, kind.name), named_scale(other, kind.name)
    assert made is not None
    assert on_root(made, other) == there


def test_lists_cover_the_table() -> None:
    assert len(scale_names()) == len(SCALES) > 80
    assert set(scale_names()) < set(all_scale_names())
    assert all(named_scale(at("F3"), name) for name in all_scale_names())
