"""What holds for every grip of every style on any neck: its notes, its strings, its fingers; and shapes that move along the neck."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.fretboard.gripped import Grip, NoGrip
from tabforge.fretboard.instruments import INSTRUMENTS, neck_of
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.reach import REACH_MM, THUMB
from tabforge.fretboard.voicings import VOICING_KINDS, VoicingKind, VoicingStyle, choose_grips, grips_of
from tabforge.model.harmony import ChordSymbol
from tabforge.theory.chords import parse_chord
from tests.fretboard.necks import BASS, GUITAR, MANDOLIN, SEVEN, UKULELE, neck, necks

BANJO, DULCIMER = (neck_of(INSTRUMENTS[name], INSTRUMENTS[name].tuning, 0, INSTRUMENTS[name].fretting)
                   for name in ("five-string banjo", "mountain dulcimer"))  # fmt: skip
TWELVE = neck("E2 A2 D3 G3 B3 E4 A4 D5 G5 B5 E6 A6", frets=12)

ROOTS = ["C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"]
# Half steps of each chord's tones above its root, by any handbook of harmony; the perfect fifth may be left out of the longer ones.
SUFFIXES = {
    "": {0, 4, 7}, "m": {0, 3, 7}, "7": {0, 4, 7, 10}, "maj7": {0, 4, 7, 11}, "m7b5": {0, 3, 6, 10}, "sus4": {0, 5, 7}, "6": {0, 4, 7, 9},
}  # fmt: skip


def chord(name: str) -> ChordSymbol:
    symbol = parse_chord(name)
    assert symbol is not None, name
    return symbol


def grips(neck: Neck, name: str, style: VoicingStyle, player: str = "usual") -> tuple[Grip, ...]:
    found = grips_of(neck, chord(name), style, PLAYERS[player])
    return () if isinstance(found, NoGrip) else found


anything = st.sampled_from([GUITAR, SEVEN, UKULELE, MANDOLIN, BASS, BANJO, DULCIMER, TWELVE]) | necks()
kinds = st.sampled_from(sorted(VOICING_KINDS))
players = st.sampled_from(sorted(PLAYERS))


@settings(max_examples=150, deadline=None)
@given(anything, st.sampled_from(ROOTS), st.sampled_from(sorted(SUFFIXES)), kinds, players)
def test_a_grip_is_its_chord_and_can_be_held(neck: Neck, root: str, suffix: str, kind: VoicingKind, player: str) -> None:
    tones = {(ROOTS.index(root) + each) % 12 for each in SUFFIXES[suffix]}
    for grip in grips(neck, root + suffix, VoicingStyle(kind=kind), player):
        assert len(grip.frets) == len(grip.fingers) == len(grip.midi) == len(neck.tuning)
        for string, fret in grip.places:
            assert neck.has(string, fret)
            assert grip.midi[string - 1] == neck.midi_at(string, fret)
        assert {pitch % 12 for pitch in grip.pitches} <= tones
        fretted = [fret for fret in grip.frets if fret]
        assert grip.stretch <= REACH_MM
        assert round(grip.stretch, 6) == round(neck.distance_mm(min(fretted), max(fretted)), 6) if fretted else grip.stretch == 0
        held_well(grip)


def held_well(grip: Grip) -> None:
    """Rules of hands, told anew: common practice, no source."""
    fingers: dict[int, list[tuple[int, int]]] = {}
    for (string, fret), finger in zip(reversed(list(enumerate(grip.frets, 1))), reversed(grip.fingers), strict=True):
        assert (finger == 0) == (not fret)
        if fret and finger:
            fingers.setdefault(finger, []).append((string, fret))
    for finger, places in fingers.items():
        assert len({fret for _, fret in places}) == 1  # a finger is at one fret
        between = grip.frets[places[-1][0] - 1 : places[0][0]]
        assert None not in between  # and silences no string by lying on it, nor stops an open one
        assert 0 not in between
        assert all(fret is not None and fret >= places[0][1] for fret in between)
        assert finger in (1, 2, 3, 4, THUMB)
    order = [places[0][1] for finger, places in sorted(fingers.items()) if finger != THUMB]
    assert all(low <= high for low, high in pairwise(order))
    sounding = [at for at, fret in enumerate(grip.frets) if fret is not None]
    for at in range(sounding[0], sounding[-1]):  # a silent string has a stopped one beside it
        assert grip.frets[at] is not None or grip.frets[at - 1] or grip.frets[at + 1]


@settings(max_examples=80, deadline=None)
@given(anything, st.sampled_from(ROOTS), st.sampled_from(sorted(SUFFIXES)))
def test_styles_are_what_they_say(neck: Neck, root: str, suffix: str) -> None:
    name = root + suffix
    for grip in grips(neck, name, VoicingStyle(kind="open")):
        assert all(fret is None or fret <= 4 for fret in grip.frets)
    for grip in grips(neck, name, VoicingStyle(kind="barre")):
        assert 0 not in grip.frets
        assert grip.barre is not None
        assert grip.barre.fret == min(fret for fret in grip.frets if fret is not None)
        assert grip.fingers[grip.barre.low - 1] == grip.fingers[grip.barre.high - 1] == 1
    for kind, count in (("triads", {3}), ("spread", {3}), ("shell", {3}), ("drop2", {4}), ("drop3", {4}), ("power", {2, 3})):
        for grip in grips(neck, name, VoicingStyle(kind=kind)):  # type: ignore[arg-type]  # a literal of the table
            assert len(grip.places) in count
            strings = sorted(string for string, _ in grip.places)
            if kind in ("triads", "drop2", "power"):
                assert strings[-1] - strings[0] + 1 == len(strings)


@settings(max_examples=60, deadline=None)
@given(anything, st.sampled_from(ROOTS), kinds, st.sets(st.integers(1, 4), min_size=2, max_size=4), st.sampled_from([None, 0, 1, 2]))
def test_strings_and_bass_that_are_asked_for(neck: Neck, root: str, kind: VoicingKind, strings: set[int], inversion: int | None) -> None:
    for grip in grips(neck, f"{root}7", VoicingStyle(kind=kind, strings=tuple(strings), inversion=inversion)):
        assert {string for string, _ in grip.places} == strings
        if inversion is not None:
            assert (grip.pitches[0] - ROOTS.index(root)) % 12 == (0, 4, 7)[inversion]


MOVABLE = [("triads", (3, 2, 1)), ("triads", (5, 4, 3)), ("drop2", (4, 3, 2, 1)), ("drop2", (5, 4, 3, 2)), ("drop3", (6, 4, 3, 2)),
           ("spread", (5, 3, 2)), ("shell", (5, 4, 3)), ("power", (6, 5, 4))]  # fmt: skip


@pytest.mark.parametrize(("kind", "strings"), MOVABLE)
@pytest.mark.parametrize("suffix", ["m7", "7", "maj7"])
def test_a_grip_moves_with_its_chord(kind: VoicingKind, strings: tuple[int, ...], suffix: str) -> None:
    """Frets are nearer to each other up the neck: what is held at a fret is held at the next one."""
    style = VoicingStyle(kind=kind, strings=strings)
    moved = 0
    for root, above in pairwise(ROOTS):
        shapes = {grip.frets for grip in grips(GUITAR, root + suffix, style)}
        higher = {grip.frets for grip in grips(GUITAR, above + suffix, style)}
        closed = [frets for frets in shapes if 0 not in frets and min(fret for fret in frets if fret) < 12]
        for frets in closed:
            assert tuple(None if fret is None else fret + 1 for fret in frets) in higher
        moved += len(closed)
    assert moved >= 10


@settings(max_examples=60, deadline=None)
@given(st.sampled_from([GUITAR, UKULELE, BASS, MANDOLIN]), st.sampled_from(ROOTS), st.sampled_from(sorted(SUFFIXES)),
       st.sampled_from(["power", "spread", "shell"]))  # fmt: skip
def test_tuned_up_an_octave_the_frets_stay(neck: Neck, root: str, suffix: str, kind: VoicingKind) -> None:
    """All strings and so the chord an octave higher. What is low enough to be muddy is so no more, and that alone weighs otherwise."""
    higher = tuple(replace(pitch, octave=pitch.octave + 1) for pitch in neck.tuning.strings)
    tuned = replace(neck, tuning=replace(neck.tuning, strings=higher))
    here, there = ({grip.frets for grip in grips(on, root + suffix, VoicingStyle(kind=kind, strings=(3, 2, 1)))} for on in (neck, tuned))
    assert here == there


def test_the_same_every_time() -> None:
    symbols = [chord(name) for name in ("C", "Am7", "F", "G7")]
    for kind in VOICING_KINDS:
        first, again = (choose_grips(GUITAR, symbols, VoicingStyle(kind=kind), PLAYERS["usual"]) for _ in range(2))
        assert first == again
