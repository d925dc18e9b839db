"""Intervals and transposition, against music21 and by their laws."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import interval as m21_interval
from music21 import pitch as m21_pitch

from tabforge.model.pitch import STEPS, Pitch, PitchClass, parse_pitch
from tabforge.theory.intervals import Interval, interval, interval_up, respell, transpose, transpose_class

PITCHES = st.builds(Pitch, st.sampled_from(STEPS), st.integers(-2, 2), st.integers(1, 6))
PLAIN = st.builds(Pitch, st.sampled_from(STEPS), st.integers(-1, 1), st.integers(1, 6))
CLASSES = st.builds(PitchClass, st.sampled_from(STEPS), st.integers(-1, 1))


def theirs(pitch: Pitch) -> m21_pitch.Pitch:
    return m21_pitch.Pitch(str(pitch).replace("b", "-"))


@pytest.mark.parametrize(
    ("low", "high", "letters", "semitones"),
    [("C4", "E4", 2, 4), ("C4", "Eb4", 2, 3), ("B3", "C4", 1, 1), ("C4", "B3", -1, -1), ("F3", "B3", 3, 6), ("Cb4", "B3", -1, 0)],
)
def test_intervals(low: str, high: str, letters: int, semitones: int) -> None:
    one, other = parse_pitch(low), parse_pitch(high)
    assert one is not None
    assert other is not None
    assert interval(one, other) == Interval(letters, semitones)


@given(PLAIN, PLAIN)
def test_intervals_are_music21s(low: Pitch, high: Pitch) -> None:
    """Letters and semitones against music21's generic and chromatic intervals."""
    ours = interval(low, high)
    known = m21_interval.Interval(theirs(low), theirs(high))
    assert ours.semitones == known.semitones
    generic = known.generic.staffDistance
    assert ours.letters == generic


@given(PLAIN, PLAIN, PLAIN)
def test_transposition_is_music21s(low: Pitch, high: Pitch, note: Pitch) -> None:
    moved = transpose(note, interval(low, high), most=9)
    known = theirs(note).transpose(m21_interval.Interval(theirs(low), theirs(high)))
    if abs(moved.alter) > 2:
        return  # music21 spells these anew, by another rule
    assert (str(moved.pitch_class), moved.octave) == (known.name.replace("-", "b"), known.octave)


@given(PITCHES, PITCHES, PLAIN, PLAIN)
def test_transposition_keeps_intervals(one: Pitch, other: Pitch, low: Pitch, high: Pitch) -> None:
    by = interval(low, high)
    here, there = transpose(one, by), transpose(other, by)
    assert there.midi - here.midi == other.midi - one.midi
    assert abs(here.alter) <= 2
    exact, exact_other = transpose(one, by, most=9), transpose(other, by, most=9)
    assert interval(exact, exact_other) == interval(one, other)
    if abs(exact.alter) <= 2:
        assert here == exact


@given(PITCHES, PLAIN, PLAIN)
def test_there_and_back_again(note: Pitch, low: Pitch, high: Pitch) -> None:
    by = interval(low, high)
    assert transpose(transpose(note, by, most=9), Interval(-by.letters, -by.semitones), most=9) == note


@given(CLASSES, CLASSES)
def test_the_interval_between_pitch_classes_leads_from_one_to_the_other(low: PitchClass, high: PitchClass) -> None:
    by = interval_up(low, high)
    assert 0 <= by.letters <= 6
    assert transpose_class(low, by) == high


@given(st.builds(Pitch, st.sampled_from(STEPS), st.integers(-6, 6), st.integers(1, 6)), st.integers(1, 3))
def test_respelling_keeps_the_sound(note: Pitch, most: int) -> None:
    spelled = respell(note, most)
    assert spelled.midi == note.midi
    assert abs(spelled.alter) <= most
    if abs(note.alter) <= most:
        assert spelled == note


@pytest.mark.parametrize(("written", "spelled"), [(Pitch("F", 3, 4), "G#4"), (Pitch("B", 3, 3), "C##4"), (Pitch("C", -3, 4), "Bbb3")])
def test_respelling_takes_the_nearest_letter(written: Pitch, spelled: str) -> None:
    assert str(respell(written)) == spelled
