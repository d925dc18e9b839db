"""The five shapes, diagonals and fragments against what teachers print, and against their own rules on other tunings."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.layouts import Extent, Layout, Placed, lay_out
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.shapes import SHAPES, shapes_of
from tabforge.fretboard.trouble import Kind
from tabforge.model.pitch import parse_pitch
from tests.fretboard.necks import BASS, GUITAR, MANDOLIN, SEVEN, UKULELE, ladder, neck

C_MAJOR = ladder("C3", "C D E F G A B", [2, 2, 1, 2, 2, 2, 1])
A_PENTATONIC = ladder("A2", "A C D E G", [3, 2, 2, 3, 2])
A_MINOR = ladder("A2", "A C E", [3, 4, 5])
A_BLUES = ladder("A2", "A C D Eb E G", [3, 2, 1, 1, 3, 2])
WHOLE_TONE = ladder("C3", "C D E F# G# Bb", [2, 2, 2, 2, 2, 2])

# The five positions of C major and the five boxes of the A minor pentatonic with the open chord each is named after, the low string first
# (common practice, from memory, no source). That of C major begins at the nut, and is the same one an octave up.
MAJOR = {
    "C": "0 1 3 | 0 2 3 | 0 2 3 | 0 2 | 0 1 3 | 0 1 3",
    "A": "3 5 | 2 3 5 | 2 3 5 | 2 4 5 | 3 5 6 | 3 5",
    "G": "5 7 8 | 5 7 8 | 5 7 | 4 5 7 | 5 6 8 | 5 7 8",
    "E": "7 8 10 | 7 8 10 | 7 9 10 | 7 9 10 | 8 10 | 7 8 10",
    "D": "10 12 13 | 10 12 | 9 10 12 | 9 10 12 | 10 12 13 | 10 12 13",
}
PENTATONIC = {
    "G": "3 5 | 3 5 | 2 5 | 2 5 | 3 5 | 3 5",
    "E": "5 8 | 5 7 | 5 7 | 5 7 | 5 8 | 5 8",
    "D": "8 10 | 7 10 | 7 10 | 7 9 | 8 10 | 8 10",
    "C": "10 12 | 10 12 | 10 12 | 9 12 | 10 13 | 10 12",
    "A": "0 3 | 0 3 | 0 2 | 0 2 | 1 3 | 0 3",
}

# The open chords as any chart has them (common practice), the low string first.
OPEN_CHORDS = {"C": "x32010", "A": "x02220", "G": "320003", "E": "022100", "D": "xx0232"}


def frets(line: list[Placed]) -> str:
    found: dict[int, list[str]] = {}
    for each in line:
        found.setdefault(each.string or 0, []).append(str(each.fret))
    return " | ".join(" ".join(each) for _, each in sorted(found.items(), reverse=True))


def laid(layout: Layout, on: Ladder, made: Neck = GUITAR, extent: Extent = Extent()) -> list[Placed]:  # noqa: B008  # frozen
    line, trouble = lay_out(layout, on, extent, made)
    assert trouble is None
    return line


def shape(name: str, fret: int | None = None) -> Layout:
    return Layout(kind="shape", shape=name, fret=fret)


@pytest.mark.parametrize("name", SHAPES)
def test_the_shapes_of_the_major_scale_and_the_minor_pentatonic(name: str) -> None:
    assert frets(laid(shape(name), C_MAJOR)) == MAJOR[name]
    assert frets(laid(shape(name), A_PENTATONIC)) == PENTATONIC[name]


@pytest.mark.parametrize("name", SHAPES)
def test_a_shape_has_the_roots_of_its_open_chord(name: str) -> None:
    root = parse_pitch(f"{name}2")
    assert root is not None
    chord = [(6 - number, int(fret)) for number, fret in enumerate(OPEN_CHORDS[name]) if fret != "x"]
    assert {place for place in chord if (GUITAR.midi_at(*place) - root.midi) % 12 == 0} == {place[:2] for place in SHAPES[name]}


@pytest.mark.parametrize("name", SHAPES)
def test_a_shape_moves_with_its_root_and_comes_again_an_octave_up(name: str) -> None:
    low = laid(shape(name, 1), C_MAJOR)
    up = laid(shape(name, 1), ladder("D3", "D E F# G A B C#", [2, 2, 1, 2, 2, 2, 1]), neck(frets=30))
    assert [(each.string, each.fret) for each in up] in (
        [(each.string, (each.fret or 0) + 2) for each in low],
        [(each.string, (each.fret or 0) - 10) for each in low],
    )
    above = min(each.fret or 0 for each in low) + 2
    again = laid(shape(name, above), C_MAJOR, neck(frets=30))
    assert [(each.string, each.fret) for each in again] == [(each.string, (each.fret or 0) + 12) for each in low]


def test_the_five_shapes_follow_one_another_up_the_neck() -> None:
    # C, A, G, E, D, and C again: the order that their name tells (common practice).
    lowest = [min(each.fret or 0 for each in laid(shape(name), C_MAJOR)) for name in SHAPES]
    assert lowest == sorted(lowest)


@pytest.mark.parametrize(
    ("on", "names"),
    [
        (GUITAR, "CAGED"),
        (neck("Eb2 Ab2 Db3 Gb3 Bb3 Eb4"), "CAGED"),
        (neck("B1 E2 A2 D3 F#3 B3"), "CAGED"),
        (SEVEN, "CAGED"),
        (neck("D3 G3 B3 E4"), "D"),
        (neck("D2 A2 D3 G3 B3 E4"), "CAD"),
        (neck("D2 A2 D3 G3 A3 D4"), "A"),
        (BASS, ""),
        (MANDOLIN, ""),
        (UKULELE, ""),
    ],
)
def test_a_tuning_has_the_shapes_whose_roots_its_strings_have(on: Neck, names: str) -> None:
    assert "".join(shapes_of(on)) == names
    for name in SHAPES:
        _, trouble = lay_out(shape(name), C_MAJOR, Extent(), on)
        assert (trouble is not None and trouble.kind is Kind.LAYOUT_SHAPE) == (name not in names)


def test_a_shape_past_the_neck_names_the_highest() -> None:
    _, trouble = lay_out(shape("E", 20), C_MAJOR, Extent(), GUITAR)
    assert trouble is not None
    assert (trouble.kind, trouble.nearest_fret) == (Kind.LAYOUT_SHAPE_PLACE, 19)
    assert lay_out(shape("E", 19), C_MAJOR, Extent(), GUITAR)[1] is None


# Diagonals as they are printed (common practice, from memory, no source): the pentatonic's two and three a string, and four and three of a
# scale of seven tones, an octave to two strings.
DIAGONALS = [
    (A_PENTATONIC, 3, "3 5 | 3 5 7 | 5 7 | 5 7 9 | 8 10 | 8 10 12"),
    (A_PENTATONIC, 5, "5 8 10 | 7 10 | 7 10 12 | 9 12 | 10 13 15 | 12 15"),
    (C_MAJOR, 8, "8 10 12 13 | 10 12 14 | 10 12 14 15 | 12 14 16 | 13 15 17 18 | 15 17 19"),
    (A_MINOR, 5, "5 8 | 7 | 7 10 | 9 | 10 13 | 12"),
    (A_BLUES, 5, "5 8 10 | 6 7 10 | 7 10 12 | 8 9 12 | 10 13 15 | 11 12 15"),
]


@pytest.mark.parametrize(("scale", "fret", "usual"), DIAGONALS)
def test_diagonals(scale: Ladder, fret: int, usual: str) -> None:
    line = laid(Layout(kind="diagonal", fret=fret), scale)
    assert frets(line) == usual
    # Each octave has the same shape, two strings on and two or three frets up (the third between strings 3 and 2 makes it three).
    tones = len(scale.offsets)
    for low, high in zip(line, line[tones:], strict=False):
        assert (low.string or 0) - 2 == high.string
        assert (high.fret or 0) - (low.fret or 0) in (2, 3)
        assert high.pitch.midi - low.pitch.midi == 12


def test_a_diagonal_climbs_on_any_strings() -> None:
    assert frets(laid(Layout(kind="diagonal", from_string=4, fret=8), C_MAJOR, BASS)) == "8 10 12 13 | 10 12 14 | 10 12 14 15 | 12 14 16"
    assert frets(laid(Layout(kind="diagonal", from_string=5, to_string=3), WHOLE_TONE)) == "3 5 7 | 4 6 8 | 5 7 9"


def test_fragments_come_again_two_strings_on() -> None:
    # Six notes of C major on two strings, through three octaves (common practice, from memory, no source).
    line = laid(Layout(kind="fragment", count=3), C_MAJOR)
    assert frets(line) == "8 10 12 | 8 10 12 | 10 12 14 | 10 12 14 | 13 15 17 | 13 15 17"
    assert "B" not in {each.pitch.step for each in line}
    assert frets(laid(Layout(kind="fragment", count=2), A_PENTATONIC)) == "5 8 | 5 7 | 7 10 | 7 9 | 10 13 | 10 12"


def test_a_fragment_is_cut_to_its_extent() -> None:
    line = laid(Layout(kind="fragment", count=3), C_MAJOR, extent=Extent(last=parse_pitch("B3")))
    assert [str(each.pitch) for each in line] == ["C3", "D3", "E3", "F3", "G3", "A3"]
    _, trouble = lay_out(Layout(kind="fragment", count=3, fret=8), C_MAJOR, Extent(first=parse_pitch("B3"), last=parse_pitch("B3")), GUITAR)
    assert trouble is not None
    assert trouble.kind is Kind.LAYOUT_FROM


def test_what_cannot_climb_names_the_nearest_that_can() -> None:
    # Four and three of C major: from fret 19 on the neck is too short.
    _, trouble = lay_out(Layout(kind="diagonal", fret=19), C_MAJOR, Extent(), GUITAR)
    assert trouble is not None
    assert trouble.kind is Kind.LAYOUT_HIGH
    assert trouble.nearest_fret is not None
    assert lay_out(Layout(kind="diagonal", fret=trouble.nearest_fret), C_MAJOR, Extent(), GUITAR)[1] is None


def test_the_schema_knows_the_shapes() -> None:
    schema = json.loads((Path(__file__).parents[2] / "schemas" / "study.schema.json").read_text())
    assert schema["$defs"]["layoutShape"]["properties"]["shape"]["enum"] == list(SHAPES)
