"""The neck against a handbook's tables and the physics of strings."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.fretboard.neck import Neck
from tests.fretboard.necks import GUITAR, UKULELE, midi, neck, necks

# Where E4 (the top of the treble staff's bottom space, MIDI 64) is found on a guitar: any chart of the fretboard; common practice.
E4_ON_A_GUITAR = ((1, 0), (2, 5), (3, 9), (4, 14), (5, 19))

LUTHIERS_CONSTANT = 17.817
"""Each fret lies 1/17.817 of what is left of the string beyond the one before (a luthier's rule; handbook value, from memory)."""


def test_the_places_of_a_pitch_are_those_of_a_fretboard_chart() -> None:
    assert GUITAR.places(midi("E4")) == E4_ON_A_GUITAR
    assert GUITAR.places(midi("E2")) == ((6, 0),)
    assert GUITAR.places(midi("D2")) == ()


def test_the_range_of_a_guitar_with_22_frets() -> None:
    assert (GUITAR.lowest, GUITAR.highest) == (midi("E2"), midi("D6"))


def test_frets_count_from_the_capo() -> None:
    capoed = neck(capo=3)
    assert capoed.midi_at(6, 0) == midi("G2")
    assert capoed.last == 19
    assert capoed.highest == midi("D6")
    assert capoed.places(midi("E2")) == ()


def test_a_reentrant_tuning_begins_on_its_third_string() -> None:
    assert UKULELE.lowest == midi("C4")
    assert UKULELE.places(midi("G4")) == ((4, 0), (2, 3), (3, 7))


@pytest.mark.parametrize("scale_length", [346.0, 648.0, 864.0])
def test_frets_lie_where_the_luthiers_rule_puts_them(scale_length: float) -> None:
    made = neck(scale_length=scale_length)
    place = 0.0
    for fret in range(1, 23):
        place += (scale_length - place) / LUTHIERS_CONSTANT
        assert made.distance_mm(0, fret) == pytest.approx(place, abs=scale_length * 0.0001)


def test_the_octave_halves_the_string() -> None:
    assert GUITAR.distance_mm(0, 12) == pytest.approx(324)
    assert neck(capo=5).distance_mm(0, 7) == pytest.approx(324 - GUITAR.distance_mm(0, 5))


@given(necks(), st.integers(0, 24))
def test_frequency_and_length_agree(made: Neck, fret: int) -> None:
    # Mersenne's law: the frequency of a string is inversely proportional to its length.
    low, high = made.midi_at(1, 0), made.midi_at(1, fret)
    sounding = made.scale_length - made.distance_mm(-made.capo, 0)
    stopped = sounding - made.distance_mm(0, fret)
    assert sounding / stopped == pytest.approx(2 ** (high / 12) / 2 ** (low / 12))


@given(necks(), st.integers(20, 110))
def test_places_are_all_the_places_there_are(made: Neck, wanted: int) -> None:
    everywhere = [
        (string, fret)
        for fret in range(made.last + 1)
        for string in range(1, len(made.tuning) + 1)
        if made.midi_at(string, fret) == wanted
    ]
    assert list(made.places(wanted)) == everywhere
    for string in range(1, len(made.tuning) + 1):
        on_string = [fret for each, fret in everywhere if each == string]
        assert made.fret_of(wanted, string) == (on_string[0] if on_string else None)
