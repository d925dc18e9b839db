# ruff: noqa: E501  # tables are read by their columns
"""Stacks on the degrees of scales of any size: worked by hand, letter by letter (see ``test_harmony_music21`` for the comparison)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory.chord_names import suffix_of_labels
from tabforge.theory.chord_table import QUALITIES
from tabforge.theory.chords import chord_labels, chord_tones, parse_chord
from tabforge.theory.harmony import EXTRAS, contained, holds, stacked, triads
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale, scale_from_semitones


def scale(root: str, name: str) -> Scale:
    found = named_scale(Pitch(root[0], root.count("#") - root[1:].count("b"), 3), name)
    assert found
    return found


@pytest.mark.parametrize(("root", "name", "size", "chords"), [
    ("Bb", "lydian", 3, "Bb C Dm Edim F Gm Am"), ("Bb", "lydian", 4, "Bbmaj7 C7 Dm7 Em7b5 Fmaj7 Gm7 Am7"),
    ("A", "harmonic minor", 4, "Ammaj7 Bm7b5 Caugmaj7 Dm7 E7 Fmaj7 G#dim7"), ("C", "melodic minor", 4, "Cmmaj7 Dm7 Ebaugmaj7 F7 G7 Am7b5 Bm7b5"),
    ("C", "major", 5, "Cmaj9 Dm9 Em7b9 Fmaj9 G9 Am9 Bm7b5b9"), ("C", "double harmonic", 3, "C Db Em Fm Gmajb5 Abaug -"),
    ("C", "whole tone", 3, "Caug Daug Eaug F#aug G#aug Bbaug"), ("C", "bebop major", 4, "C6 Ddim7 Am7/E Fdim7 Am7/G G#dim7 Am7 Bdim7"),
    ("A", "minor pentatonic", 3, "Dsus4/A Am/C Gsus4/D Asus4/E C/G"), ("C", "chromatic", 3, " ".join("-" * 12)),
])
def test_stacks(root: str, name: str, size: int, chords: str) -> None:
    found = [stack.chord or stack.sounds for stack in stacked(scale(root, name), size)]
    assert " ".join(chord.text if chord else "-" for chord in found) == chords


def test_a_stack_without_a_usual_name_has_its_intervals() -> None:
    last = stacked(scale("C", "double harmonic"), 3)[6]
    assert (last.chord, last.sounds, last.numeral) == (None, None, None)
    assert last.labels == ("1", "bb3", "b5")
    assert " ".join(map(str, last.tones)) == "B Db F"


def test_another_spelling_is_told_as_such() -> None:
    third = stacked(scale("C", "double harmonic"), 4)[2]
    assert third.labels == ("1", "b3", "5", "bb7")
    assert third.chord is None
    assert third.sounds is not None
    assert (third.sounds.text, third.numeral) == ("Em6", "iii6")


def test_a_stack_needs_as_many_notes() -> None:
    assert stacked(scale("C", "whole tone"), 4) == ()
    assert len(stacked(scale("C", "minor pentatonic"), 5)) == 5
    assert stacked(scale("C", "minor blues"), 4) == ()


def test_chords_with_a_second_a_fourth_or_an_added_note() -> None:
    own = scale("C", "major")
    said = {str(tone): " ".join(chord.text for chord in contained(own, tone, EXTRAS)) for tone in own.tones}
    assert said == {
        "C": "Csus2 Csus4 C6 Cadd9", "D": "Dsus2 Dsus4 Dm6 Dmadd9", "E": "Esus4", "F": "Fsus2 F6 Fadd9", "G": "Gsus2 Gsus4 G6 Gadd9",
        "A": "Asus2 Asus4 Amadd9", "B": "",
    }


def test_the_plain_triads_of_a_pentatonic() -> None:
    assert [chord.text if chord else None for chord in triads(scale("A", "minor pentatonic"))] == ["Am", "C", None, None, None]


@pytest.mark.parametrize("quality", QUALITIES, ids=lambda quality: quality.forms[0])
def test_the_tones_of_every_quality_have_a_name(quality: object) -> None:
    chord = parse_chord("C" + getattr(quality, "forms", ("",))[0])
    assert chord is not None
    suffix = suffix_of_labels(chord_labels(chord))
    assert suffix is not None
    again = parse_chord(f"C{suffix}")
    assert again is not None
    assert chord_labels(again) == chord_labels(chord)


def judged(own: Scale) -> None:
    for size in (3, 4, 5):
        for at, stack in enumerate(stacked(own, size)):
            assert stack.tones[0] == own.tones[at]
            assert len(set(stack.tones)) == size
            assert set(stack.tones) <= set(own.tones)
            if stack.chord:
                assert {tone.semitone for tone in chord_tones(stack.chord)} == {tone.semitone for tone in stack.tones}
                assert holds(own, stack.chord)
            if stack.sounds:
                assert {tone.semitone for tone in chord_tones(stack.sounds)} == {tone.semitone for tone in stack.tones}
            assert (stack.numeral is None) == (stack.named is None)


@pytest.mark.parametrize("kind", SCALES, ids=lambda kind: kind.name)
def test_what_holds_for_every_named_scale(kind: object) -> None:
    for root in ("C", "F#", "Bb"):
        judged(scale(root, getattr(kind, "name", "")))


@given(st.sets(st.integers(1, 11), max_size=11))
def test_what_holds_for_scales_of_ones_own(semitones: set[int]) -> None:
    own = scale_from_semitones(Pitch("D", 0, 3), {0, *semitones})
    assert own is not None
    judged(own)
