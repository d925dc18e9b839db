"""What placement costs, in microseconds an event, beside a naive search and a general shortest path in the same run.

All three find the cheapest way over the same state: string, fret, finger and hand. The naive search is plain dynamic programming, every
hold tried with every hold before it, O(n k^2), each cost from its definition. The shortest path is networkx's Dijkstra through a graph with
a node for each hold of each event (A. Hagberg, D. Schult and P. Swart, NetworkX). It is told twice: with the making of the graph from its
edges, whose costs are worked out beforehand and cost nothing here, and the search alone in a graph that is there already. Both rivals are
slow, so they run on few events; they are linear, and all must find the same cost.

Times are of the processor, so that what else the machine does tells less. Run it: ``python -m tests.bench.bench_placement``, with sizes as
arguments if you like.
"""

from __future__ import annotations

import gc
import math
import random
import sys
import time
import tracemalloc
from collections.abc import Callable

import networkx

from tabforge.fretboard.cost import GRAIN, USUAL, start_cost
from tabforge.fretboard.placement import place
from tabforge.fretboard.readings import Event, Wanted
from tabforge.fretboard.search import search
from tabforge.fretboard.stage import PLAIN
from tests.fretboard.necks import GUITAR
from tests.fretboard.test_search import all_holds, cost_of, least_by_pairs, step_cost, taken_by_search

Edge = tuple[object, object, int]

MAJOR = (0, 2, 4, 5, 7, 9, 11)
SHAPES = ((0, 7, 12, 16, 19, 24), (0, 7, 12, 15, 19, 24), (0, 7, 10, 16, 19, 24))
"""Six-note chords over a bass note: the barre shapes of a major, a minor and a seventh chord."""

NAIVE_AT_MOST = 100


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
    """Riffs with a hammer-on, pull-off or slide to one note in five."""
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


def naive(events: list[Event]) -> int:
    """The least cost, by trying every hold with every hold before it."""
    return least_by_pairs(*all_holds(events, GUITAR, USUAL), GUITAR, USUAL, [PLAIN] * len(events))


def edges_of(events: list[Event]) -> list[Edge]:
    """The ways from hold to hold through all events, from "begin" to "end", each with its cost."""
    _, choices = all_holds(events, GUITAR, USUAL)
    found: list[Edge] = [("begin", (0, number), GRAIN * (hold.cost + start_cost(hold.hand))) for number, hold in enumerate(choices[0])]
    for number in range(1, len(events)):
        for come, before in enumerate(choices[number - 1]):
            for go, after in enumerate(choices[number]):
                found.append(((number - 1, come), (number, go), step_cost(events[number], before, after, GUITAR, USUAL)))
    return [*found, *(((len(events) - 1, number), "end", 0) for number in range(len(choices[-1])))]


def graph_of(edges: list[Edge]) -> networkx.DiGraph:
    """The ways as a graph."""
    graph = networkx.DiGraph()
    graph.add_weighted_edges_from(edges)
    return graph


def shortest_path(graph: networkx.DiGraph) -> int:
    """The least cost, by Dijkstra's method."""
    length: int = networkx.dijkstra_path_length(graph, "begin", "end")
    return length


def cost_found(events: list[Event]) -> int:
    """What the search's fingering costs."""
    how = [PLAIN] * len(events)
    _, choices = all_holds(events, GUITAR, USUAL)
    return cost_of(events, taken_by_search(events, choices, GUITAR, USUAL, how), GUITAR, USUAL, how)


def seconds(work: Callable[[], object]) -> float:
    """How long some work takes."""
    gc.collect()
    start = time.process_time()
    work()
    return time.process_time() - start


def fresh(events: list[Event]) -> float:
    """Seconds for placing a line on a neck that nothing is remembered of: the best of three."""

    def once() -> None:
        search.cache_clear()
        place(events, GUITAR)

    return min(seconds(once) for _ in range(3))


def main(sizes: list[int]) -> None:
    """Prints one row for each sort of line and size: the growth exponent is from the size before."""
    print(f"{'line':<10} {'events':>7} {'µs each':>8} {'naive':>7} {'ratio':>6} {'path':>7} {'ratio':>6} {'alone':>6}", end=" ")
    print(f"{'bytes':>6} {'growth':>6}")
    for name, make in LINES.items():
        few = make(NAIVE_AT_MOST, random.Random(1))
        edges = edges_of(few)
        graph = graph_of(edges)
        assert naive(few) == cost_found(few) == shortest_path(graph)
        plain = seconds(lambda few=few: naive(few)) / len(few) * 1e6
        path = seconds(lambda edges=edges: shortest_path(graph_of(edges))) / len(few) * 1e6
        alone = seconds(lambda graph=graph: shortest_path(graph)) / len(few) * 1e6
        before: tuple[int, float] | None = None
        for size in sizes:
            events = make(size, random.Random(1))
            each = fresh(events) / size * 1e6
            search.cache_clear()
            tracemalloc.start()
            place(events, GUITAR)
            peak = tracemalloc.get_traced_memory()[1] / size
            tracemalloc.stop()
            growth = f"{math.log(each * size / (before[0] * before[1]), size / before[0]):.2f}" if before else ""
            beside = f"{plain:>7.0f} {plain / each:>6.0f} {path:>7.0f} {path / each:>6.0f} {alone / each:>6.0f}"
            print(f"{name:<10} {size:>7} {each:>8.2f} {beside} {peak:>6.0f} {growth:>6}")
            before = (size, each)


if __name__ == "__main__":
    main([int(text) for text in sys.argv[1:]] or [1_000, 10_000, 100_000])
