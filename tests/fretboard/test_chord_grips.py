"""Grips of chords, alone and after one another, against the fingers that chord charts print."""

from __future__ import annotations

import pytest

from tabforge.fretboard.placement import fingered
from tabforge.fretboard.readings import Wanted
from tests.fretboard.necks import GUITAR

# Open and barre grips of the guitar as chord charts print them: frets and fingers from string 6 to string 1, all fingerings that charts
# give (common practice, from memory, no source).
CHART = {
    "C": ("x32010", "-32-1-"),
    "G": ("320003", "21---3 32---4"),
    "G with two on top": ("320033", "21--34"),
    "D": ("xx0232", "---132"),
    "A": ("x02220", "--123- --213- --111-"),
    "E": ("022100", "-231--"),
    "Am": ("x02210", "--231-"),
    "Em": ("022000", "-23--- -12---"),
    "Dm": ("xx0231", "---231 ---241"),
    "C7": ("x32310", "-3241-"),
    "G7": ("320001", "32---1"),
    "D7": ("xx0212", "---213"),
    "A7": ("x02020", "--2-3- --1-2- --1-3-"),
    "E7": ("020100", "-2-1--"),
    "B7": ("x21202", "-213-4"),
    "Cmaj7": ("x32000", "-32---"),
    "Fmaj7": ("xx3210", "--321-"),
    "Dmaj7": ("xx0222", "---111 ---123"),
    "Am7": ("x02010", "--2-1-"),
    "Em7": ("022030", "-12-4- -23-4- -12-3-"),
    "Dsus4": ("xx0233", "---134 ---123"),
    "Asus2": ("x02200", "--12-- --23-- --13-- --11--"),
    "Esus4": ("022200", "-123-- -234--"),
    "F": ("133211", "134211"),
    "Fm": ("133111", "134111"),
    "F7": ("131211", "131211 141211"),
    "F without barre": ("xx3211", "--3211"),
    "Bm": ("x24432", "-13421"),
    "Bb": ("x13331", "-12341 -13331"),
    "B7 barre": ("x24242", "-13141 -13121 -12131"),
    "F#m": ("244222", "134111"),
    "F#": ("244322", "134211"),
    "G#m": ("466444", "134111"),
    "C#m": ("x46654", "-13421"),
    "C barre": ("x35553", "-12341 -13331"),
    "Gm7": ("353333", "131111"),
    "Cm7": ("x35343", "-13121"),
    "F#m of four": ("2442xx", "1341--"),
    "F#m high": ("xx4222", "--3111 --4111"),
    "D/F#": ("2x0232", "1--243 2--143 T--132"),
    "power chord": ("577xxx", "134---"),
}


def event(frets: str) -> tuple[Wanted, ...]:
    """A chart's frets, each pinned to its string: nothing but the hand's own rules say how it is held."""
    strings = [(6 - number, int(fret)) for number, fret in enumerate(frets) if fret != "x"]
    return tuple(Wanted(GUITAR.midi_at(*place), *place) for place in strings)


def fingers_of(chords: list[str]) -> list[str]:
    """The fingers of chords in a row, as the chart writes them."""
    found = fingered([event(CHART[chord][0]) for chord in chords], GUITAR)
    told = []
    for places, fingers in zip(found.places, found.fingers, strict=True):
        shown = ["-"] * 6
        for (string, _), finger in zip(places, fingers, strict=True):
            shown[6 - string] = "T" if finger == 5 else str(finger) if finger else "-"
        told.append("".join(shown))
    return told


@pytest.mark.parametrize("chord", CHART)
def test_a_grip_is_held_as_charts_say(chord: str) -> None:
    assert fingers_of([chord])[0] in CHART[chord][1].split()


@pytest.mark.parametrize("first", CHART)
def test_a_grip_stays_a_players_grip_whatever_comes_before_and_after(first: str) -> None:
    for second in CHART:
        for chord, fingers in zip((first, second, first), fingers_of([first, second, first]), strict=True):
            assert fingers in CHART[chord][1].split(), f"{chord} as {fingers} between {first} and {second}"
