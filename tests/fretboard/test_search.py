"""The search against trying everything: it must cost no more and no less.

The oracles use ``cost``, ``bonds`` and the lists of holds, and nothing else of the search: every line by trying all holds, or by
plain O(n k^2) dynamic
programming over the whole state (string, fret, finger, hand) on longer ones. Holds have an oracle of their own in ``test_fingers``.
"""

from __future__ import annotations

import math
import random
from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.fretboard import search as search_module
from tabforge.fretboard.bonds import broken_cost
from tabforge.fretboard.cost import (
    GRAIN,
    HURRIES,
    LEGATO,
    NEXT,
    Weights,
    crossing_cost,
    economy_cost,
    finger_cost,
    shift_cost,
    start_cost,
)
from tabforge.fretboard.holds import Hold, holds, middle
from tabforge.fretboard.lanes import guards, lesser, numbers, ones
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.reach import farthest
from tabforge.fretboard.readings import Event, Wanted
from tabforge.fretboard.search import Search
from tabforge.fretboard.stage import PLAIN, Way
from tests.fretboard.necks import GUITAR, line, neck, necks

SMALL = neck("E2 A2 D3 G3", frets=7)
TANGLED = neck("E2 C3 F2 D3 G2 A2", frets=9)
"""Strings that overlap, so that one hand has many ways."""

players = st.sampled_from([player.weights for player in PLAYERS.values()])
ways = st.builds(Way, st.integers(0, 2), st.sampled_from(["", "d", "u", LEGATO]))
chosen_ways = st.builds(Way, st.integers(0, 2), st.sampled_from(["", "d", "u", NEXT]))


def on_strings(hold: Hold) -> list[tuple[int, int, int]]:
    """Each finger of a hold, its fret and its strings as bits."""
    found: dict[int, tuple[int, int]] = {}
    for (string, fret), finger in zip(hold.grip, hold.fingers, strict=True):
        if finger:
            found[finger] = (fret, found.get(finger, (0, 0))[1] | 1 << string)
    return [(finger, *rest) for finger, rest in found.items()]


def step_cost(event: Event, before: Hold, after: Hold, on: Neck, weights: Weights, way: Way = PLAIN) -> int:
    """From the definition of each part."""
    later = on_strings(after)
    drags = len(before.grip) == len(after.grip) == 1 and not event[0].linked
    middles = middle(before.grip), middle(after.grip)
    stroke = (before.stroke if way.stroke else "") if before.stroke or after.stroke else way.stroke
    points = (
        after.cost
        + crossing_cost(*middles, weights, stroke)
        + economy_cost(middles[0], before.stroke, middles[1], after.stroke, way.stroke)
        + sum(finger_cost(*each, later, weights, drags) for each in on_strings(before))
        + broken_cost(event, before.grip, before.fingers, after.grip, after.fingers, on)
    )
    return GRAIN * points + shift_cost(way_in_tens(on, before.hand, after.hand), weights, way.hurry)


def way_in_tens(on: Neck, hand: int, other: int) -> int:
    """The way of the hand in units of 10 mm begun, its places along the neck rounded to tenths of a millimetre."""
    low, high = sorted(round(10 * on.distance_mm(0, each)) for each in (hand, other))
    return math.ceil((high - low) / 100)


def strokes_for(event: Event, found: list[Hold], economy: bool) -> list[Hold]:
    """The holds, each with every stroke where strokes are chosen and a pick sounds the event."""
    return [hold._replace(stroke=stroke) for hold in found for stroke in "du"] if economy and not event[0].linked else found


def all_holds(events: list[Event], on: Neck, weights: Weights, economy: bool = False) -> tuple[list[Event], list[list[Hold]]]:
    """The events that can be played, and their holds."""
    reach = farthest(on, weights.hand)
    found = [(event, strokes_for(event, holds(event, on, reach, weights), economy)) for event in events]
    return [event for event, known in found if known], [known for _, known in found if known]


def begin_cost(hold: Hold, weights: Weights, way: Way) -> int:
    """What it costs to begin with a hold."""
    at = middle(hold.grip)
    return GRAIN * (start_cost(hold.hand, weights) + hold.cost + (economy_cost(at, "", at, hold.stroke, way.stroke) if hold.stroke else 0))


def cost_of(events: list[Event], taken: list[Hold], on: Neck, weights: Weights, how: list[Way]) -> int:
    total = begin_cost(taken[0], weights, how[0])
    for number in range(1, len(taken)):
        total += step_cost(events[number], taken[number - 1], taken[number], on, weights, how[number])
    return total


def least_by_trying(events: list[Event], choices: list[list[Hold]], on: Neck, weights: Weights, how: list[Way]) -> int:
    return min(cost_of(events, list(taken), on, weights, how) for taken in product(*choices))


def least_by_pairs(events: list[Event], choices: list[list[Hold]], on: Neck, weights: Weights, how: list[Way]) -> int:
    """Plain dynamic programming over all pairs of holds."""
    costs = [begin_cost(hold, weights, how[0]) for hold in choices[0]]
    for number in range(1, len(choices)):
        costs = [
            min(
                cost + step_cost(events[number], before, after, on, weights, how[number])
                for before, cost in zip(choices[number - 1], costs, strict=True)
            )
            for after in choices[number]
        ]
    return min(costs)


def taken_by_search(
    events: list[Event], choices: list[list[Hold]], on: Neck, weights: Weights, how: list[Way], economy: bool = False
) -> list[Hold]:
    found = Search(on, weights, economy).line(events, how)
    strokes = found.strokes or [""] * len(events)
    return [
        next(hold for hold in known if (hold.hand, hold.grip, hold.fingers, hold.stroke) == taken)
        for known, taken in zip(choices, zip(found.hands, found.grips, found.fingers, strokes, strict=True), strict=True)
    ]


def notes(low: int, high: int) -> st.SearchStrategy[Wanted]:
    """Notes with few pins, linked or not."""
    finger = st.none() | st.none() | st.integers(1, 4)
    led = st.sampled_from([(False, False), (True, False), (True, True)])
    return st.builds(
        lambda midi, led, pin: Wanted(midi, linked=led[0], slid=led[1], finger=pin), st.integers(low, high), led, finger
    )


@given(st.lists(st.lists(notes(40, 60), min_size=1, max_size=2).map(tuple), min_size=1, max_size=3), players, st.data())
@settings(max_examples=40, deadline=None)
def test_a_short_line_costs_the_least_of_all_lines(events: list[Event], weights: Weights, data: st.DataObject) -> None:
    events, choices = all_holds(events, SMALL, weights)
    how = data.draw(st.lists(ways, min_size=len(events), max_size=len(events)))
    product_size = 1
    for known in choices:
        product_size *= len(known)
    if events and product_size <= 30_000:
        taken = taken_by_search(events, choices, SMALL, weights, how)
        assert cost_of(events, taken, SMALL, weights, how) == least_by_trying(events, choices, SMALL, weights, how)


@given(st.data(), necks(), players)
@settings(max_examples=40, deadline=None)
def test_a_long_line_costs_the_least_on_any_neck(data: st.DataObject, on: Neck, weights: Weights) -> None:
    events = data.draw(st.lists(st.lists(notes(on.lowest, on.highest), min_size=1, max_size=2).map(tuple), min_size=1, max_size=8))
    events, choices = all_holds(events, on, weights)
    how = data.draw(st.lists(ways, min_size=len(events), max_size=len(events)))
    if events and sum(map(len, choices)) < 700:
        taken = taken_by_search(events, choices, on, weights, how)
        assert cost_of(events, taken, on, weights, how) == least_by_pairs(events, choices, on, weights, how)


@given(
    st.lists(st.integers(40, 62), min_size=1, max_size=3),
    st.lists(notes(38, 64), min_size=1, max_size=2),
    st.integers(0, 2),
    st.sampled_from([SMALL, TANGLED]),
    players,
)
@settings(max_examples=60, deadline=None)
def test_a_step_that_looks_back_costs_the_least(first: list[int], struck: list[Wanted], held: int, on: Neck, weights: Weights) -> None:
    given_events: list[Event] = [tuple(map(Wanted, first)), (*struck, *(Wanted(each, held=True) for each in first[:held]))]
    events, choices = all_holds(given_events, on, weights)
    if len(events) == 2 and len(choices[0]) * len(choices[1]) < 60_000:
        taken = taken_by_search(events, choices, on, weights, [PLAIN, PLAIN])
        assert cost_of(events, taken, on, weights, [PLAIN, PLAIN]) == least_by_pairs(events, choices, on, weights, [PLAIN, PLAIN])


@given(st.data(), players)
@settings(max_examples=40, deadline=None)
def test_strokes_chosen_with_the_places_cost_the_least(data: st.DataObject, weights: Weights) -> None:
    given_events = data.draw(st.lists(st.lists(notes(40, 60), min_size=1, max_size=2).map(tuple), min_size=1, max_size=6))
    events, choices = all_holds(given_events, SMALL, weights, economy=True)
    how = data.draw(st.lists(chosen_ways, min_size=len(events), max_size=len(events)))
    if events and sum(map(len, choices)) < 700:
        taken = taken_by_search(events, choices, SMALL, weights, how, economy=True)
        assert cost_of(events, taken, SMALL, weights, how) == least_by_pairs(events, choices, SMALL, weights, how)


@given(st.lists(st.integers(40, 62), min_size=2, max_size=3), notes(38, 64), st.sampled_from([SMALL, TANGLED]), players)
@settings(max_examples=40, deadline=None)
def test_a_step_over_ringing_notes_costs_the_least(first: list[int], struck: Wanted, on: Neck, weights: Weights) -> None:
    ringing = [Wanted(each, held=True, rings=True) for each in first[1:]]
    events, choices = all_holds([tuple(map(Wanted, first)), (struck, *ringing)], on, weights)
    if len(events) == 2 and len(choices[0]) * len(choices[1]) < 60_000:
        taken = taken_by_search(events, choices, on, weights, [PLAIN, PLAIN])
        assert cost_of(events, taken, on, weights, [PLAIN, PLAIN]) == least_by_pairs(events, choices, on, weights, [PLAIN, PLAIN])


def melody(draw: random.Random) -> list[Event]:
    """A melody of any sort: steps or leaps, here and there linked, pinned to a string, a finger or an open string."""
    leap = draw.choice([2, 4, 12])
    pitch = draw.randint(40, 82)
    events: list[Event] = []
    for _ in range(draw.randint(2, 12)):
        pitch = min(84, max(40, pitch + draw.randint(-leap, leap)))
        string = draw.choice(GUITAR.places(pitch))[0] if draw.random() < 0.1 else None
        finger = draw.randint(1, 4) if draw.random() < 0.1 else None
        events.append((Wanted(pitch, string, None, False, draw.random() < 0.1, finger, slid=draw.random() < 0.5),))
    return events


def check_melodies(count: int, seed: int) -> None:
    draw = random.Random(seed)
    for _ in range(count):
        weights = draw.choice(list(PLAYERS.values())).weights
        events, choices = all_holds(melody(draw), GUITAR, weights)
        how = [Way(draw.choice([0, 0, 1, 2]), draw.choice(["", "", "d", "u"])) for _ in events]
        taken = taken_by_search(events, choices, GUITAR, weights, how)
        assert cost_of(events, taken, GUITAR, weights, how) == least_by_pairs(events, choices, GUITAR, weights, how)


def test_random_melodies_cost_what_plain_dynamic_programming_finds() -> None:
    check_melodies(60, seed=1)


@pytest.mark.long
def test_ten_thousand_random_melodies_cost_what_plain_dynamic_programming_finds() -> None:
    check_melodies(10_000, seed=2)


@given(st.lists(notes(40, 60), min_size=2, max_size=30), st.integers(0, 9))
@settings(max_examples=40, deadline=None)
def test_what_is_remembered_of_links_changes_no_result(line_: list[Wanted], start: int) -> None:
    events = [(note,) for note in line_] * 3
    kept = Search(TANGLED)
    kept.line(events)
    assert kept.line(events[start:]) == Search(TANGLED).line(events[start:])


def test_what_is_remembered_changes_no_result(monkeypatch: pytest.MonkeyPatch) -> None:
    events = line("E3 G3 A3 C4+E4 D4 E4 G4 C3+G3 A4 G4 E4 D4 C4 A3 G3 E3 B2+F#3 C4 E2") * 7
    kept = Search(GUITAR)
    first = kept.line(events)
    assert kept.line(events) == first
    assert kept.line(events[3:40]) == Search(GUITAR).line(events[3:40])
    monkeypatch.setattr(search_module, "MOST_STEPS", 5)
    assert Search(GUITAR).line(events) == first


@pytest.mark.parametrize("seed", range(40))
def test_a_repeated_phrase_is_fingered_alike_each_time(seed: int) -> None:
    # Small leaps and wide ones. The first pass begins the line and nothing follows the last: these two may differ.
    draw = random.Random(seed)
    phrase = [draw.randint(45, 75)]
    steps = [-5, -4, -3, -2, -1, 1, 2, 3, 4, 7] if seed % 2 else [step for step in range(-12, 13) if step]
    while len(phrase) < 4 + seed % 12:
        phrase.append(min(84, max(40, phrase[-1] + draw.choice(steps))))
    found = Search(GUITAR).line([(Wanted(each),) for each in phrase] * 8)
    both = list(zip(found.grips, found.fingers, strict=True))
    passes = [both[len(phrase) * number : len(phrase) * (number + 1)] for number in range(8)]
    assert all(each == passes[1] for each in passes[2:-1])


@given(st.lists(st.tuples(st.integers(0, 32_767), st.integers(0, 32_767)), min_size=1, max_size=9))
def test_lanes_take_the_lesser_of_each_two(pairs: list[tuple[int, int]]) -> None:
    first, second = (sum(each << 16 * number for number, each in enumerate(side)) for side in zip(*pairs, strict=True))
    assert numbers(lesser(first, second, guards(len(pairs))), len(pairs)) == tuple(min(pair) for pair in pairs)
    assert numbers(ones(len(pairs)), len(pairs)) == (1,) * len(pairs)


@pytest.mark.parametrize("player", PLAYERS)
def test_costs_stay_in_their_lanes(player: str) -> None:
    # The dearest of all on the longest neck with the most strings and notes: what a lane may hold at the most before the least is
    # taken away.
    weights = PLAYERS[player].weights
    fingers = 5 * max(weights.lift, weights.roll, weights.hop, weights.drag)
    # 60 units of 10 mm are more than a bass guitar's hand has from its first fret to its last.
    step = GRAIN * (100 + crossing_cost(2, 24, weights, "d") + 40 + fingers + 12 * 40) + shift_cost(60, weights, len(HURRIES))
    assert 3 * step < 32_768
