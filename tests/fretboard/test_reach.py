"""What a hand can do: fingers for common shapes, stretches in millimetres."""

from __future__ import annotations

import pytest

from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import REACH_FRETS, REACH_MM, WIDE_MM, farthest, fingers_needed, stretch, wide_stretches
from tests.fretboard.necks import BASS, GUITAR, MANDOLIN, neck

# Shapes from string 6 to string 1 (x silent) with the fingers that chord charts give them (common practice, from memory).
FINGERS = [
    ("x32010", 3),
    ("320003", 3),
    ("133211", 3),
    ("x21202", 4),
    ("xx0232", 2),
    ("x02220", 1),
    ("x7678x", 4),
    ("022100", 2),
    ("577555", 2),
    ("000000", 0),
    ("3x3453", 3),
]


@pytest.mark.parametrize(("shape", "fingers"), FINGERS)
def test_fingers_of_common_shapes(shape: str, fingers: int) -> None:
    places = [(6 - number, int(fret)) for number, fret in enumerate(shape) if fret != "x"]
    assert fingers_needed(places) == fingers


def test_an_open_string_under_a_barre_takes_it_away() -> None:
    assert fingers_needed([(5, 2), (4, 2), (3, 2)]) == 1
    assert fingers_needed([(5, 2), (4, 0), (3, 2)]) == 2


def test_stretches_are_measured_along_the_neck() -> None:
    # 648 mm: fret 1 lies 36.37 mm from the nut, fret 4 133.68, fret 5 162.56 (any fret calculator's table; computed by hand).
    first = stretch([(6, 1), (5, 0), (4, 5)], GUITAR)
    assert first is not None
    assert first.mm == pytest.approx(162.56 - 36.37, abs=0.02)
    assert (first.low, first.high) == ((6, 1), (4, 5))
    assert first.wide
    assert stretch([(6, 0), (5, 2), (4, 2)], GUITAR) is None


def test_two_whole_steps_are_wide_near_the_nut_only() -> None:
    frets = [fret for fret in range(1, 13) if (found := stretch([(6, fret), (6, fret + 4)], GUITAR)) and found.wide]
    assert frets == [1, 2]
    small = [stretch([(4, fret), (4, fret + 4)], MANDOLIN) for fret in range(1, 13)]
    assert not any(found is None or found.wide for found in small)


def test_the_wide_groups_of_a_line_are_found() -> None:
    line = [(6, 1), (6, 3), (6, 5), (5, 2), (5, 3), (5, 5), (4, 1), (4, 3), (4, 5)]
    assert [(found.index, found.low, found.high) for found in wide_stretches(line, GUITAR)] == [
        (0, (6, 1), (6, 5)),
        (6, (4, 1), (4, 5)),
    ]
    assert wide_stretches([(6, fret + 7) for fret in (1, 3, 5)], GUITAR) == []


@pytest.mark.parametrize("on", [GUITAR, BASS, MANDOLIN, neck(capo=4)])
def test_no_grip_reaches_past_both_bounds(on: Neck) -> None:
    for low, high in enumerate(farthest(on)[1:], 1):
        assert low <= high <= min(low + REACH_FRETS, on.last)
        assert on.distance_mm(low, high) <= REACH_MM
        if high < min(low + REACH_FRETS, on.last):
            assert on.distance_mm(low, high + 1) > REACH_MM


def test_advice_begins_before_the_bound() -> None:
    assert WIDE_MM < REACH_MM
