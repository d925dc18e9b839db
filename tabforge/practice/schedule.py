"""Which block in which key on which day, and how far each visit climbs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tabforge.practice.days import LEAST_STEP, REST, Frame, pauses, shares, steps_a_day, windows
from tabforge.practice.model import BlockPlan, Day, PlanOptions, Rung, Step


class Pair(NamedTuple):
    """A block, by its number, in a key."""

    block: int
    key: str | None


class Visit(NamedTuple):
    """Where in the plan a pair is met, and for how many minutes."""

    day: int
    place: int
    minutes: int


def fitting(keys: Sequence[Sequence[Pair]], frame: Frame, days: int) -> list[Pair]:
    """What there is time for of all pairs, given key by key. Where it is not all, each key has fewer blocks, other ones in turn; where not
    even one block fits in every key, the last keys are left out.
    """
    room = max(1, frame.playing // LEAST_STEP) * days
    if sum(map(len, keys)) <= room:
        return [pair for key in keys for pair in key]
    each = max(1, room // len(keys))
    chosen = []
    for number, key in enumerate(keys):
        turn = number * each
        chosen += [key[at % len(key)] for at in range(turn, turn + min(each, len(key)))]
    return chosen[:room]


def schedule(
    blocks: Sequence[BlockPlan], pairs: Sequence[Pair], frame: Frame, options: PlanOptions
) -> tuple[tuple[Day, ...], tuple[Pair, ...]]:
    """The days, and those pairs whose ladder does not reach its top in them. There must be a pair."""
    count = steps_a_day(frame, len(blocks), len(pairs), options.days)
    visits: dict[Pair, list[Visit]] = {pair: [] for pair in pairs}
    order: list[list[tuple[Pair, int]]] = []
    for day in range(options.days):
        today = [pairs[number % len(pairs)] for number in range(day * count, (day + 1) * count)]
        minutes = shares(frame.playing, [blocks[pair.block].seconds for pair in today])
        order.append(list(zip(today, minutes, strict=True)))
        for place, (pair, given) in enumerate(order[-1]):
            visits[pair].append(Visit(day, place, given))
    climbs, unreached = _climbs(blocks, visits, options.times)
    heard = [0] * len(blocks)
    gaps = pauses(count, frame)
    days = []
    for day, row in enumerate(order):
        steps = []
        for place, (pair, given) in enumerate(row):
            listen = blocks[pair.block].listen
            steps.append(Step(
                block=pair.block, key=pair.key, rungs=climbs[day, place], times=options.times, rest=REST, minutes=given,
                focus=listen[heard[pair.block] % len(listen)], pause=gaps[place],
            ))  # fmt: skip
            heard[pair.block] += 1
        days.append(Day(warm_up=frame.warm_up, steps=tuple(steps), closing=frame.closing))
    return tuple(days), unreached


def _climbs(
    blocks: Sequence[BlockPlan], visits: dict[Pair, list[Visit]], times: int
) -> tuple[dict[tuple[int, int], tuple[Rung, ...]], tuple[Pair, ...]]:
    """The rungs of each visit by its day and place, and the pairs that are left below the top."""
    climbs: dict[tuple[int, int], tuple[Rung, ...]] = {}
    unreached = []
    for pair, row in visits.items():
        block = blocks[pair.block]
        found, reached = windows(block.rungs, block.seconds, times, [visit.minutes for visit in row])
        for visit, rungs in zip(row, found, strict=True):
            climbs[visit.day, visit.place] = rungs
        if not reached:
            unreached.append(pair)
    return climbs, tuple(unreached)
