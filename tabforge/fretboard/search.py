"""The cheapest fingering of a line, exactly: dynamic programming over hands.

It is Viterbi's algorithm (A. J. Viterbi, "Error bounds for convolutional codes", IEEE Transactions on Information Theory 13, 1967) with
three savings that leave the result exact.

**The shift as a distance transform.** Getting from every hand to every hand costs SHIFT and so much a fret, so the cheapest way to each
hand is found in one pass up the neck and one down, not for each pair (P. F. Felzenszwalb and D. P. Huttenlocher, "Distance transforms of
sampled functions", Theory of Computing 8, 2012, section 2, for the linear distance; cited from memory).

**Tolls.** What an event costs in each hand, with the crossing from the event before, is worked out once for each pair of events.

**Remembered steps.** What may follow depends only on the event and on what each hand costs above the cheapest. Such a state recurs whenever
the music does, so a step from a state by an event is worked out once, and a note then costs a look-up. What is remembered never changes
a result, only its time.

Ties are broken the same way every time: the last event takes the lowest of the cheapest hands; before that, a hand moves as late as it
can without loss, and comes from the lowest of the cheapest hands.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from operator import add
from typing import Final

from tabforge.fretboard.bonds import bound, bound_ways, broken
from tabforge.fretboard.cost import MOST, NEVER, crossing_cost
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import farthest, most_hands
from tabforge.fretboard.readings import Event, Grip, Reading, Way, read
from tabforge.fretboard.states import State, came_from, came_from_grip, spread

MOST_STEPS: Final = 8192
"""Steps remembered for one neck; when there are more, they are forgotten and remembering begins again."""

_LESS: Final = tuple(bytes(least) + bytes(range(256 - least)) for least in range(256))
"""For each least cost the table that takes it from every cost."""


class Search:
    """The search on one neck."""

    def __init__(self, neck: Neck) -> None:
        self._neck = neck
        self._reach = farthest(neck)
        self._forget()

    def _forget(self) -> None:
        self._readings: dict[Event, Reading] = {}
        self._unplayable: set[Event] = set()
        self._ways: dict[Event, list[Way]] = {}
        self._bound: dict[tuple[Event, tuple[Grip | None, ...]], Reading] = {}
        self._states: dict[tuple[Reading, bytes, tuple[Grip | None, ...]], State] = {}
        self._count = 0
        self._start = State(None, bytes(most_hands(self._neck)), ())

    def line(self, events: Sequence[Event]) -> list[tuple[int, Grip] | None]:
        """The hand and the grip for each event; None for one that cannot be played, which is passed over."""
        state = self._start
        path: list[State | None] = []
        for event in events:
            after = state.steps.get(event) or self._step(state, event)
            path.append(after)
            if after is not None:
                state = after
        found: list[tuple[int, Grip] | None] = []
        number = -1
        bonds: tuple[Grip | None, ...] = ()
        for passed in reversed(path):
            if passed is None or passed.reading is None:
                found.append(None)
                continue
            number = came_from_grip(passed, number, bonds[number]) if bonds else came_from(passed, number)
            bonds = passed.bonds
            grip = passed.reading.grips[number]
            found.append((number + 1, grip) if grip is not None else None)
        found.reverse()
        return found

    def _step(self, state: State, event: Event) -> State | None:
        reading = self._readings.get(event)
        before = state.reading
        bonds: tuple[Grip | None, ...] = ()
        if reading is None and before is not None and bound(event):
            reading, bonds, arriving = self._bind(state, before, event)
        elif reading is None:
            reading = self._read(event)
            arriving = state.ready
        else:
            arriving = state.ready
        if reading is None:
            return None
        toll = reading.tolls.get(before) or _toll(before, reading)
        played = bytes(map(add, arriving, toll))
        settled, moved = spread(played)
        ready = bytes(settled).translate(_LESS[min(played)])
        key = (reading, ready, bonds)
        after = self._states.get(key)
        if after is None:
            after = self._states[key] = State(reading, ready, tuple(moved), bonds)
        self._count += 1
        if self._count > MOST_STEPS:
            self._forget()
        else:
            state.steps[event] = after
        return after

    def _read(self, event: Event) -> Reading | None:
        if event in self._unplayable:
            return None
        reading = read(event, self._neck, self._reach)
        if reading is None:
            self._unplayable.add(event)
        elif not bound(event):
            self._readings[event] = reading
        return reading

    def _bind(
        self, state: State, before: Reading, event: Event
    ) -> tuple[Reading | None, tuple[Grip | None, ...], bytes]:
        """The reading of an event that looks back, the grip that each hand comes from, and what it costs to arrive in each hand from it."""
        choices = self._ways.get(event)
        if choices is None:
            choices = self._ways[event] = bound_ways(event, self._neck, self._reach)
        count = len(state.ready)
        starts: dict[Grip, list[int]] = {}
        for number, grip in enumerate(before.grips):
            if grip is not None and number not in state.moved:
                starts.setdefault(grip, [NEVER] * count)[number] = state.ready[number]
        arrivals = [(grip, spread(played)[0]) for grip, played in starts.items()]
        best: list[tuple[int, int, Way, Grip] | None] = [None] * count
        for way in choices:
            number = way.hand - 1
            for grip, ready in arrivals:
                arriving = ready[number] + broken(event, grip, way.grip, self._neck)
                known = best[number]
                if known is None or arriving + way.cost < known[0]:
                    best[number] = (arriving + way.cost, arriving, way, grip)
        if not any(best):
            return None, (), b""
        grips = tuple(each[2].grip if each else None for each in best)
        costs = bytes(each[2].cost if each else NEVER for each in best)
        reading = self._bound.setdefault((event, grips), Reading(grips, costs))
        arrived = [min(each[1], MOST) if each else 0 for each in best]
        return reading, tuple(each[3] if each else None for each in best), bytes(arrived)


def _toll(before: Reading | None, after: Reading) -> bytes:
    """What it costs to play an event in each hand, coming from the event before in the same hand."""
    toll = after.costs
    if before is not None:
        crossing = map(crossing_cost, before.middles, after.middles)
        toll = bytes(map(add, toll, crossing))
    after.tolls[before] = toll
    return toll


@lru_cache(maxsize=16)
def search(neck: Neck) -> Search:
    """The search on a neck. Kept, so that later lines on the same neck find its steps remembered."""
    return Search(neck)
