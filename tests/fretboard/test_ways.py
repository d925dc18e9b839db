"""The ways from hold to hold: of the hand in millimetres and in time, of the pick, and what rings on meanwhile."""

from __future__ import annotations

import math
from itertools import pairwise, product

from tabforge.fretboard.cost import BROKEN, CUT, GRAIN, LEGATO, Weights, hand_ways, hurried, shift_cost
from tabforge.fretboard.holds import holds
from tabforge.fretboard.placement import fingered
from tabforge.fretboard.reach import farthest
from tabforge.fretboard.readings import LET_GO, Wanted
from tabforge.fretboard.stage import PLAIN
from tests.fretboard.necks import GUITAR, line, neck, written
from tests.fretboard.test_search import least_by_pairs


def test_a_note_that_rings_costs_less_to_let_go_than_one_that_is_written_long() -> None:
    before, after = line("E2+C3 E4")
    costs = []
    for rings in (True, False):
        event = (after[0], Wanted(48, held=True, rings=rings))
        first, second = (holds(each, GUITAR, farthest(GUITAR), Weights()) for each in (before, event))
        let_go = [hold for hold in second if hold.grip[1] == LET_GO]
        costs.append(least_by_pairs([before, event], [first, let_go], GUITAR, Weights(), [PLAIN] * 2))
    assert costs[1] - costs[0] == GRAIN * (BROKEN - CUT)


def test_a_way_is_told_in_millimetres() -> None:
    # Five frets from the first are almost twice as far as from the twelfth: 2 ** (1/12) to a fret (see ``neck``).
    ways = hand_ways(GUITAR, 19)
    assert ways[1][6] == math.ceil((648 * 2 ** (-1 / 12) - 648 * 2 ** (-6 / 12)) / 10) == 16
    assert ways[12][17] == 9
    assert shift_cost(ways[1][6]) > shift_cost(ways[12][17]) > shift_cost(ways[12][13]) > shift_cost(ways[12][12]) == 0


def test_no_way_is_shorter_by_a_third_place() -> None:
    for on in (GUITAR, neck(scale_length=333.3), neck(scale_length=864.0, frets=24, capo=3)):
        ways = hand_ways(on, 19)
        assert all(ways[a][c] <= ways[a][b] + ways[b][c] for a, b, c in product(range(20), repeat=3))


def test_economy_picking_goes_on_in_one_stroke() -> None:
    # Three notes a string, upward: down up down, and on with a downstroke (common practice, no source).
    shape = [(Wanted(GUITAR.midi_at(string, fret), string, fret),) for string in (6, 5, 4) for fret in (5, 7, 8)]
    assert "".join(fingered(shape, GUITAR, economy=True).strokes) == "dud" * 3
    assert "".join(fingered(shape[::-1], GUITAR, economy=True).strokes) == "dud" + "udu" * 2
    given = ["u", *["e"] * 8]
    assert "".join(fingered(shape[::-1], GUITAR, economy=True, strokes=given).strokes) == "udu" * 3


def test_economy_picking_and_legato_tell() -> None:
    pitches = line("A3 C4 D4 E4 G4 A4 C5 A4 G4 E4 D4 C4 A3")
    odd = line("B3 A4 C4 C4 B2 E4 D4 D3")
    free = fingered(pitches, GUITAR).places
    legato = fingered(pitches, GUITAR, strokes=[LEGATO] * len(pitches), weights=Weights(picking=6)).places
    crossings = [sum(low[0][0] != high[0][0] for low, high in pairwise(each)) for each in (free, legato)]
    assert crossings[1] < crossings[0]
    assert fingered(odd, GUITAR, economy=True, weights=Weights(picking=3)).places != fingered(odd, GUITAR).places


def test_hurry_is_told_by_the_time_there_is() -> None:
    assert [hurried(each) for each in (1.0, 0.2, 0.19, 0.1, 0.05)] == [0, 0, 1, 1, 2]


def test_time_tells() -> None:
    # With time the hand plays low, with open strings, and goes up for the last note; in haste it begins where it ends.
    events = line("G4 B3 G3 C5")
    assert written(fingered(events, GUITAR, seconds=[1.0] * 4).places) == "1:3 2:0 3:0 1:8"
    assert written(fingered(events, GUITAR, seconds=[0.08] * 4).places) == "2:8 4:9 5:10 1:8"


def test_the_picks_way_tells() -> None:
    # After a downstroke on string 3 the pick is past string 4, and an upstroke on it has to go back over two strings.
    events = line("G3 E3 A4 B3")
    assert written(fingered(events, GUITAR).places) == "3:0 4:2 1:5 2:0"
    assert written(fingered(events, GUITAR, strokes=["d", "u", "d", "u"]).places) == "4:5 4:2 1:5 2:0"
