"""Fingers as teachers give them: known grips and positions, the rules by trying everything, pins, players, and shapes moved along
the neck."""

from __future__ import annotations

from itertools import combinations, pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.fretboard.cost import USUAL, Weights
from tabforge.fretboard.fingers import fingerings
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.placement import fingered
from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.reach import SPAN_MM, THUMB
from tabforge.fretboard.readings import Grip, Wanted
from tests.fretboard.necks import BASS, GUITAR, line, midi, necks, written

# Grips and fingers as chord charts for the guitar print them (common practice, from memory; where charts differ both are given). Frets and
# fingers from string 6 to string 1.
CHORD_CHART = [
    ("C", "x32010", ["-32-1-"]),
    ("G", "320003", ["21---3", "32---4"]),
    ("D", "xx0232", ["---132"]),
    ("A", "x02220", ["--123-"]),
    ("E", "022100", ["-231--"]),
    ("Am", "x02210", ["--231-"]),
    ("Em", "022000", ["-23---", "-12---"]),
    ("Dm", "xx0231", ["---231"]),
    ("C7", "x32310", ["-3241-"]),
    ("G7", "320001", ["32---1"]),
    ("D7", "xx0212", ["---213"]),
    ("A7", "x02020", ["--2-3-", "--1-2-"]),
    ("E7", "020100", ["-2-1--"]),
    ("B7", "x21202", ["-213-4"]),
    ("F barre", "133211", ["134211"]),
    ("Fm barre", "133111", ["134111"]),
    ("B minor barre", "x24432", ["-13421"]),
    ("B flat barre", "x13331", ["-12341", "-13331"]),
    ("F without barre", "xx3211", ["--3211"]),
    ("power chord at 5", "577xxx", ["134---"]),
]

# Positions as methods teach them: one finger a fret (common practice, from memory), and the first position of C major.
POSITIONS = [
    (GUITAR, "C3 D3 E3 F3 G3 A3 B3 C4", "3 0 2 3 0 2 0 1"),
    (GUITAR, "E4 F4 G4", "0 1 3"),
    # The movable major scale of two octaves, the second finger on the root.
    (GUITAR, "C3 D3 E3 F3 G3 A3 B3 C4 D4 E4 F4 G4 A4 B4 C5", "2 4 1 2 4 1 3 4 1 3 4 2 4 1 2"),
    # The minor pentatonic scale at the fifth fret, first finger on the root.
    (GUITAR, "A2@6 C3@6 D3 E3 G3 A3 C4 D4 E4 G4 A4@1 C5@1", "1 4 1 3 1 3 1 3 1 4 1 4"),
    (GUITAR, "A4@1:5 A#4@1:6 B4@1:7 C5@1:8", "1 2 3 4"),
    (BASS, "E1 F1 G1 A1 B1 C2 D2 E2", "0 1 3 0 2 3 0 2"),
]


def spelled(frets: str) -> list[tuple[Wanted, ...]]:
    """A chart's frets, each pinned to its place, as one event."""
    strings = [(6 - number, int(fret)) for number, fret in enumerate(frets) if fret != "x"]
    return [tuple(Wanted(GUITAR.midi_at(*place), *place) for place in strings)]


@pytest.mark.parametrize(("name", "frets", "usual"), CHORD_CHART)
def test_chords_have_the_fingers_of_the_chart(name: str, frets: str, usual: list[str]) -> None:
    found = fingered(spelled(frets), GUITAR)
    fingers = ["-"] * 6
    for (string, _), finger in zip(found.places[0], found.fingers[0], strict=True):
        fingers[6 - string] = str(finger) if finger else "-"
    assert "".join(fingers) in usual


@pytest.mark.parametrize(("on", "notes", "fingers"), POSITIONS)
def test_positions_have_one_finger_a_fret(on: Neck, notes: str, fingers: str) -> None:
    found = fingered(line(notes), on)
    assert " ".join(str(each[0]) for each in found.fingers) == fingers


def legal(grip: Grip, fingers: tuple[int, ...], on: Neck, weights: Weights) -> bool:
    """The rules in the docstring of ``fingers``, read anew, without the thumb."""
    stopped = [(fret, string, finger) for (string, fret), finger in zip(grip, fingers, strict=True) if fret]
    opened = [string for string, fret in grip if not fret]
    if any(bool(fret) != bool(finger) for (_, fret), finger in zip(grip, fingers, strict=True)):
        return False
    lowest = min((fret for fret, _, _ in stopped), default=0)
    for (fret, string, finger), (other_fret, other_string, other) in combinations(stopped, 2):
        if fret != other_fret:
            low, high = ((fret, finger), (other_fret, other)) if fret < other_fret else ((other_fret, other), (fret, finger))
            if low[1] >= high[1] or on.distance_mm(low[0], high[0]) > SPAN_MM[low[1], high[1]] * weights.hand:
                return False
        elif finger != other and (finger < other) != (string > other_string):
            return False
    for finger in set(fingers) - {0}:
        lies = sorted(string for _, string, other in stopped if other == finger)
        fret = next(fret for fret, _, other in stopped if other == finger)
        for low, high in pairwise(lies):
            wide = finger == 1 and fret == lowest and not any(low < string < high for string in opened)
            if high - low > 1 and not wide:
                return False
    return True


@given(st.data(), necks(), st.sampled_from([player.weights for name, player in PLAYERS.items() if name != "lead"]))
@settings(max_examples=120, deadline=None)
def test_all_fingerings_by_the_rules_are_found_and_no_other(data: st.DataObject, on: Neck, weights: Weights) -> None:
    strings = data.draw(st.lists(st.integers(1, len(on.tuning)), min_size=1, max_size=5, unique=True))
    low = data.draw(st.integers(0, on.last))
    grip = tuple((string, data.draw(st.sampled_from([0, *range(low, min(low + 5, on.last) + 1)]))) for string in strings)
    expected = [fingers for fingers in product(range(5), repeat=len(grip)) if legal(grip, fingers, on, weights)]
    assert sorted(fingerings(grip, [None] * len(grip), on, weights)) == sorted(expected)


@given(st.lists(st.tuples(st.integers(1, 6), st.integers(2, 6)), min_size=1, max_size=10), st.integers(1, 4))
@settings(max_examples=60, deadline=None)
def test_a_closed_shape_moved_along_the_neck_keeps_its_fingers(places: list[tuple[int, int]], way: int) -> None:
    # Pinned to its strings; between frets 2 and 10 no weight tells the two apart but those for the way, in millimetres, and the beginning.
    shape = [(Wanted(GUITAR.midi_at(*place), place[0], place[1]),) for place in places]
    moved = [(Wanted(GUITAR.midi_at(string, fret + way), string, fret + way),) for string, fret in places]
    flat = Weights(start=0, shift_way=0)
    first, second = fingered(shape, GUITAR, weights=flat), fingered(moved, GUITAR, weights=flat)
    if min(first.hands) > 1:
        assert first.fingers == second.fingers
        assert [hand + way for hand in first.hands] == second.hands


def test_fingers_of_the_writer_are_kept() -> None:
    a = (Wanted(midi("A2"), finger=2), Wanted(midi("E3"), finger=4), Wanted(midi("A3"), finger=4))
    assert fingered([a], GUITAR).fingers == [(2, 4, 4)]
    # Crossed, which no rule allows, and yet written: the A chord with the first finger between the others.
    crossed = tuple(Wanted(GUITAR.midi_at(*place), *place, finger=finger) for place, finger in [((4, 2), 2), ((3, 2), 1), ((2, 2), 3)])
    assert fingered([crossed], GUITAR).fingers == [(2, 1, 3)]


def test_a_pinned_finger_moves_the_hand() -> None:
    free = fingered(line("C4@2 D4@2"), GUITAR)
    pinned = fingered([(Wanted(midi("C4"), 2, finger=1),), (Wanted(midi("D4"), 2, finger=4),)], GUITAR)
    assert free.fingers == [(1,), (3,)]
    assert pinned.fingers == [(1,), (4,)]


def test_a_zero_asks_for_the_open_string() -> None:
    assert written(fingered([(Wanted(midi("E4"), finger=0),)], GUITAR).places) == "1:0"
    assert written(fingered([(Wanted(midi("E4"), finger=3),)], GUITAR).places) != "1:0"


def test_the_thumb_comes_over_only_where_it_may() -> None:
    grip = spelled("2xx232")
    assert THUMB not in fingered(grip, GUITAR).fingers[0]
    lead = PLAYERS["lead"].weights
    assert (THUMB, 1, 3, 2) in fingerings(((6, 2), (3, 2), (2, 3), (1, 2)), [None] * 4, GUITAR, lead)
    assert not any(THUMB in each for each in fingerings(((6, 2), (3, 2), (2, 3), (1, 2)), [None] * 4, GUITAR, USUAL))


def test_fingers_that_can_stay_do() -> None:
    # C to Am: the first and the second finger stay (common practice).
    found = fingered(spelled("x32010") + spelled("x02210"), GUITAR).fingers
    assert (found[0][1], found[0][3]) == (2, 1)
    assert (found[1][1], found[1][3]) == (2, 1)


@pytest.mark.parametrize("player", [name for name in PLAYERS if name != "usual"])
def test_each_player_tells(player: str) -> None:
    events = line("C3 E3 G3 C4 E4 G4 A4 C5 B4 G4 E4 D4 B3 A3 F#3 E3") + spelled("133211") + line("F2+C3+F3 G2+D3+G3 B2 D#3 F#3 A3")
    own, usual = fingered(events, GUITAR, weights=PLAYERS[player].weights), fingered(events, GUITAR)
    assert (own.places, own.fingers) != (usual.places, usual.fingers)


def test_a_small_hand_is_spared_the_widest_stretch() -> None:
    small = PLAYERS["small hand"].weights
    assert fingered([(Wanted(midi("F2"), 6), Wanted(midi("D3"), 5))], GUITAR).places == [((6, 1), (5, 5))]
    assert fingered([(Wanted(midi("F2"), 6), Wanted(midi("D3"), 5))], GUITAR, weights=small).places == [()]
