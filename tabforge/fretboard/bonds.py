"""Bonds: notes that should stay where the event before had them, or on its strings.

Readings and tolls know one grip in each hand, whatever came before. Where notes are held or linked that is not enough: which grip is good
depends on the grip before it. Such a step is searched pair by pair, each way to play the event with each hand before it that fulfils
what is wished. Of the ways in one hand the best is kept, so that afterwards every hand has one grip again.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from tabforge.fretboard.cost import BROKEN, crossing_cost
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.readings import LET_GO, Event, Grip, Reading, Way, middle, ways


def bound(event: Event) -> bool:
    """Whether an event wishes anything of the event before."""
    return any(note.held or note.linked for note in event)


class Kept(NamedTuple):
    """What wishes cost that a way to play an event breaks, coming from one of ``sources`` (numbers of hands of the event before)."""

    cost: int
    sources: tuple[int, ...]


class Bond:
    """An event that looks back, after a reading of the event before.

    ``ways`` are all ways to play the event, the best first; each with the cost of its crossing, and with the hands to come from that fulfil
    some of its wishes. Coming from anywhere else costs ``worst``.
    """

    __slots__ = ("ways", "worst")

    def __init__(self, before: Reading, event: Event, neck: Neck, reach: Sequence[int]) -> None:
        self.worst = BROKEN * sum(note.held or note.linked for note in event)
        known: dict[Grip, list[Kept]] = {}
        self.ways: list[tuple[Way, int, list[Kept]]] = []
        for way in _ways(event, neck, reach):
            if way.grip not in known:
                known[way.grip] = self._kept(before, event, way.grip, neck)
            crossing = crossing_cost(before.middles[way.hand - 1], middle(way.grip))
            self.ways.append((way, crossing, known[way.grip]))

    def _kept(self, before: Reading, event: Event, grip: Grip, neck: Neck) -> list[Kept]:
        sources: dict[int, list[int]] = {}
        for number, come in enumerate(before.grips):
            cost = broken_cost(event, come, grip, neck) if come is not None else self.worst
            if cost < self.worst:
                sources.setdefault(cost, []).append(number)
        return [Kept(cost, tuple(numbers)) for cost, numbers in sorted(sources.items())]


def _ways(event: Event, neck: Neck, reach: Sequence[int]) -> list[Way]:
    """Every way to play an event, and every way to play it when what is held is let go."""
    found = ways(event, neck, reach)
    struck = tuple(note for note in event if not note.held)
    if struck and len(struck) < len(event):
        for way in ways(struck, neck, reach):
            places = iter(way.grip)
            grip = tuple(LET_GO if note.held else next(places) for note in event)
            found.append(way._replace(grip=grip))
    return sorted(found)


def broken_cost(event: Event, before: Grip, after: Grip, neck: Neck) -> int:
    """What the wishes of ``event`` cost that a grip before and a grip after it do not fulfil."""
    count = 0
    for note, place in zip(event, after, strict=True):
        if note.held:
            count += place not in before and sounding(note.midi, before, neck) is not None
        elif note.linked:
            count += all(place[0] != string for string, _ in before)
    return BROKEN * count


def sounding(midi: int, grip: Iterable[Place], neck: Neck) -> Place | None:
    """Where a pitch sounds in a grip."""
    return next((place for place in grip if place[0] and neck.midi_at(*place) == midi), None)
