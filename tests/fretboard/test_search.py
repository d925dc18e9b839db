"""The search against trying everything: it must cost no more and no less.

The oracles use ``cost`` and nothing else of the search: every grip by trying all combinations of places, every line by trying all
hands, or by plain O(n k^2) dynamic programming on longer ones.
"""

from __future__ import annotations

import random
from itertools import pairwise, product

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tabforge.fretboard import search as search_module
from tabforge.fretboard.bonds import bound, broken_cost
from tabforge.fretboard.cost import MOST, NEVER, crossing_cost, grip_cost, shift_cost, start_cost
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import FINGERS, REACH_FRETS, REACH_MM, farthest, fingers_needed, most_hands
from tabforge.fretboard.readings import LET_GO, Event, Grip, Reading, Wanted, grips, hands, middle, read
from tabforge.fretboard.search import Search
from tabforge.fretboard.states import spread
from tests.fretboard.necks import GUITAR, line, neck, necks

SMALL = neck("E2 A2 D3 G3", frets=7)
TANGLED = neck("E2 C3 F2 D3 G2 A2", frets=9)
"""Strings that overlap, so that one hand has many ways."""


def every_grip(event: Event, on: Neck) -> list[Grip]:
    """All playable grips of an event, by the definition."""
    found = []
    for grip in product(*(on.places(note.midi) for note in event)):
        pins = zip(grip, event, strict=True)
        if any(note.string not in (None, string) or note.fret not in (None, fret) for (string, fret), note in pins):
            continue
        if len({string for string, _ in grip}) < len(grip):
            continue
        frets = [fret for _, fret in grip if fret]
        pinned = len(event) > 1 and all(note.string is not None and note.fret is not None for note in event)
        if not pinned and len(frets) > 1:
            low, high = min(frets), max(frets)
            if high - low > REACH_FRETS or on.distance_mm(low, high) > REACH_MM or fingers_needed(grip) > FINGERS:
                continue
        found.append(grip)
    return found


def best_in_each_hand(event: Event, on: Neck) -> dict[int, tuple[int, Grip]]:
    """Hand → what its best grip costs, and the grip."""
    best: dict[int, tuple[int, int, Grip]] = {}
    for grip in every_grip(event, on):
        opened = any(fret == 0 and note.fret is None for (_, fret), note in zip(grip, event, strict=True))
        for hand in hands(grip, most_hands(on)):
            found = (grip_cost(grip, hand, opened), sum(fret for _, fret in grip), grip)
            best[hand] = min(best.get(hand, found), found)
    return {hand: (found[0], found[2]) for hand, found in best.items()}


def step_cost(before: Reading, after: Reading, come: int, go: int) -> int:
    return shift_cost(abs(come - go)) + crossing_cost(before.middles[go - 1], after.middles[go - 1])


def line_cost(readings: list[Reading], taken: list[int]) -> int:
    total = start_cost(taken[0]) + sum(reading.costs[hand - 1] for reading, hand in zip(readings, taken, strict=True))
    pairs = zip(readings, readings[1:], taken, taken[1:], strict=False)
    return total + sum(step_cost(before, after, come, go) for before, after, come, go in pairs)


def read_all(events: list[Event], on: Neck) -> list[Reading]:
    readings = [read(event, on, farthest(on)) for event in events]
    assert None not in readings
    return [reading for reading in readings if reading]


def playable(reading: Reading) -> list[int]:
    return [number + 1 for number, grip in enumerate(reading.grips) if grip is not None]


def least_by_trying(readings: list[Reading]) -> int:
    return min(line_cost(readings, list(taken)) for taken in product(*map(playable, readings)))


def least_by_pairs(readings: list[Reading]) -> int:
    """Plain dynamic programming over all pairs of hands."""
    costs = {hand: start_cost(hand) + readings[0].costs[hand - 1] for hand in playable(readings[0])}
    for before, after in pairwise(readings):
        costs = {
            go: min(cost + step_cost(before, after, come, go) for come, cost in costs.items()) + after.costs[go - 1]
            for go in playable(after)
        }
    return min(costs.values())


def found_cost(events: list[Event], on: Neck) -> int:
    found = Search(on).line(events)
    readings = read_all(events, on)
    assert found.grips == [reading.grips[hand - 1] for hand, reading in zip(found.hands, readings, strict=True)]
    return line_cost(readings, found.hands)


@given(st.lists(st.lists(st.integers(40, 62), min_size=1, max_size=3), min_size=1, max_size=5))
@settings(max_examples=60, deadline=None)
def test_a_short_line_costs_the_least_of_all_lines(pitches: list[list[int]]) -> None:
    events = [tuple(Wanted(each) for each in chord) for chord in pitches]
    events = [event for event in events if every_grip(event, SMALL)]
    if events:
        assert found_cost(events, SMALL) == least_by_trying(read_all(events, SMALL))


@given(st.data(), necks())
@settings(max_examples=60, deadline=None)
def test_a_long_line_costs_the_least_on_any_neck(data: st.DataObject, on: Neck) -> None:
    pitch = st.integers(on.lowest, on.highest).filter(on.places)
    events = data.draw(st.lists(st.lists(pitch, min_size=1, max_size=4), min_size=1, max_size=25))
    chords = [tuple(Wanted(each) for each in chord) for chord in events]
    chords = [event for event in chords if every_grip(event, on)]
    if chords:
        assert found_cost(chords, on) == least_by_pairs(read_all(chords, on))


@given(st.data(), necks())
@settings(max_examples=100, deadline=None)
def test_a_reading_has_the_best_grip_in_each_hand(data: st.DataObject, on: Neck) -> None:
    pitch = st.integers(on.lowest, on.highest)
    event = tuple(Wanted(each) for each in data.draw(st.lists(pitch, min_size=1, max_size=5)))
    reading = read(event, on, farthest(on))
    best = best_in_each_hand(event, on)
    if reading is None:
        assert not best
        return
    for hand, (cost, grip) in enumerate(zip(reading.costs, reading.grips, strict=True), 1):
        assert (cost, grip) == best.get(hand, (NEVER, None))


@given(st.lists(st.integers(40, 76), min_size=2, max_size=6))
@example([64, 69, 71, 66])
@example([55, 62, 59, 67, 64])
@settings(max_examples=60, deadline=None)
def test_all_grips_of_a_guitar_chord_are_found(pitches: list[int]) -> None:
    event = tuple(Wanted(each) for each in pitches)
    assert sorted(grips(event, GUITAR, farthest(GUITAR))) == sorted(every_grip(event, GUITAR))


@given(st.lists(st.integers(0, NEVER), min_size=1, max_size=33))
def test_spreading_is_the_cheapest_way_to_every_hand(played: list[int]) -> None:
    ready, moved = spread(played)
    for hand, cost in enumerate(ready):
        ways = [each + shift_cost(abs(hand - come)) for come, each in enumerate(played) if come != hand]
        assert cost == min([played[hand], *ways])
        assert (hand in moved) == (min([*ways, NEVER * 2]) <= played[hand])


def way_cost(event: Event, grip: Grip, hand: int) -> int:
    sounding = [(note, each) for note, each in zip(event, grip, strict=True) if each != LET_GO]
    opened = any(fret == 0 and note.fret is None for note, (_, fret) in sounding)
    return grip_cost(tuple(each for _, each in sounding), hand, opened)


def all_ways(event: Event, on: Neck) -> list[tuple[int, Grip]]:
    """Every hand and grip, what is held being let go or not."""
    struck = tuple(note for note in event if not note.held)
    found = every_grip(event, on)
    for grip in every_grip(struck, on) if struck != event and struck else ():
        places = iter(grip)
        found.append(tuple(LET_GO if note.held else next(places) for note in event))
    return [(hand, grip) for grip in found for hand in hands(tuple(each for each in grip if each != LET_GO), most_hands(on))]


def notes(low: int, high: int) -> st.SearchStrategy[Wanted]:
    """Notes without pins, linked or not."""
    return st.tuples(st.integers(low, high), st.booleans()).map(lambda each: Wanted(each[0], linked=each[1]))


@given(
    st.lists(st.integers(40, 62), min_size=1, max_size=3),
    st.lists(notes(38, 64), min_size=1, max_size=2),
    st.integers(0, 2),
    st.sampled_from([SMALL, TANGLED]),
)
@settings(max_examples=300, deadline=None)
def test_a_step_that_looks_back_costs_the_least(first: list[int], struck: list[Wanted], holds: int, on: Neck) -> None:
    before: Event = tuple(Wanted(each) for each in first)
    after: Event = (*struck, *(Wanted(each, held=True) for each in first[:holds]))
    if not bound(after):
        return
    reading = read(before, on, farthest(on))
    choices = all_ways(after, on)
    if reading is None or not choices:
        return

    def cost(come: int, go: int, grip: Grip) -> int:
        start = reading.grips[come - 1]
        assert start is not None
        crossing = crossing_cost(reading.middles[go - 1], middle(grip))
        return (
            start_cost(come) + reading.costs[come - 1] + shift_cost(abs(come - go)) + crossing
            + way_cost(after, grip, go) + broken_cost(after, start, grip, on)
        )  # fmt: skip

    found = Search(on).line([before, after])
    assert found.grips[0] == reading.grips[found.hands[0] - 1]
    least = min(cost(come, go, grip) for come in playable(reading) for go, grip in choices)
    assert cost(*found.hands, found.grips[1]) == least


@given(st.lists(notes(40, 60), min_size=2, max_size=30), st.integers(0, 9))
@settings(max_examples=60, deadline=None)
def test_what_is_remembered_of_links_changes_no_result(line_: list[Wanted], start: int) -> None:
    events = [(note,) for note in line_] * 3
    kept = Search(TANGLED)
    kept.line(events)
    assert kept.line(events[start:]) == Search(TANGLED).line(events[start:])


def test_costs_stay_in_a_byte() -> None:
    # The widest spread of a state, the dearest grip and the longest crossing together on the longest neck and the most strings.
    assert shift_cost(36) + MOST + crossing_cost(2, 24) < NEVER
    assert shift_cost(36) + NEVER + crossing_cost(2, 24) <= 255


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
    # For phrases that move by steps and small leaps. An optimum need not repeat: with wide leaps two fingerings can cost the same, and
    # the last passes, which nothing follows, may take the other one.
    draw = random.Random(seed)
    phrase = [draw.randint(45, 75)]
    while len(phrase) < 4 + seed % 12:
        phrase.append(min(84, max(40, phrase[-1] + draw.choice([-5, -4, -3, -2, -1, 1, 2, 3, 4, 7]))))
    found = Search(GUITAR).line([(Wanted(each),) for each in phrase] * 8).grips
    passes = [found[len(phrase) * number : len(phrase) * (number + 1)] for number in range(8)]
    assert all(each == passes[1] for each in passes[2:-1])
