"""What placement costs, in microseconds an event, beside a naive search in the same run.

The naive search is the same dynamic programming over the same hands without any saving: each event is read anew, and every hand is
tried with every hand before it, O(n k^2). It is slow, so it runs on at most 2,000 events; it is linear, and both must find fingerings of
the same cost. Run it: ``python -m tests.bench.bench_placement``, with sizes as arguments if you like.
"""

from __future__ import annotations

import gc
import random
import sys
import time
import tracemalloc
from collections.abc import Callable

from tabforge.fretboard.cost import NEVER, crossing_cost, shift_cost, start_cost
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.placement import place
from tabforge.fretboard.reach import farthest
from tabforge.fretboard.readings import Event, Reading, Wanted, read
from tabforge.fretboard.search import Search, search
from tests.fretboard.necks import GUITAR

MAJOR = (0, 2, 4, 5, 7, 9, 11)
SHAPES = ((0, 7, 12, 16, 19, 24), (0, 7, 12, 15, 19, 24), (0, 7, 10, 16, 19, 24))
"""Six-note chords over a bass note: the barre shapes of a major, a minor and a seventh chord."""

NAIVE_AT_MOST = 2_000


def sequences(count: int, draw: random.Random) -> list[Event]:
    """A scale of three octaves in melodic sequences from anywhere: what generated runs are like."""
    scale = [43 + 12 * (step // 7) + MAJOR[step % 7] for step in range(22)]
    found: list[Event] = []
    while len(found) < count:
        start = draw.randrange(18)
        found.extend((Wanted(scale[start + step]),) for step in (0, 2, 1, 3))
    return found[:count]


def riffs(count: int, draw: random.Random) -> list[Event]:
    """Phrases of sixteen notes, each played four times: what written studies are like."""
    found: list[Event] = []
    while len(found) < count:
        phrase = walk(16, draw)
        found += phrase * 4
    return found[:count]


def walk(count: int, draw: random.Random) -> list[Event]:
    """A chromatic walk by steps and small leaps that never comes again."""
    pitch = draw.randint(50, 70)
    found: list[Event] = []
    for _ in range(count):
        pitch = min(82, max(42, pitch + draw.choice((-4, -3, -2, -2, -1, -1, 1, 1, 2, 2, 3, 4))))
        found.append((Wanted(pitch),))
    return found


def legato(count: int, draw: random.Random) -> list[Event]:
    """Riffs with a hammer-on, pull-off or slide to one note in five. (The naive search takes no notice of them.)"""
    found: list[Event] = []
    while len(found) < count:
        found += [(note._replace(linked=draw.random() < 0.2),) for (note,) in walk(16, draw)] * 4
    return found[:count]


def leaps(count: int, draw: random.Random) -> list[Event]:
    """Any pitch after any other: the worst case."""
    return [(Wanted(draw.randint(42, 82)),) for _ in range(count)]


def chords(count: int, draw: random.Random) -> list[Event]:
    """Six-note chords anywhere up to the twelfth fret."""
    found = []
    for _ in range(count):
        root = 40 + draw.randrange(12)
        found.append(tuple(Wanted(root + step) for step in draw.choice(SHAPES)))
    return found


LINES: dict[str, Callable[[int, random.Random], list[Event]]] = {
    "riffs": riffs,
    "sequences": sequences,
    "walk": walk,
    "legato": legato,
    "leaps": leaps,
    "chords": chords,
}


def naive(events: list[Event], neck: Neck) -> int:
    """The least cost, by trying every hand with every hand before it."""
    reach = farthest(neck)
    before: Reading | None = None
    costs: dict[int, int] = {}
    for event in events:
        reading = read(event, neck, reach)
        assert reading is not None
        hands = [number for number, grip in enumerate(reading.grips) if grip is not None]
        if before is None:
            costs = {go: start_cost(go + 1) + reading.costs[go] for go in hands}
        else:
            costs = {
                go: min(
                    cost + shift_cost(abs(go - come)) + crossing_cost(before.middles[go], reading.middles[go])
                    for come, cost in costs.items()
                )
                + reading.costs[go]
                for go in hands
            }
        before = reading
    return min(costs.values())


def cost_of(events: list[Event], neck: Neck) -> int:
    """What the search's fingering costs."""
    total, before, come = 0, None, 0
    for event, hand in zip(events, Search(neck).line(events).hands, strict=True):
        reading = read(event, neck, farthest(neck))
        assert reading is not None
        go = hand - 1
        assert reading.costs[go] < NEVER
        total += reading.costs[go]
        if before is None:
            total += start_cost(hand)
        else:
            total += shift_cost(abs(go - come)) + crossing_cost(before.middles[go], reading.middles[go])
        before, come = reading, go
    return total


def seconds(work: Callable[[], object]) -> float:
    """How long some work takes."""
    gc.collect()
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def fresh(events: list[Event]) -> float:
    """Seconds for placing a line on a neck that nothing is remembered of: the best of three."""

    def once() -> None:
        search.cache_clear()
        place(events, GUITAR)

    return min(seconds(once) for _ in range(3))


def main(sizes: list[int]) -> None:
    """Prints one row for each sort of line and size."""
    print(f"{'line':<10} {'events':>7} {'µs each':>8} {'naive':>7} {'ratio':>6} {'bytes':>6}")
    for name, make in LINES.items():
        sample = make(NAIVE_AT_MOST, random.Random(1))
        assert name == "legato" or naive(sample, GUITAR) == cost_of(sample, GUITAR)
        for size in sizes:
            events = make(size, random.Random(1))
            each = fresh(events) / size * 1e6
            few = events[:NAIVE_AT_MOST]
            plain = seconds(lambda few=few: naive(few, GUITAR)) / len(few) * 1e6
            search.cache_clear()
            tracemalloc.start()
            place(events, GUITAR)
            peak = tracemalloc.get_traced_memory()[1] / size
            tracemalloc.stop()
            print(f"{name:<10} {size:>7} {each:>8.2f} {plain:>7.0f} {plain / each:>6.0f} {peak:>6.0f}")


if __name__ == "__main__":
    main([int(text) for text in sys.argv[1:]] or [1_000, 10_000, 100_000])
