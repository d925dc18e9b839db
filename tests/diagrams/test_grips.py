"""Chord grips: those everybody knows are found, and what is found is the chord and can be held."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.diagrams.finding import find_grips
from tabforge.diagrams.frames import barre_of
from tabforge.diagrams.grips import grip
from tabforge.diagrams.model import Role
from tabforge.diagrams.shapes import Frets
from tabforge.fretboard.gripped import Barre, shape_text
from tabforge.fretboard.instruments import INSTRUMENTS, neck_of
from tabforge.fretboard.neck import Neck
from tabforge.model.harmony import ChordSymbol
from tabforge.theory.chords import parse_chord
from tests.fretboard.necks import BASS, GUITAR, MANDOLIN, SEVEN, UKULELE, necks

# Open and barre chords of any first book (common practice, from memory, no source).
GUITAR_GRIPS = {
    "C": "x32010", "A": "x02220", "G": "320003", "E": "022100", "D": "xx0232", "Am": "x02210", "Em": "022000", "Dm": "xx0231",
    "F": "133211", "B": "x24442", "Bb": "x13331", "Bm": "x24432", "F#m": "244222", "C#m": "x46654", "Fm": "133111", "Gm": "355333",
    "G7": "320001", "C7": "x32310", "D7": "xx0212", "A7": "x02020", "E7": "020100", "B7": "x21202", "Cmaj7": "x32000", "Dmaj7": "xx0222",
    "Am7": "x02010", "Em7": "022030", "Dsus4": "xx0233", "Asus2": "x02200", "C9": "x32333", "D/F#": "200232", "C/E": "032010",
}  # fmt: skip
UKULELE_GRIPS = {"C": "0003", "F": "2010", "G": "0232", "Am": "2000", "Dm": "2210", "G7": "0212", "D": "2220", "Bb": "3211", "A": "2100"}
MANDOLIN_GRIPS = {"G": "0023", "C": "0230", "D": "2002"}
BANJO_GRIPS = {"G": "00000", "C": "02012", "D7": "x0214", "Em": "02002"}

BANJO = neck_of(INSTRUMENTS["five-string banjo"], INSTRUMENTS["five-string banjo"].tuning, 0, ())


def found(name: str, neck: Neck, most: int, frets: Frets | None = None) -> list[str]:
    return [shape_text(shape) for shape in find_grips(chord(name), neck, most, frets)]


def chord(name: str) -> ChordSymbol:
    symbol = parse_chord(name)
    assert symbol is not None, name
    return symbol


@pytest.mark.parametrize("name", GUITAR_GRIPS)
def test_a_guitars_usual_grip_is_among_the_first_three(name: str) -> None:
    assert GUITAR_GRIPS[name] in found(name, GUITAR, 3)


@pytest.mark.parametrize("name", UKULELE_GRIPS)
def test_a_ukuleles_usual_grip_is_among_the_first_three(name: str) -> None:
    assert UKULELE_GRIPS[name] in found(name, UKULELE, 3)


@pytest.mark.parametrize("name", MANDOLIN_GRIPS)
def test_a_mandolins_usual_grip_is_among_the_first_three(name: str) -> None:
    assert MANDOLIN_GRIPS[name] in found(name, MANDOLIN, 3)


@pytest.mark.parametrize("name", BANJO_GRIPS)
def test_a_banjos_usual_grip_is_among_the_first_three(name: str) -> None:
    assert BANJO_GRIPS[name] in found(name, BANJO, 3)


@pytest.mark.parametrize("name", ["C", "F", "Am", "Bb"])
def test_the_best_known_grips_come_first(name: str) -> None:
    assert found(name, GUITAR, 1) == [GUITAR_GRIPS[name]]


# Tones of chords by any handbook of harmony: half steps above C.
CHORDS = {
    "": {0, 4, 7},
    "m": {0, 3, 7}, "7": {0, 4, 7, 10}, "maj7": {0, 4, 7, 11}, "m7b5": {0, 3, 6, 10}, "dim7": {0, 3, 6, 9}, "sus4": {0, 5, 7},
}  # fmt: skip
ROOTS = {"C": 0, "Db": 1, "D": 2, "Eb": 3, "E": 4, "F": 5, "F#": 6, "G": 7, "Ab": 8, "A": 9, "Bb": 10, "B": 11}


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([GUITAR, SEVEN, UKULELE, MANDOLIN, BASS]) | necks(), st.sampled_from(sorted(ROOTS)), st.sampled_from(sorted(CHORDS)))
def test_a_grip_has_the_notes_of_its_chord_and_fits_a_hand(neck: Neck, root: str, suffix: str) -> None:
    tones = {(ROOTS[root] + each) % 12 for each in CHORDS[suffix]}
    fifth = (ROOTS[root] + 7) % 12
    shapes = find_grips(chord(root + suffix), neck, 5)
    for shape in shapes:
        held = [(len(shape) - place, fret) for place, fret in enumerate(shape) if fret is not None]
        sounding = {(neck.tuning.strings[string - 1].midi + neck.capo + fret) % 12 for string, fret in held}
        spared = {fifth, ROOTS[root]} if len(tones) > len(shape) else {fifth} if len(tones) > 3 else set()
        assert tones - spared <= sounding <= tones
        fretted = [fret for _, fret in held if fret]
        assert all(fret <= neck.last for fret in fretted)
        assert not fretted or max(fretted) - min(fretted) <= 5
        assert len(set(fretted)) <= 4
    assert len(set(shapes)) == len(shapes)


def test_a_named_bass_is_the_lowest_note() -> None:
    for name, bass in (("C/E", 4), ("D/F#", 6), ("C/D", 2), ("Am/G", 7)):
        shapes = find_grips(chord(name), GUITAR, 4)
        assert shapes
        for shape in shapes:
            pitches = [GUITAR.midi_at(6 - place, fret) for place, fret in enumerate(shape) if fret is not None]
            assert min(pitches) % 12 == bass


def test_grips_are_looked_for_where_it_is_asked() -> None:
    shapes = find_grips(chord("C"), GUITAR, 5, Frets(7, 10))
    assert shapes
    assert all(fret is None or 7 <= fret <= 10 for shape in shapes for fret in shape)
    assert found("C", GUITAR, 3, Frets(2, 2)) == []
    assert find_grips(chord("N.C."), GUITAR, 3) == []


def test_a_capo_moves_the_grip() -> None:
    capo = Neck(tuning=GUITAR.tuning, capo=2)
    assert found("D", capo, 3)[0] == "x32010"  # the grip of C, two frets up


def test_a_chart_of_an_open_grip() -> None:
    diagram = grip((None, 3, 2, 0, 1, 0), GUITAR, chord=chord("C"))
    assert [(dot.string, dot.fret, dot.label, dot.role is Role.ROOT) for dot in diagram.dots] == [
        (1, 0, "3", False), (2, 1, "1", True), (3, 0, "5", False), (4, 2, "3", False), (5, 3, "1", True),
    ]  # fmt: skip
    assert (diagram.muted, diagram.open_strings, diagram.first, diagram.last, diagram.barres) == ((6,), (1, 3), 1, 4, ())
    assert diagram.alt.startswith("Chord grip, frets 1 to 4. String 6 (E): not played. String 5 (A): fret 3 (1, root).")


def test_notes_that_are_not_the_chords_are_told() -> None:
    diagram = grip((None, 3, 2, 0, 3, 0), GUITAR, chord=chord("C"))
    assert [(dot.string, dot.label) for dot in diagram.dots if dot.role is Role.OUTSIDE] == [(2, "2")]
    bass = grip((None, None, 0, 0, 1, 0), GUITAR, chord=chord("C/D"), labels="note")
    assert [(dot.label, dot.role) for dot in bass.dots][-1] == ("D", Role.TONE)


@pytest.mark.parametrize(
    ("shape", "barre"),
    # Which of these takes a barre every player knows (common practice, no source).
    [
        ((1, 3, 3, 2, 1, 1), Barre(fret=1, low=6, high=1)), ((None, 2, 4, 4, 3, 2), Barre(fret=2, low=5, high=1)),
        ((0, 2, 2, 1, 0, 0), None), ((None, 3, 2, 0, 1, 0), None), ((None, None, 0, 2, 1, 2), None), ((2, 0, 0, 2, 3, 2), None),
    ],
)  # fmt: skip
def test_barres(shape: tuple[int | None, ...], barre: Barre | None) -> None:
    assert barre_of(shape) == barre


def test_given_fingers_are_labels_and_say_where_the_barre_is() -> None:
    diagram = grip((None, 0, 2, 2, 2, 0), GUITAR, chord=chord("A"), labels="finger", fingers=[".", ".", "1", "1", "1", "."])
    assert diagram.barres == (Barre(fret=2, low=4, high=2),)
    assert [dot.label for dot in diagram.dots] == ["", "1", "1", "1", ""]


def test_a_high_grip_is_cut_from_the_neck() -> None:
    diagram = grip((8, 10, 10, 9, 8, 8), GUITAR, chord=chord("Cm"))
    assert (diagram.first, diagram.last) == (8, 11)
    assert shape_text((None, 10, 12, 12, 12, 10)) == "x.10.12.12.12.10"
