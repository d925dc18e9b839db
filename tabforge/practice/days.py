"""Dividing time: which block in which key on which day, for how many minutes, and which rungs of its ladder.

The sizes are common practice, no source: hands and ears tire, and what is slept over stays.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from tabforge.practice.model import Rung

SITTING: Final = 25
"""Minutes at most before a longer break, roughly."""

SHORT_BREAK: Final = 2
LONG_BREAK: Final = 5
LONG_DAY: Final = 45
"""Minutes of a break, the longer one on days of LONG_DAY minutes and more."""

LEAST_STEP: Final = 4
"""Minutes a step needs, on an average of a day's steps, to be of use."""

REST: Final = 15
"""Seconds of rest after each rung."""

TRIES: Final = 1.5
"""Passes that one without a slip takes, on an average."""

BETWEEN: Final = 3.0
"""Seconds between two passes."""


class Frame(NamedTuple):
    """The minutes of a day: warming up, playing, looking back, and a number of breaks."""

    warm_up: int
    playing: int
    closing: int
    breaks: int
    each: int


def frame_of(minutes: int) -> Frame:
    """How a day of so many minutes is divided."""
    warm_up = min(8, max(2, round(minutes * 0.13)))
    closing = 1 if minutes < 20 else 2
    breaks = max(0, -(-minutes // SITTING) - 1)
    each = LONG_BREAK if minutes >= LONG_DAY else SHORT_BREAK
    return Frame(warm_up, minutes - warm_up - closing - breaks * each, closing, breaks, each)


def steps_a_day(frame: Frame, blocks: int, pairs: int, days: int) -> int:
    """How many steps a day has: every block once if there is time, and as many as it takes for every pair of block and key to have its
    turn; at least one more than there are breaks.
    """
    most = max(1, frame.playing // LEAST_STEP)
    return min(most, max(blocks, -(-pairs // days), frame.breaks + 1))


def shares(minutes: int, weights: Sequence[float]) -> list[int]:
    """Whole minutes for each weight, ``minutes`` in all: three quarters of them evenly, the rest by weight; what is left over goes to
    the largest remainders.
    """
    total = sum(weights)
    exact = [minutes * (0.75 / len(weights) + 0.25 * weight / total) for weight in weights]
    whole = [int(each) for each in exact]
    order = sorted(range(len(exact)), key=lambda at: (round(whole[at] - exact[at], 6), at))
    for at in order[: minutes - sum(whole)]:
        whole[at] += 1
    return whole


def pauses(steps: int, frame: Frame) -> list[int]:
    """Minutes of the break after each step: breaks lie as evenly as they can, and none after the last."""
    found = [0] * steps
    breaks = min(frame.breaks, steps - 1)
    for number in range(1, breaks + 1):
        found[number * steps // (breaks + 1) - 1] += frame.each
    return found


def rung_minutes(seconds: float, percent: float, times: int) -> float:
    """Minutes that a rung takes until it has been played so often without a slip, its rest included."""
    return (times * TRIES * (seconds * 100 / percent + BETWEEN) + REST) / 60


def windows(rungs: Sequence[Rung], seconds: float, times: int, minutes: Sequence[int]) -> tuple[list[tuple[Rung, ...]], bool]:
    """Which rungs each visit to a block has, and whether the last visit reaches the top.

    A visit begins on the rung where the one before ended, or lower where there is time, and has at least two rungs if the ladder has;
    visits are spread so that the last one ends at the top.
    """
    found: list[tuple[Rung, ...]] = []
    reached, last = 0, len(rungs) - 1
    for number, given in enumerate(minutes):
        goal = -(-last * (number + 1) // len(minutes))  # where an even climb would be by now
        low, high, left = reached, reached, given - rung_minutes(seconds, rungs[reached].percent, times)
        while high < last:
            cost = rung_minutes(seconds, rungs[high + 1].percent, times)
            if high > reached and (cost > left or high >= goal):
                break
            high, left = high + 1, left - cost
        while low > 0 and (cost := rung_minutes(seconds, rungs[low - 1].percent, times)) <= left:
            low, left = low - 1, left - cost
        found.append(tuple(rungs[low : high + 1]))
        reached = high
    return found, reached == last
