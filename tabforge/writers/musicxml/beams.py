"""Beams: which notes of a bar are joined, and by how many lines.

Input is one voice of one bar; output, for each event, the ``beam`` values of its lines from the first (the eighth's) on.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import groupby

from tabforge.model.events import Event
from tabforge.model.meter import Meter
from tabforge.writers.musicxml.grouping import beats, spans
from tabforge.writers.musicxml.tuplets import Tuplet

Lines = tuple[str, ...]


def groups(events: Sequence[Event], inside: Sequence[Tuplet], meter: Meter, divisions: int, shift: int) -> list[list[int]]:
    """Indices of the events under one beam, two or more each.

    ``inside``: the voice's tuplets. ``shift``: ticks of the whole bar that are missing before its first event.
    """
    edges, wide = beats(meter, divisions), spans(meter, divisions)
    outer = [tuplet for tuplet in inside if tuplet.level == 0]
    plain = _plain_beats(events, edges, divisions, shift)
    found: list[list[int]] = []
    last: object = None
    for index, event in enumerate(events):
        if event.grace is not None:
            continue
        if not event.notes or not event.written.value.flags:
            last = None
            continue
        at = event.onset + shift
        beat = bisect_right(edges, at) - 1
        key: object = beat
        around = next((tuplet for tuplet in outer if tuplet.first <= index <= tuplet.last), None)
        if around is not None and _crosses(around, edges, shift):
            key = (around.start, _place(event, around, divisions))
        elif beat in plain:
            joined = beat
            while joined - 1 in plain and edges[joined] not in wide:
                joined -= 1
            key = ("plain", joined)
        if key == last:
            found[-1].append(index)
        else:
            found.append([index])
        last = key
    return [group for group in found if len(group) > 1]


def _crosses(around: Tuplet, edges: Sequence[int], shift: int) -> bool:
    return bisect_right(edges, around.start + shift) != bisect_right(edges, around.end + shift - 1)


def _place(event: Event, around: Tuplet, divisions: int) -> int:
    """Which beat of a tuplet wider than a beat of the bar: its units are its beats if they are quarters or longer."""
    unit, ratio = event.written.units[0], event.written.tuplets[0]
    return 0 if unit.flags else int((event.onset - around.start) * ratio.actual / (unit.quarters * divisions * ratio.normal))


def _plain_beats(events: Sequence[Event], edges: Sequence[int], divisions: int, shift: int) -> set[int]:
    """Beats a quarter long that hold two plain eighths and nothing else."""
    counts: dict[int, int] = {}
    for event in events:
        if event.grace is None:
            at = event.onset + shift
            beat = bisect_right(edges, at) - 1
            whole = event.notes and event.ticks * 2 == divisions and not event.written.tuplets
            counts[beat] = counts.get(beat, 0) + (1 if whole else 99)
            for crossed in range(beat + 1, bisect_right(edges, at + event.ticks - 1)):
                counts[crossed] = 99
    return {beat for beat, count in counts.items() if count == 2 and edges[beat + 1] - edges[beat] == divisions}


def beams(
    events: Sequence[Event], inside: Sequence[Tuplet], meter: Meter, divisions: int, shift: int
) -> tuple[list[Lines], list[list[int]]]:
    """The beam values of every event of a voice, and the groups of indices under one beam (grace notes' own not among them)."""
    values: list[list[str]] = [[] for _ in events]
    main = groups(events, inside, meter, divisions, shift)
    edges = beats(meter, divisions)
    owners = [-1] * len(events)
    for tuplet in inside:
        if tuplet.level == 0:
            owners[tuplet.first : tuplet.last + 1] = [tuplet.first] * (tuplet.last + 1 - tuplet.first)
    for group in main:
        start = edges[bisect_right(edges, events[group[0]].onset + shift) - 1] - shift
        _draw(events, group, values, owners, divisions // 2, start)
    for kind, run in groupby(range(len(events)), lambda index: _grace_kind(events[index])):
        if kind is not None:
            _draw(events, list(run), values, owners)
    return [tuple(lines) for lines in values], main


def _grace_kind(event: Event) -> str | None:
    """What grace notes that share a beam have in common; None for what takes no part in one."""
    return event.grace if event.notes and event.written.value.flags else None


def _draw(
    events: Sequence[Event], group: Sequence[int], values: list[list[str]], owners: Sequence[int], half: int = 0, start: int = 0
) -> None:
    """Add the lines of one group, whose beat begins at ``start``.

    Lines after the first break between tuplets (``owners`` tells them apart), and at half beats (``half`` ticks) where there are 32nds.
    """
    if len(group) < 2:
        return
    flags = [events[index].written.value.flags for index in group]
    halved = half and max(flags) > 2 and all(owners[index] < 0 for index in group)
    cells = [(owners[index], (events[index].onset - start) // half if halved else 0) for index in group]
    for line in range(1, max(flags) + 1):

        def key(place: int, line: int = line) -> tuple[bool, object]:
            return flags[place] >= line, cells[place] if line > 1 else None

        for (reached, _), places in groupby(range(len(group)), key):
            if not reached:
                continue
            row = list(places)
            if len(row) == 1:
                values[group[row[0]]].append(_hook(events, group, row[0], start))
                continue
            for place in row:
                values[group[place]].append("begin" if place == row[0] else "end" if place == row[-1] else "continue")


def _hook(events: Sequence[Event], group: Sequence[int], place: int, start: int) -> str:
    """Which way a broken line points: into the group, and inside it toward the note with which it fills a longer value."""
    if place in {0, len(group) - 1}:
        return "backward hook" if place else "forward hook"
    event = events[group[place]]
    return "backward hook" if event.ticks and (event.onset - start) // event.ticks % 2 else "forward hook"
