"""Shapes along the neck: each dot lies where its pitch is, known shapes have their frets, and notes are called by their names."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.diagrams.grid import Grid
from tabforge.diagrams.model import Role
from tabforge.diagrams.shapes import Frets, shape
from tabforge.fretboard.neck import Neck
from tabforge.model.pitch import Pitch
from tabforge.model.tuning import Tuning
from tests.diagrams.making import block, compiled, frets, run, scale_of, whole
from tests.fretboard.necks import GUITAR, UKULELE, necks

# Three notes on each string, G major and its modes from their roots up (common practice, from memory, no source).
SEVEN_SHAPES = {
    "G2 ionian": "3 5 7 | 3 5 7 | 4 5 7 | 4 5 7 | 5 7 8 | 5 7 8",
    "A2 dorian": "5 7 8 | 5 7 9 | 5 7 9 | 5 7 9 | 7 8 10 | 7 8 10",
    "B2 phrygian": "7 8 10 | 7 9 10 | 7 9 10 | 7 9 11 | 8 10 12 | 8 10 12",
    "C3 lydian": "8 10 12 | 9 10 12 | 9 10 12 | 9 11 12 | 10 12 13 | 10 12 14",
    "D3 mixolydian": "10 12 14 | 10 12 14 | 10 12 14 | 11 12 14 | 12 13 15 | 12 14 15",
    "E2 aeolian": "0 2 3 | 0 2 3 | 0 2 4 | 0 2 4 | 1 3 5 | 2 3 5",
    "F#2 locrian": "2 3 5 | 2 3 5 | 2 4 5 | 2 4 5 | 3 5 7 | 3 5 7",
}

# Positions of C major by the fret under the first finger (common practice, from memory, no source).
POSITIONS = {
    5: "5 7 8 | 5 7 8 | 5 7 | 4 5 7 | 5 6 8 | 5 7 8",
    7: "7 8 10 | 7 8 10 | 7 9 10 | 7 9 10 | 8 10 | 7 8 10",
    12: "12 13 15 | 12 14 15 | 12 14 15 | 12 14 | 12 13 15 | 12 13 15",
}


@pytest.mark.parametrize("scale", SEVEN_SHAPES)
def test_the_seven_shapes_of_three_notes_a_string(scale: str) -> None:
    assert frets(run(scale, "3 per string from string 6")) == SEVEN_SHAPES[scale]


@pytest.mark.parametrize("fret", POSITIONS)
def test_positions_of_the_major_scale(fret: int) -> None:
    assert frets(run("C3 major", f"position {fret}")) == POSITIONS[fret]


@given(necks(), st.sampled_from(["C3 major", "Bb2 lydian", "F#3 hungarian minor", "E2 minor pentatonic", "D2 whole tone"]))
def test_the_whole_neck_has_every_note_of_the_scale_once_and_no_other(neck: Neck, name: str) -> None:
    scale = scale_of(name)
    degrees = [(scale.root.midi + offset) % 12 for offset in scale.offsets]
    wanted = {
        (number, fret)
        for number, pitch in enumerate(neck.tuning.strings, 1)
        for fret in range(neck.frets - neck.capo + 1)
        if (pitch.midi + neck.capo + fret) % 12 in degrees  # the open string, the capo and so many half steps
    }
    diagram = whole(name, neck)
    assert [(dot.string, dot.fret) for dot in diagram.dots] == sorted(wanted)
    for dot in diagram.dots:
        assert dot.midi == neck.tuning.strings[dot.string - 1].midi + neck.capo + dot.fret
        assert (dot.role is Role.ROOT) == ((dot.midi - scale.root.midi) % 12 == 0)
        assert dot.label == scale.labels[degrees.index(dot.midi % 12)]
    assert (diagram.first, diagram.last) == (1, neck.last)


@given(necks(), st.integers(0, 24), st.integers(0, 24))
def test_some_frets_are_those_of_the_whole_neck(neck: Neck, first: int, last: int) -> None:
    some = whole("C3 major", neck, Frets(min(first, last), max(first, last)))
    assert some.dots == tuple(dot for dot in whole("C3 major", neck).dots if min(first, last) <= dot.fret <= max(first, last))


def test_a_short_string_has_dots_beyond_its_nut_alone() -> None:
    # The fifth string of a banjo begins at fret 5: open g, then a at fret 7, b at 9, c at 10 (common practice, no source).
    section, neck = compiled("instrument banjo\nscale G3 major\n\nriff\n  rhythm w\n  notes r\n")
    assert section.scale is not None
    diagram = whole("G3 major", neck, Frets(0, 12))
    assert [dot.fret for dot in diagram.dots if dot.string == 5] == [0, 7, 9, 10, 12]
    assert [dot.midi for dot in diagram.dots if dot.string == 5] == [67, 69, 71, 72, 74]
    assert [string.begins for string in diagram.strings] == [0, 0, 0, 0, 5]


def test_a_diatonic_neck_has_the_frets_of_its_scale() -> None:
    # From the open string a dulcimer's frets give the mixolydian mode (common practice, no source).
    _, neck = compiled("instrument mountain dulcimer\n\nriff\n  rhythm w\n  notes r\n")
    diagram = whole("D3 mixolydian", neck, Frets(0, 7))
    assert [dot.label for dot in diagram.dots if dot.string == 3] == ["1", "2", "3", "4", "5", "6", "b7", "1"]


def test_a_block_shows_what_it_plays_where_it_plays_it() -> None:
    diagram = block("""\
scale A2 minor pentatonic

riff
  rhythm  q q q q | h h
  frets   6:5 6:8 5:5+4:7 x | 5:6 2:5
  fingers 1 4 1+3 . | 2 .
""")
    found = {(dot.string, dot.fret): (dot.label, dot.role) for dot in diagram.dots}
    assert found == {
        (6, 5): ("1", Role.ROOT), (6, 8): ("b3", Role.TONE), (5, 5): ("4", Role.TONE), (4, 7): ("1", Role.ROOT),
        (5, 6): ("#4", Role.OUTSIDE), (2, 5): ("5", Role.TONE),
    }  # fmt: skip


def test_labels_are_degrees_notes_or_the_fingers_that_are_given() -> None:
    text = "scale Bb2 lydian\n\nrun\n  layout 3 per string from string 6 to string 5\n  fingers 1 2 4\n"
    assert [dot.label for dot in block(text).dots] == ["#4", "5", "6", "1", "2", "3"]
    assert [dot.label for dot in block(text, "note").dots] == ["E", "F", "G", "Bb", "C", "D"]
    assert [dot.label for dot in block(text, "finger").dots] == ["1", "2", "4", "1", "2", "4"]


def test_a_block_without_a_scale_is_named_by_its_notes() -> None:
    diagram = block("riff\n  rhythm h h\n  notes Eb3 F#3\n", "note")
    assert {dot.label for dot in diagram.dots} == {"Eb", "F#"}
    assert diagram.roles == (Role.TONE,)


@pytest.mark.parametrize(
    ("scale", "labels"),
    # What teachers name when they tell modes apart (common practice, no source).
    [
        ("C3 ionian", set()), ("D3 dorian", {"6"}), ("E3 phrygian", {"b2"}), ("F3 lydian", {"#4"}), ("G3 mixolydian", {"b7"}),
        ("A3 aeolian", set()), ("B3 locrian", {"b2", "b5"}), ("A3 harmonic minor", {"7"}), ("A3 minor pentatonic", set()),
        ("E3 minor blues", {"b5"}), ("E3 suspended pentatonic", set()),
    ],
)  # fmt: skip
def test_the_notes_that_set_a_scale_apart(scale: str, labels: set[str]) -> None:
    assert {dot.label for dot in whole(scale, GUITAR).dots if dot.role is Role.CHARACTERISTIC} == labels


@pytest.mark.parametrize(
    ("layout", "window"), [("position 3", (1, 7)), ("position 5", (4, 8)), ("string 6", (1, 24)), ("open", (1, 4))]
)
def test_what_lies_near_the_nut_is_shown_with_it(layout: str, window: tuple[int, int]) -> None:
    diagram = run("C3 major", layout)
    assert (diagram.first, diagram.last) == window


def test_the_words_name_every_string_fret_and_label() -> None:
    diagram = whole("C4 major", UKULELE, Frets(0, 3))
    assert diagram.alt == (
        "Notes on the neck, frets 1 to 3. String 4 (g): open (5), fret 2 (6). String 3 (C): open (1, root), fret 2 (2). "
        "String 2 (E): open (3), fret 1 (4), fret 3 (5). String 1 (A): open (6), fret 2 (7), fret 3 (1, root)."
    )


def test_frets_that_are_no_half_steps_are_drawn_where_they_lie() -> None:
    # A string stopped at the pure fifth has two thirds of its length left (Mersenne's law, from memory).
    neck = Neck(tuning=Tuning(strings=tuple(Pitch("E", 0, octave) for octave in (4, 3, 2))), fretting=(2.04, 3.86, 7.02, 12))
    drawn = shape([(1, 3)], neck, title="Fifths", frets=Frets(1, 4))
    grid = Grid(drawn)
    assert grid.wire(4) == grid.length
    assert grid.wire(3) / grid.length == pytest.approx((1 / 3) / (1 / 2), abs=0.001)
    assert grid.wire(2) < grid.fret(3) < grid.wire(3)
