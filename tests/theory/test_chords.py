"""Chord symbols against music21's, the kinds of the MusicXML 4.0 schema, and worked examples."""

from __future__ import annotations

from importlib.metadata import files
from xml.etree import ElementTree

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import harmony

from tabforge.model.pitch import STEPS, PitchClass
from tabforge.theory.chord_table import CHANGE_TEXT, KIND_TONES, NO_CHORD, QUALITIES, qualities_by_form
from tabforge.theory.chords import chord_labels, chord_suffixes, chord_tones, nearest_chord, parse_chord

ROOTS = [step + sign for step in STEPS for sign in ("b", "", "#")]


def tones(symbol: str) -> set[str]:
    found = parse_chord(symbol)
    assert found is not None, symbol
    return {str(tone) for tone in chord_tones(found)}


def theirs(chord: harmony.ChordSymbol) -> set[str]:
    return {pitch.name.replace("-", "b") for pitch in chord.pitches}


# Our suffix → music21's for the same chord (its abbreviations are its own).
FIGURES = {
    "": "", "m": "m", "-": "m", "dim": "dim", "°": "o", "aug": "aug", "+": "+", "sus2": "sus2", "sus4": "sus4", "sus": "sus4",
    "6": "6", "m6": "m6", "7": "7", "maj7": "maj7", "M7": "maj7", "Δ": "maj7", "m7": "m7", "-7": "m7", "mmaj7": "mM7",
    "-maj7": "mM7", "m7b5": "ø7", "ø": "ø7", "dim7": "dim7", "°7": "o7", "aug7": "aug7", "7#5": "7+", "9": "9", "maj9": "M9",
    "m9": "m9", "mmaj9": "mM9", "11": "11", "maj11": "M11", "m11": "m11", "13": "13", "maj13": "M13", "m13": "m13", "7sus4": "7sus4",
    "augmaj7": "+M7", "9#5": "9#5", "7b9": "7b9", "7#9": "7#9", "7#11": "7#11", "7b13": "7b13", "7b9#11": "7b9#11", "add9": "add9",
    "madd9": "madd9",
}  # fmt: skip


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize(("suffix", "figure"), FIGURES.items())
def test_tones_are_music21s(root: str, suffix: str, figure: str) -> None:
    known = harmony.ChordSymbol(root.replace("b", "-") + figure)
    assert tones(root + suffix) == theirs(known)


@pytest.mark.parametrize("kind", [kind for kind in KIND_TONES if kind != "none"])
def test_a_kinds_tones_are_what_music21_makes_of_the_kind(kind: str) -> None:
    known = harmony.ChordSymbol(root="C", kind=kind)
    plain = next(form for quality in QUALITIES if quality.kind == kind and not quality.changes for form in quality.forms)
    assert tones("C" + plain) == theirs(known)


def test_kinds_are_the_standards() -> None:
    """``kind-value`` of the W3C MusicXML 4.0 schema, as the package ``musicxml`` carries it."""
    place = next(file for file in files("musicxml") or [] if file.name == "musicxml_4_0.xsd")
    schema = ElementTree.parse(str(place.locate()))
    space = "{http://www.w3.org/2001/XMLSchema}"
    kinds = {
        value.get("value")
        for each in schema.iter(f"{space}simpleType")
        if each.get("name") == "kind-value"
        for value in each.iter(f"{space}enumeration")
    }
    assert len(kinds) > 30
    assert set(KIND_TONES) <= kinds
    assert {quality.kind for quality in QUALITIES} <= set(KIND_TONES)


@pytest.mark.parametrize(
    ("symbol", "kind", "degrees"),
    [
        # An added degree is told against a dominant chord, whose seventh is minor; an altered one against the kind
        # (documentation of ``degree-alter`` in the MusicXML 4.0 schema).
        ("C", "major", ""),
        ("C6/9", "major-sixth", "add 9 0"),
        ("C7sus4", "suspended-fourth", "add 7 0"),
        ("Cmaj7sus2", "suspended-second", "add 7 1"),
        ("Cmaj7#5", "augmented", "add 7 1"),
        ("C7b5", "dominant", "alter 5 -1"),
        ("C7b9", "dominant", "add 9 -1"),
        ("C7-9", "dominant", "add 9 -1"),
        ("C9#11", "dominant-ninth", "add 11 1"),
        ("C13#11", "dominant-13th", "alter 11 1"),
        ("C13b9", "dominant-13th", "alter 9 -1"),
        ("Cm7#5", "minor-seventh", "alter 5 1"),
        ("Cm9b5", "minor-ninth", "alter 5 -1"),
        ("C7#5#9", "augmented-seventh", "add 9 1"),
        ("C7b9#9", "dominant", "add 9 -1, add 9 1"),
        ("C7alt", "dominant", "alter 5 -1, add 5 1, add 9 -1, add 9 1"),
        ("Cmaj7no3", "major-seventh", "subtract 3 0"),
        ("C7omit5", "dominant", "subtract 5 0"),
        ("C5", "power", ""),
        ("C5add9", "power", "add 9 0"),
        ("C-5", "major", "alter 5 -1"),
        ("C+5", "major", "alter 5 1"),
        ("Cmb6", "minor", "add 6 -1"),
    ],
)
def test_kind_and_degrees(symbol: str, kind: str, degrees: str) -> None:
    found = parse_chord(symbol)
    assert found is not None
    assert found.kind == kind
    assert ", ".join(f"{each.type} {each.value} {each.alter}" for each in found.degrees) == degrees


@pytest.mark.parametrize(
    ("symbol", "root", "suffix", "bass"),
    [
        ("Bbmaj7", "Bb", "maj7", None),
        ("C/E", "C", "", "E"),
        ("C6/9", "C", "6/9", None),
        ("C6/9/E", "C", "6/9", "E"),
        ("Am7/G", "A", "m7", "G"),
        ("D/F#", "D", "", "F#"),
        ("Bb5", "Bb", "5", None),
        ("F#m7b5/C", "F#", "m7b5", "C"),
        ("B♭m7", "Bb", "m7", None),
        ("Gsus4/Db", "G", "sus4", "Db"),
    ],
)
def test_parts_of_a_symbol(symbol: str, root: str, suffix: str, bass: str | None) -> None:
    found = parse_chord(symbol)
    assert found is not None
    assert (str(found.root), found.suffix, str(found.bass) if found.bass else None) == (root, suffix, bass)
    assert found.text == symbol


@pytest.mark.parametrize("symbol", NO_CHORD)
def test_no_chord(symbol: str) -> None:
    found = parse_chord(symbol)
    assert found is not None
    assert (found.root, found.kind, chord_tones(found)) == (None, "none", ())


WRONG = ["", "H7", "am7", "Cmajor", "C/", "C/H", "/E", "C7b7", "C9add9", "C4", "C7(b9)", "Cno9", "C5no3", "C" + "b9" * 100, "C.", "C7b9b9"]


@pytest.mark.parametrize("symbol", WRONG)
def test_what_is_no_chord_symbol(symbol: str) -> None:
    assert parse_chord(symbol) is None


@pytest.mark.parametrize(
    ("written", "meant"),
    [
        ("bbmaj7", "Bbmaj7"),
        ("am7", "Am7"),
        ("Cmajor7", "Cmaj7"),
        ("Csus5", "Csus"),
        ("nc", "N.C."),
        ("Cm7b7/e", "Cm7b5/E"),
        ("Cm7b6/e", "Cm7b6/E"),
        ("c7b9#11", "C7b9#11"),
        ("H7", None),
        ("?", None),
    ],
)
def test_the_nearest_symbol(written: str, meant: str | None) -> None:
    assert nearest_chord(written) == meant


def test_no_form_stands_for_two_qualities_and_each_is_read_as_its_own() -> None:
    forms = [form for quality in QUALITIES for form in quality.forms]
    assert len(set(forms)) == len(forms)
    assert len(chord_suffixes()) == len(QUALITIES)
    for form, quality in qualities_by_form().items():
        found = parse_chord(f"E{form}")
        assert found is not None
        assert found.kind == quality.kind, form
        assert found.suffix == form


@given(st.sampled_from(sorted(qualities_by_form())), st.from_regex(f"(?:{CHANGE_TEXT}){{0,3}}", fullmatch=True), st.sampled_from(ROOTS))
def test_a_chord_moves_with_its_root(form: str, changes: str, root: str) -> None:
    found, on_c = parse_chord(root + form + changes), parse_chord("C" + form + changes)
    if form + changes and (form + changes)[0] in "b#":
        return  # the accidental would belong to the root
    assert (found is None) == (on_c is None)
    if found is None or on_c is None or found.root is None or on_c.root is None:
        return
    assert chord_labels(found) == chord_labels(on_c)
    by = found.root.semitone
    assert [tone.semitone for tone in chord_tones(found)] == [(tone.semitone + by) % 12 for tone in chord_tones(on_c)]
    assert chord_tones(found)[0] == found.root


@given(st.text(alphabet="ABCDEFGHabcdefgm#b/+-°ø7913516()sudimajno. ", max_size=12))
def test_any_text_is_a_symbol_or_none(text: str) -> None:
    found = parse_chord(text)
    assert found is None or found.text == text
    near = nearest_chord(text)
    assert near is None or parse_chord(near) is not None


def test_a_bass_outside_the_chord_is_one_of_its_tones_first() -> None:
    found = parse_chord("C/Bb")
    assert found is not None
    assert chord_tones(found) == (PitchClass("B", -1), PitchClass("C"), PitchClass("E"), PitchClass("G"))
