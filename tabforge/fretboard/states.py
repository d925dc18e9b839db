"""What a search knows after each event: the cost of being in each hand, and how to find the way back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.fretboard.cost import SHIFT, SHIFT_FRET, shift_cost
from tabforge.fretboard.readings import Event, Reading

MAX_COST: Final = 255
"""More than any cost in a state: see the bounds in ``cost``."""


class State:
    """What is known after an event.

    ``ready[n]`` is the cost of the cheapest fingering so far after which the hand is at fret n + 1, less the least of them; ``moved`` are
    the numbers n at which it costs no more to have moved there after the event. ``steps`` remembers what follows, ``came`` where a
    moved hand came from.

    A state after an event that looks back has two things more: ``played[n]``, the cost of having played the event in hand n + 1, and
    ``origins[n]``, the number of the hand to come from, or -1 for whichever is cheapest.
    """

    __slots__ = ("came", "moved", "origins", "played", "reading", "ready", "steps")

    def __init__(
        self,
        reading: Reading | None,
        ready: bytes,
        moved: tuple[int, ...],
        played: bytes = b"",
        origins: tuple[int, ...] = (),
    ) -> None:
        self.reading = reading
        self.ready = ready
        self.moved = moved
        self.played = played
        self.origins = origins
        self.steps: dict[Event, State] = {}
        self.came: dict[int, int] = {}


def spread(played: Sequence[int]) -> tuple[list[int], list[int]]:
    """What it costs to be in each hand after an event, from what it costs to have played it there; and the hands at which it costs no
    more to have moved there. The costs are not lessened.
    """
    ready = list(played)
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
    number = len(ready)
    for stayed in reversed(played):
        number -= 1
        if stayed < cost:
            cost = stayed
        elif cost + SHIFT <= ready[number]:
            ready[number] = cost + SHIFT
            moved.append(number)
        cost += SHIFT_FRET
    return ready, moved


def came_from(state: State, after: int) -> int:
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
