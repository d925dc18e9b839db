"""Degrees as a player writes them, against the language reference's rules."""

from __future__ import annotations

from timeit import repeat

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.model.pitch import STEPS, Pitch, parse_pitch
from tabforge.model.score import Scale
from tabforge.theory.degrees import DegreeProblem, degree_label, in_scale, resolve_degree, spell_in_scale
from tabforge.theory.labels import MAJOR_OFFSETS
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale, scale_from_degrees


def scale_on(root: str, name: str) -> Scale:
    pitch = parse_pitch(root)
    assert pitch is not None
    made = named_scale(pitch, name)
    assert made is not None
    return made


@pytest.mark.parametrize(
    ("root", "name", "degree", "pitch"),
    [
        # Worked by hand from the language reference.
        ("Bb2", "lydian", "1", "Bb2"),
        ("Bb2", "lydian", "4", "E3"),
        ("Bb2", "lydian", "n4", "Eb3"),
        ("Bb2", "lydian", "#4", "E3"),
        ("Bb2", "lydian", "8", "Bb3"),
        ("Bb2", "lydian", "10", "D4"),
        ("Bb2", "lydian", "_5", "F2"),
        ("Bb2", "lydian", "__1", "Bb0"),
        ("Bb2", "lydian", "^5", "F4"),
        ("Bb2", "lydian", "_^5", "F3"),
        ("Bb2", "lydian", "b3", "Db3"),
        ("Bb2", "lydian", "bb7", "Abb3"),
        ("Bb2", "lydian", "##1", "B#2"),  # two half steps above B flat
        ("A2", "minor pentatonic", "3", "C3"),
        ("A2", "minor pentatonic", "7", "G3"),
        ("A2", "minor pentatonic", "10", "C4"),
        ("A2", "minor pentatonic", "n3", "C#3"),
        ("A2", "minor blues", "5", "E3"),
        ("A2", "minor blues", "b5", "Eb3"),
        ("C4", "chromatic", "7", "B4"),
        ("C4", "natural minor", "13", "Ab5"),
        ("C4", "major", "99", "C18"),
        ("C4", "major", "b1", "Cb4"),
        ("B3", "major", "n7", "A#4"),
        ("G#2", "lydian", "4", "C##3"),
        ("G#2", "lydian", "##4", "C###3"),
    ],
)
def test_degrees(root: str, name: str, degree: str, pitch: str) -> None:
    found = resolve_degree(scale_on(root, name), degree)
    assert isinstance(found, Pitch)
    assert str(found) == pitch


@pytest.mark.parametrize("degree", ["2", "6", "_2", "13", "^^6"])
def test_a_degree_the_scale_lacks(degree: str) -> None:
    assert resolve_degree(scale_on("A2", "minor pentatonic"), degree) == DegreeProblem(
        kind="missing", labels=("1", "b3", "4", "5", "b7")
    )


def test_a_degree_it_has_twice_and_altered_both_times() -> None:
    root = parse_pitch("C4")
    assert root is not None
    both = scale_from_degrees(root, ["1", "b2", "#2", "3", "5", "b7"])
    assert both is not None
    assert resolve_degree(both, "2") == DegreeProblem(kind="ambiguous", labels=("b2", "#2"))
    assert str(resolve_degree(both, "#9")) == "D#5"


@pytest.mark.parametrize("text", ["", "0", "b", "h3", "1.", "-1", "3b", "###4", "n", "100"])
def test_what_is_no_degree(text: str) -> None:
    found = resolve_degree(scale_on("C4", "major"), text)
    assert isinstance(found, DegreeProblem)
    assert found.kind == "unreadable"


SCALE = st.builds(
    lambda step, alter, octave, kind: named_scale(Pitch(step, alter, octave), kind.name),
    st.sampled_from(STEPS),
    st.integers(-1, 1),
    st.integers(1, 4),
    st.sampled_from(SCALES),
)


@given(SCALE, st.integers(-2, 4))
def test_every_tone_comes_back_from_its_label(scale: Scale, octaves: int) -> None:
    marks = "_" * -octaves if octaves < 0 else "^" * octaves
    for label, tone, offset in zip(scale.labels, scale.tones, scale.offsets, strict=True):
        written = label if label[0] in "#b" else f"n{label}"
        pitch = resolve_degree(scale, marks + written)
        assert resolve_degree(scale, marks + label) == pitch
        assert isinstance(pitch, Pitch)
        assert pitch.pitch_class == tone
        assert pitch.midi == scale.root.midi + offset + 12 * octaves
        assert degree_label(scale, pitch) == label
        assert in_scale(scale, pitch)


@given(SCALE, st.integers(1, 99))
def test_a_bare_number_is_the_scales_own_degree(scale: Scale, number: int) -> None:
    pitch = resolve_degree(scale, str(number))
    degree, octaves = (number - 1) % 7 + 1, (number - 1) // 7
    having = [label for label, own in zip(scale.labels, scale.numbers, strict=True) if own == degree]
    if isinstance(pitch, DegreeProblem):
        assert pitch.kind == ("ambiguous" if having else "missing")
        assert len(having) != 1
    else:
        assert degree_label(scale, pitch) in having
        assert (pitch.midi - scale.root.midi) // 12 == octaves


@given(SCALE, st.integers(1, 30), st.sampled_from(["##", "#", "n", "b", "bb"]))
def test_an_accidental_names_the_interval_against_the_major_scale(scale: Scale, number: int, sign: str) -> None:
    pitch = resolve_degree(scale, f"{sign}{number}")
    assert isinstance(pitch, Pitch)
    above = MAJOR_OFFSETS[(number - 1) % 7] + 12 * ((number - 1) // 7) + {"##": 2, "#": 1, "n": 0, "b": -1, "bb": -2}[sign]
    assert pitch.midi - scale.root.midi == above


@given(SCALE, st.integers(20, 100))
def test_any_midi_number_is_spelled_as_it_sounds(scale: Scale, midi: int) -> None:
    pitch = spell_in_scale(scale, midi)
    assert pitch.midi == midi
    if in_scale(scale, pitch):
        assert pitch.pitch_class in scale.tones
    else:
        assert degree_label(scale, pitch) is None
        assert abs(pitch.alter) <= 2


@pytest.mark.parametrize(
    ("root", "name", "midi", "pitch"),
    [("A2", "natural minor", 56, "G#3"), ("A2", "natural minor", 58, "Bb3"), ("E2", "major", 46, "A#2"), ("Bb2", "lydian", 51, "Eb3")],
)
def test_notes_outside_the_scale_are_spelled_by_the_harmonic_chromatic_scale(root: str, name: str, midi: int, pitch: str) -> None:
    assert str(spell_in_scale(scale_on(root, name), midi)) == pitch


def test_a_text_met_before_is_not_worked_out_again() -> None:
    """A ratio in one run: the answer remembered is the same object, and quicker than working it out."""
    scale = scale_on("Bb2", "lydian")
    assert resolve_degree(scale, "_b7") is resolve_degree(scale, "_b7")
    again = min(repeat(lambda: resolve_degree(scale, "_b7"), number=2000, repeat=7))
    anew = min(repeat(lambda: resolve_degree.__wrapped__(scale, "_b7"), number=2000, repeat=7))
    assert again < anew
