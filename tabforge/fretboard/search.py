"""The cheapest fingering of a line, exactly: dynamic programming over string, fret, finger and hand.

It is Viterbi's algorithm (A. J. Viterbi, "Error bounds for convolutional codes", IEEE Transactions on Information Theory 13, 1967) over
all holds of each event, with three savings that leave the result exact.

**Lanes.** The way from one hold to all holds of the next event is one integer with a lane for each; adding and taking the lesser of two is
done for all of them at once (see ``lanes``).

**Bounds.** A hold that costs so much more than the cheapest that one might as well have come from there is passed over (see
``Stage.bounds``).

**Remembered steps.** What may follow depends only on the event and on what each hold costs above the cheapest. Such a state recurs whenever
the music does, so a step from a state by an event is worked out once, and a note then costs a look-up. What is remembered never changes
a result, only its time.

Ties are broken the same way every time: the last event takes the first of the cheapest holds (in the order of ``holds.Hold``); before that,
of the holds it is cheapest to come from, the first with the same hand, else the first.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import chain
from typing import Final, NamedTuple

from tabforge.fretboard.cost import GRAIN, USUAL, Weights, hand_ways
from tabforge.fretboard.fingers import Fingers
from tabforge.fretboard.holds import holds
from tabforge.fretboard.lanes import LANE, numbers
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import farthest, most_hands
from tabforge.fretboard.readings import Event, Grip
from tabforge.fretboard.stage import PLAIN, Stage, Way

MOST_STEPS: Final = 8192
"""Steps remembered for one neck; when there are more, they are forgotten and remembering begins again."""

MOST_STAGES: Final = 2048
"""Events whose holds, and the ways between them, are remembered for one neck: they are dearer to work out than steps, and fewer."""


class Fingering(NamedTuple):
    """A fingering of a line: for each event its hand, its grip and its fingers; 0 and ``()`` for one that cannot be played. ``strokes``
    are empty unless they are chosen.
    """

    hands: list[int]
    grips: list[Grip]
    fingers: list[Fingers]
    strokes: list[str]


class State:
    """What is known after an event: ``costs`` has in lanes the cost of the cheapest fingering that ends with each of the stage's
    holds, less the
    least of them. ``steps`` remembers what follows.
    """

    __slots__ = ("costs", "stage", "steps")

    def __init__(self, stage: Stage | None, costs: int) -> None:
        self.stage = stage
        self.costs = costs
        self.steps: dict[Event | tuple[Way, Event], Step] = {}


class Step:
    """A step from a state to the next, which costs ``least`` at least. ``first`` and ``came``: the number of a hold → the number
    of the one before
    that it is come from.
    """

    __slots__ = ("after", "came", "first", "least", "way")

    def __init__(self, after: State, way: Way, least: int) -> None:
        self.after, self.way, self.least = after, way, least
        self.first = (-1, -1)
        self.came: dict[int, int] | None = None

    def source(self, before: State, number: int) -> int:
        """The number of the hold that hold ``number`` is come from, the step being one from ``before``; -1 if there is none."""
        if self.first[0] == number:
            return self.first[1]
        if self.came is None:
            came = _source(before, self, number)
            if self.first[0] < 0:
                self.first = (number, came)
            else:
                self.came = {number: came}
            return came
        known = self.came.get(number)
        if known is None:
            known = self.came[number] = _source(before, self, number)
        return known


class Search:
    """The search on one neck for one sort of player. ``economy``: the pick's strokes are chosen with the places, by that way's rule."""

    def __init__(self, neck: Neck, weights: Weights = USUAL, economy: bool = False) -> None:
        self._neck, self._weights, self._economy = neck, weights, economy
        self._reach = farthest(neck, weights.hand)
        self._hand_ways = hand_ways(neck, most_hands(neck))
        self._stages: dict[Event, Stage | None] = {}
        self._forget()

    def _forget(self) -> None:
        if len(self._stages) > MOST_STAGES:
            self._stages = {}
        self._states: dict[tuple[Stage, int], State] = {}
        self._count = 0
        self._start = State(None, 0)

    def line(self, events: Sequence[Event], ways: Sequence[Way] | None = None) -> Fingering:
        """The cheapest fingering of a line; events that cannot be played are passed over. ``ways`` tells how each event is come to."""
        state = self._start
        path: list[Step | None] = []
        if ways is None:
            for event in events:
                step = state.steps.get(event) or self._step(state, event, PLAIN)
                path.append(step)
                if step is not None:
                    state = step.after
        else:
            for event, way in zip(events, ways, strict=True):
                step = state.steps.get((way, event)) or self._step(state, event, way)
                path.append(step)
                if step is not None:
                    state = step.after
        return self._back(path)

    def _back(self, path: list[Step | None]) -> Fingering:
        hands: list[int] = []
        grips: list[Grip] = []
        fingers: list[Fingers] = []
        strokes: list[str] = []
        number = -1
        befores = [self._start, *[step.after for step in path if step is not None]]
        befores.pop()
        for step in reversed(path):
            if step is None:
                hands.append(0)
                grips.append(())
                fingers.append(())
                strokes.append("")
                continue
            stage = step.after.stage
            assert stage is not None
            if number < 0:
                number = numbers(step.after.costs, stage.count).index(0)
            hold = stage.holds[number]
            hands.append(hold.hand)
            grips.append(hold.grip)
            fingers.append(hold.fingers)
            strokes.append(hold.stroke)
            number = step.source(befores.pop(), number)
        hands.reverse()
        grips.reverse()
        fingers.reverse()
        strokes.reverse()
        return Fingering(hands, grips, fingers, strokes if self._economy else [])

    def _step(self, state: State, event: Event, way: Way) -> Step | None:
        """The step from a state by an event, or None if no hand can play it."""
        if event in self._stages:
            stage = self._stages[event]
        else:
            found = holds(event, self._neck, self._reach, self._weights)
            if self._economy and not event[0].linked:
                found = [hold._replace(stroke=stroke) for hold in found for stroke in ("d", "u")]
            stage = self._stages[event] = Stage(event, found, self._neck, self._weights, self._hand_ways) if found else None
        if stage is None:
            return None
        before = state.stage
        total = stage.begun(way.stroke) if before is None else _arrived(state, before, stage, way)
        least = min(numbers(total, stage.count))
        costs = total - least * stage.ones
        after = self._states.get((stage, costs))
        if after is None:
            after = self._states[stage, costs] = State(stage, costs)
        step = Step(after, way, least)
        self._count += 1
        if self._count > MOST_STEPS:
            self._forget()
        else:
            state.steps[event if way is PLAIN else (way, event)] = step
        return step


def _arrived(state: State, before: Stage, stage: Stage, way: Way) -> int:
    """What it costs to have come to each hold of a stage from the cheapest before it (``lanes.lesser`` over all rows, written out
    for speed)."""
    costs = numbers(state.costs, before.count)
    first = costs.index(0)
    bounds = before.bounds(first, way.hurry, stage.slack + (GRAIN * stage.weights.picking if way.stroke else 0))
    hands, touches = stage.rows(before, way)
    guard, ones = stage.guard, stage.ones
    total = hands[first] + touches[first]
    for cost, bound, hand, touch in zip(costs, bounds, hands, touches, strict=True):
        if cost <= bound:
            row = hand + touch + cost * ones
            over = ((total | guard) - row) & guard
            if over:
                total ^= (total ^ row) & (over - (over >> _TOP))
    return total


def _source(state: State, step: Step, number: int) -> int:
    """The number of the hold before hold ``number`` of a step; -1 if none is."""
    before, stage = state.stage, step.after.stage
    assert stage is not None
    if before is None:
        return -1
    hands, touches = stage.rows(before, step.way)
    lane, costs = LANE * number, state.costs
    cost = (step.after.costs >> lane & _LANE) + step.least
    for other in chain(before.in_hand.get(stage.hands[number], ()), range(before.count)):
        if (costs >> LANE * other & _LANE) + (hands[other] + touches[other] >> lane & _LANE) == cost:
            return other
    raise AssertionError("a hold is come to from nowhere")


_TOP: Final = LANE - 1
_LANE: Final = (1 << LANE) - 1


@lru_cache(maxsize=16)
def search(neck: Neck, weights: Weights = USUAL, economy: bool = False) -> Search:
    """The search on a neck for a sort of player. Kept, so that later lines on the same neck find its steps remembered."""
    return Search(neck, weights, economy)
