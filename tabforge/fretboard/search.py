"""The cheapest fingering of a line, exactly: dynamic programming over hands.

It is Viterbi's algorithm (A. J. Viterbi, "Error bounds for convolutional codes", IEEE Transactions on Information Theory 13, 1967) with three
savings that leave the result exact.

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

from tabforge.fretboard.cost import SHIFT, SHIFT_FRET, crossing_cost, shift_cost
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import farthest, most_hands
from tabforge.fretboard.readings import Event, Grip, Reading, read

MAX_COST: Final = 255
"""More than any cost in a state: see the bounds in ``cost``."""

MOST_STEPS: Final = 8192
"""Steps remembered for one neck; when there are more, they are forgotten and remembering begins again."""


class State:
    """What is known after an event. ``ready[n]`` is the cost of the cheapest fingering so far after which the hand is at fret n + 1, less the
    least of them; ``moved`` are the numbers n at which it costs no more to have moved there after the event. ``steps`` remembers
    what follows, ``came`` where a moved hand came from.
    """

    __slots__ = ("came", "moved", "reading", "ready", "steps")

    def __init__(self, reading: Reading | None, ready: bytes, moved: tuple[int, ...]) -> None:
        self.reading = reading
        self.ready = ready
        self.moved = moved
        self.steps: dict[Event, State] = {}
        self.came: dict[int, int] = {}


_LESS: Final = tuple(bytes(max(0, cost - least) for cost in range(256)) for least in range(256))
"""For each least cost the table that takes it from every cost."""


def _settled(played: bytes) -> tuple[bytes, tuple[int, ...]]:
    """``ready`` and ``moved`` of a state, from what it costs to have played the event in each hand."""
    ready = list(played)
    last = len(played) - 1
    moved = []
    cost = MAX_COST
    for number, stayed in enumerate(played):
        if stayed < cost:
            cost = stayed
        elif cost + SHIFT <= stayed:
            ready[number] = cost + SHIFT
            moved.append(number)
        cost += SHIFT_FRET
    cost = MAX_COST
    number = last
    for stayed in reversed(played):
        if stayed < cost:
            cost = stayed
        elif cost + SHIFT <= ready[number]:
            ready[number] = cost + SHIFT
            moved.append(number)
        cost += SHIFT_FRET
        number -= 1
    return bytes(ready).translate(_LESS[min(played)]), tuple(moved)


class Search:
    """The search on one neck."""

    def __init__(self, neck: Neck) -> None:
        self._neck = neck
        self._reach = farthest(neck)
        self._forget()

    def _forget(self) -> None:
        self._readings: dict[Event, Reading] = {}
        self._unplayable: set[Event] = set()
        self._states: dict[tuple[Reading, bytes], State] = {}
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
        for passed in reversed(path):
            if passed is None or passed.reading is None:
                found.append(None)
                continue
            number = _from(passed, number)
            grip = passed.reading.grips[number]
            found.append((number + 1, grip) if grip is not None else None)
        found.reverse()
        return found

    def _step(self, state: State, event: Event) -> State | None:
        reading = self._readings.get(event) or self._read(state, event)
        if reading is None:
            return None
        before = state.reading
        toll = reading.tolls.get(before) or _toll(before, reading)
        ready, moved = _settled(bytes(map(add, state.ready, toll)))
        key = (reading, ready)
        after = self._states.get(key)
        if after is None:
            after = self._states[key] = State(reading, ready, moved)
        self._count += 1
        if self._count > MOST_STEPS:
            self._forget()
        else:
            state.steps[event] = after
        return after

    def _read(self, state: State, event: Event) -> Reading | None:
        if any(note.held for note in event):
            return read(event, self._neck, self._reach, state.reading)
        if event in self._unplayable:
            return None
        reading = read(event, self._neck, self._reach)
        if reading is None:
            self._unplayable.add(event)
        else:
            self._readings[event] = reading
        return reading


def _toll(before: Reading | None, after: Reading) -> bytes:
    """What it costs to play an event in each hand, coming from the event before in the same hand."""
    toll = after.costs
    if before is not None:
        crossing = map(crossing_cost, before.middles, after.middles)
        toll = bytes(map(add, toll, crossing))
    after.tolls[before] = toll
    return toll


def _from(state: State, after: int) -> int:
    """The number of the hand that plays an event, when the hand numbered ``after`` plays the next one; -1: there is none."""
    if after < 0:
        return state.ready.index(0)
    if after not in state.moved:
        return after
    came = state.came.get(after)
    if came is None:
        ways = [cost + shift_cost(abs(number - after)) for number, cost in enumerate(state.ready)]
        ways[after] = MAX_COST
        came = state.came[after] = ways.index(min(ways))
    return came


@lru_cache(maxsize=16)
def search(neck: Neck) -> Search:
    """The search on a neck. Kept, so that later lines on the same neck find its steps remembered."""
    return Search(neck)
