# ruff: noqa: E501  # tables are read by their columns
"""Roman numerals: what they stand for, and back. What they mean is common practice, no source, unless a line says otherwise."""

from __future__ import annotations

import re
from typing import Final

import pytest

from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory.chord_table import QUALITIES
from tabforge.theory.chords import chord_labels, parse_chord
from tabforge.theory.keys import plain_root
from tabforge.theory.roman import NUMERAL_TEXT, NUMERALS, applied_numeral, numeral_of, read_numeral
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale


def scale(root: str, name: str) -> Scale:
    found = named_scale(Pitch(root[0], root.count("#") - root[1:].count("b"), 3), name)
    assert found
    return found


C: Final = scale("C", "major")
A: Final = scale("A", "natural minor")
BB: Final = scale("Bb", "lydian")


@pytest.mark.parametrize(("text", "own", "name"), [
    ("I", C, "C"), ("ii7", C, "Dm7"), ("V7", C, "G7"), ("Imaj7", C, "Cmaj7"), ("viio", C, "Bdim"), ("vii°7", C, "Bdim7"),
    ("viiø7", C, "Bm7b5"), ("vii7b5", C, "Bm7b5"), ("viim7b5", C, "Bm7b5"), ("bVI", C, "Ab"), ("#iv°7", C, "F#dim7"),
    ("III+", C, "Eaug"), ("imaj7", C, "Cmmaj7"), ("iiadd9", C, "Dmadd9"), ("iv6", C, "Fm6"), ("Vsus4", C, "Gsus4"), ("iisus2", C, "Dsus2"),
    ("I6/9", C, "C6/9"), ("I/3", C, "C/E"), ("I6/3", C, "C6/E"), ("V7/4", C, "G7/F"), ("I/b7", C, "C/Bb"), ("Ib5", C, "Cmajb5"),
    ("V7/V", C, "D7"), ("V7/ii", C, "A7"), ("vii°7/ii", C, "C#dim7"), ("iiø7/vi", C, "Bm7b5"), ("V7/vi/7", C, "E7/B"),
    ("VI", A, "F"), ("bVI", A, "F"), ("nVI", A, "F#"), ("i", A, "Am"), ("V7", A, "E7"), ("VII", A, "G"), ("nvii°", A, "G#dim"), ("bII", A, "Bb"),
    ("#IV", BB, "E"), ("iv", BB, "Em"), ("nIV", BB, "Eb"), ("II", BB, "C"), ("vii7", BB, "Am7"),
])
def test_a_numeral_is_this_chord(text: str, own: Scale, name: str) -> None:
    chord = read_numeral(text, own)
    assert chord is not None
    assert chord.text == name
    assert chord == parse_chord(name)
    assert re.fullmatch(NUMERAL_TEXT, text)


@pytest.mark.parametrize("text", ["", "X", "Im7", "i°maj", "io7x", "Io", "Vi", "iIi", "VIII", "vin7", "iin7", "bbbI", "I/8", "I/", "I/3/5", "/V", "V7/", "V7/Io", "C", "Imaj7maj7"])
def test_what_is_no_numeral_is_none(text: str) -> None:
    assert read_numeral(text, C) is None


def test_a_bare_numeral_needs_its_degree() -> None:
    minor = scale("A", "minor pentatonic")
    assert read_numeral("ii", minor) is None
    found = read_numeral("nii", minor)
    assert found is not None
    assert found.text == "Bm"
    assert numeral_of(found, minor) == "nii"


@pytest.mark.parametrize(("name", "own", "text"), [
    ("Bm7b5", C, "viiø7"), ("Bdim", C, "vii°"), ("F#dim7", C, "#iv°7"), ("Eb", C, "bIII"), ("D7", C, "II7"), ("G7/B", C, "V7/7"), ("C/Bb", C, "I/b7"),
    ("Eaug", C, "III+"), ("Fmin7", C, "iv7"), ("Dm", A, "iv"), ("F#m7b5", A, "nviø7"), ("G5", A, "VII5"), ("D5", A, "iv5"), ("Em", BB, "iv"), ("Ebmaj7", BB, "nIVmaj7"),
    ("N.C.", C, None),
])
def test_a_chord_has_this_numeral(name: str, own: Scale, text: str | None) -> None:
    chord = parse_chord(name)
    assert chord is not None
    assert numeral_of(chord, own) == text


@pytest.mark.parametrize("kind", SCALES, ids=lambda kind: kind.name)
def test_every_quality_comes_back_on_every_degree(kind: object) -> None:
    name = getattr(kind, "name", "")
    own = scale("C", name)
    for root in {plain_root(own, semitone) for semitone in range(12)} | set(own.tones):
        for quality in QUALITIES:
            chord = parse_chord(f"{root}{quality.forms[0]}")
            if chord is None:  # a root with three accidentals is written otherwise
                continue
            text = numeral_of(chord, own)
            assert text is not None
            assert re.fullmatch(NUMERAL_TEXT, text)
            back = read_numeral(text, own)
            assert back is not None, text
            assert back.root is not None
            assert chord.root is not None
            assert back.root.semitone == chord.root.semitone, text
            assert chord_labels(back) == chord_labels(chord), text


@pytest.mark.parametrize(("name", "own", "text"), [
    # Applied dominants and leading-note chords, as any handbook of harmony has them.
    ("D7", C, "V7/V"), ("A7", C, "V7/ii"), ("E7", C, "V7/vi"), ("C7", C, "V7/IV"), ("B7", C, "V7/iii"), ("C#dim7", C, "vii°7/ii"), ("F#m7b5", C, "viiø7/V"), ("D", C, "V/V"),
    ("Bb7", C, None), ("Fm", C, None), ("A7", A, "V7/iv"), ("G7", A, "V7/III"),
])
def test_a_chord_that_leads_to_another_degree(name: str, own: Scale, text: str | None) -> None:
    chord = parse_chord(name)
    assert chord is not None
    assert applied_numeral(chord, own) == text
    assert text is None or read_numeral(text, own) == chord


def test_the_case_is_the_third() -> None:
    for number, numeral in enumerate(NUMERALS):
        for text, third in ((numeral, "3"), (numeral.lower(), "b3")):
            found = read_numeral(text, C)
            assert found is not None
            assert found.root == C.tones[number]
            assert chord_labels(found)[1] == third
