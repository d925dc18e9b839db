"""Frets between the half steps, against the arithmetic of cents and of strings.

A cent is the 1200th part of an octave, a frequency ratio r has ``1200 * log2(r)`` of them, and a string stopped to 1/r of its length
sounds r times as high (Ellis's cents and Mersenne's law, as any acoustics handbook has them; from memory).
"""

from __future__ import annotations

from fractions import Fraction
from math import log2

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.fretboard.frettings import in_hundredths
from tabforge.fretboard.harmonics import harmonic
from tabforge.fretboard.neck import NEAR, Neck
from tabforge.fretboard.placement import place
from tabforge.fretboard.readings import Wanted
from tabforge.model.tuning import Tuning
from tests.fretboard.necks import GUITAR, midi, written

PURE = [Fraction(text) for text in ("16/15", "9/8", "6/5", "5/4", "4/3", "45/32", "3/2", "8/5", "5/3", "9/5", "15/8", "2")]
"""Just intervals up the octave: the 5-limit scale of theory handbooks, from memory."""

QUARTERS = tuple(number / 2 for number in range(1, 25))


def fretted(*frets: float, capo: int = 0) -> Neck:
    return Neck(tuning=GUITAR.tuning, capo=capo, fretting=frets)


def cents(ratio: Fraction) -> float:
    return round(12 * log2(ratio), 2)


JUST = fretted(*map(cents, PURE))


def test_each_pure_interval_is_the_fret_of_its_half_step() -> None:
    for number, ratio in enumerate(PURE, 1):
        sound, beside = JUST.sound_at(6, number)
        assert sound == midi("E2") + number
        assert beside == round(1200 * log2(ratio)) - 100 * number
        assert JUST.fret_of(sound, 6) == JUST.fret_from(sound, 6) == number


def test_a_fret_lies_where_its_ratio_puts_it() -> None:
    for number, ratio in enumerate(PURE, 1):
        from_nut = JUST.scale_length * (1 - 1 / ratio)
        # Half a cent is 0.19 mm of a string of 648.
        assert JUST.distance_mm(0, number) == pytest.approx(from_nut, abs=0.19)
        assert JUST.wires(1, number)[-1] * JUST.scale_length == pytest.approx(from_nut, abs=0.19)


def test_a_fret_halfway_is_no_notes_fret_and_is_found_by_its_cents() -> None:
    neck = fretted(*QUARTERS)
    assert neck.note_at(6, 1) is None
    assert neck.note_at(6, 2) == midi("F2")
    assert neck.sound_at(6, 1) == (midi("E2"), 50)
    assert neck.places(midi("E2"), 50) == ((6, 1),)
    assert neck.places(midi("F2"), -45) == ((6, 1),)
    assert all(neck.note_at(*each) == midi("C4") for each in neck.places(midi("C4")))


def test_a_capo_raises_the_open_strings_by_its_fret() -> None:
    neck = fretted(*QUARTERS, capo=1)
    assert neck.sound_at(1, 0) == (midi("E4"), 50)
    assert neck.sound_at(1, 1) == (midi("F4"), 0)


def test_whole_numbers_are_the_ordinary_neck() -> None:
    ordinary = Neck(tuning=GUITAR.tuning, frets=22)
    same = fretted(*map(float, range(1, 23)))
    assert not same.tempered
    for pitch in range(ordinary.lowest, ordinary.highest + 1):
        assert same.places(pitch) == ordinary.places(pitch)


def test_a_harmonic_speaks_over_a_node_wherever_the_fret_is_called() -> None:
    # A third of the string sounds its third partial, an octave and a fifth up; its node lies at the pure fifth.
    assert harmonic(cents(Fraction(3, 2))) == harmonic(7) == 19
    assert harmonic(cents(Fraction(5, 4))) == harmonic(4) == 28
    assert harmonic(11.5) is None


def test_placement_takes_the_fret_of_a_quarter_tone() -> None:
    neck = fretted(*QUARTERS)
    low, high = Wanted(midi("A2"), cents=50), Wanted(midi("C4"))
    assert written(place([(low,), (high,), (Wanted(midi("A2"), 5, 1, cents=50),)], neck)[0]) == "5:1 2:2 5:1"
    assert place([(Wanted(midi("A2"), cents=50),)], GUITAR)[1][0].kind.name == "UNFRETTED"


@given(st.lists(st.integers(1, 6000), min_size=1, max_size=24, unique=True), st.integers(0, 3))
def test_every_pitch_is_found_at_the_nearest_fret(frets: list[int], capo: int) -> None:
    neck = fretted(*(each / 100 for each in sorted(frets)), capo=min(capo, len(frets) - 1))
    assert all(in_hundredths(each) for each in neck.fretting)
    opens = [100 * pitch.midi for pitch in neck.tuning.strings]
    rising = [0, *sorted(frets)][neck.capo :]
    for string, base in enumerate(opens, 1):
        for fret in range(neck.last + 1):
            sound, beside = neck.sound_at(string, fret)
            assert 100 * sound + beside == base + rising[fret]
            assert -50 < beside <= 50
            assert neck.fret_of(sound, string, beside) == fret
            near = [number for number, steps in enumerate(rising) if abs(base + steps - 100 * sound) <= NEAR]
            best = min(near, key=lambda number: (abs(base + rising[number] - 100 * sound), number)) if near else None
            assert neck.fret_of(sound, string) == (best if neck.tempered else fret)


def test_a_short_string_begins_at_its_nut_however_frets_lie() -> None:
    banjo = Neck(tuning=Tuning(strings=GUITAR.tuning.strings, nuts=(0, 0, 0, 0, 0, 5)), fretting=QUARTERS)
    assert banjo.sound_at(6, 0) == (midi("E2"), 0)
    assert banjo.sound_at(6, 6) == (midi("E2"), 50)
    assert banjo.rise(6, 0, 7) == 1.0
