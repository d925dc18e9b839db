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
from typing import Final, NamedTuple

from tabforge.fretboard.bonds import Bond, bound
from tabforge.fretboard.cost import NEVER, crossing_cost, shift_cost, start_cost
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import farthest, most_hands
from tabforge.fretboard.readings import Event, Grip, Reading, Way, read
from tabforge.fretboard.states import State, came_from, spread

MOST_STEPS: Final = 8192
"""Steps remembered for one neck; when there are more, they are forgotten and remembering begins again."""

_LESS: Final = tuple(bytes(least) + bytes(range(256 - least)) for least in range(256))
"""For each least cost the table that takes it from every cost."""

_SHIFTS: Final = tuple(shift_cost(way) for way in range(64))


class Fingering(NamedTuple):
    """A fingering of a line: for each event its hand and its grip, 0 and ``()`` for one that cannot be played.

    ``bonded``: some events look back at the one before.
    """

    hands: list[int]
    grips: list[Grip]
    bonded: bool


class Search:
    """The search on one neck."""

    def __init__(self, neck: Neck) -> None:
        self._neck = neck
        self._reach = farthest(neck)
        self._forget()

    def _forget(self) -> None:
        self._readings: dict[Event, Reading] = {}
        self._unplayable: set[Event] = set()
        self._bonds: dict[tuple[Reading, Event], Bond] = {}
        self._bound: dict[tuple[Event, tuple[Grip | None, ...]], Reading] = {}
        self._states: dict[tuple[Reading, bytes], State] = {}
        self._bound_steps: dict[tuple[Reading, bytes, Event], State] = {}
        self._count = 0
        beginning = bytes(start_cost(hand + 1) for hand in range(most_hands(self._neck)))
        self._start = State(None, beginning, ())

    def line(self, events: Sequence[Event]) -> Fingering:
        """The cheapest fingering of a line; events that cannot be played are passed over."""
        previous = state = self._start
        path: list[State | None] = []
        for event in events:
            after = state.steps.get(event) or self._step(previous, state, event)
            path.append(after)
            if after is not None:
                previous, state = state, after
        hands: list[int] = []
        grips: list[Grip] = []
        number = -1
        origins: tuple[int, ...] = ()
        bonded = False
        for passed in reversed(path):
            if passed is None or passed.reading is None:
                hands.append(0)
                grips.append(())
                continue
            bound_to = origins[number] if origins else -1
            number = bound_to if bound_to >= 0 else came_from(passed, number)
            origins = passed.origins
            bonded = bonded or bool(origins)
            hands.append(number + 1)
            grips.append(passed.reading.grips[number] or ())
        hands.reverse()
        grips.reverse()
        return Fingering(hands, grips, bonded)

    def _step(self, previous: State, state: State, event: Event) -> State | None:
        """The state after an event. ``previous`` is the state before ``state``."""
        reading = self._readings.get(event)
        before = state.reading
        if reading is None:
            if before is not None and bound(event):
                return self._bound_step(previous, state, before, event)
            reading = self._read(event)
            if reading is None:
                return None
        toll = reading.tolls.get(before) or _toll(before, reading)
        played = bytes(map(add, state.ready, toll))
        settled, moved = spread(played)
        ready = bytes(settled).translate(_LESS[min(played)])
        key = (reading, ready)
        after = self._states.get(key)
        if after is None:
            after = self._states[key] = State(reading, ready, tuple(moved))
        if self._counted():
            state.steps[event] = after
        return after

    def _counted(self) -> bool:
        """Counts a step; False if that was one too many and all is forgotten."""
        self._count += 1
        if self._count > MOST_STEPS:
            self._forget()
            return False
        return True

    def _read(self, event: Event) -> Reading | None:
        if event in self._unplayable:
            return None
        reading = read(event, self._neck, self._reach)
        if reading is None:
            self._unplayable.add(event)
        elif not bound(event):
            self._readings[event] = reading
        return reading

    def _bound_step(self, previous: State, state: State, before: Reading, event: Event) -> State | None:
        """The state after an event that looks back at the one before."""
        played = state.played or bytes(map(add, previous.ready, before.tolls[previous.reading]))
        played = played.translate(_LESS[min(played)])
        key = (before, played, event)
        after = self._bound_steps.get(key)
        if after is None:
            after = self._bind(state.ready, played, before, event)
            if after is not None and self._counted():
                self._bound_steps[key] = after
        return after

    def _bind(self, ready: bytes, played: bytes, before: Reading, event: Event) -> State | None:
        bond = self._bonds.get((before, event))
        if bond is None:
            bond = self._bonds[before, event] = Bond(before, event, self._neck, self._reach)
        count = len(ready)
        totals, origins = [NEVER * 2] * count, [-1] * count
        best: list[Way | None] = [None] * count
        for way, crossing, kept in bond.ways:
            number = way.hand - 1
            own = way.cost + crossing
            if own >= totals[number]:
                continue
            arriving, origin = ready[number] + bond.worst, -1
            for broken, sources in kept:
                for source in sources:
                    cost = played[source] + broken + _SHIFTS[abs(source - number)]
                    if cost < arriving:
                        arriving, origin = cost, source
            if arriving + own < totals[number]:
                totals[number], origins[number], best[number] = arriving + own, origin, way
        if not any(best):
            return None
        grips = tuple(way.grip if way else None for way in best)
        costs = bytes(way.cost if way else NEVER for way in best)
        reading = self._bound.get((event, grips))
        if reading is None:
            reading = self._bound[event, grips] = Reading(grips, costs)
        least = min(totals)
        gone = bytes(min(total - least, NEVER) for total in totals)
        settled, moved = spread(gone)
        return State(reading, bytes(settled), tuple(moved), gone, tuple(origins))


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
