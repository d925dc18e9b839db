"""Bonds: notes that should stay where the event before had them, or on its strings.

Readings and tolls know one grip in each hand, whatever came before. Where notes are held or linked that is not enough: which grip is good
depends on the grip before it. Such a step is searched pair by pair, with the grips of the event before in place of its hands: few,
since neighbouring hands mostly share a grip.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from tabforge.fretboard.cost import BROKEN
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.readings import LET_GO, Event, Grip, Way, ways


def bound(event: Event) -> bool:
    """Whether an event wishes anything of the event before."""
    return any(note.held or note.linked for note in event)


def bound_ways(event: Event, neck: Neck, reach: Sequence[int]) -> list[Way]:
    """Every way to play an event, and every way to play it when what is held is let go."""
    found = ways(event, neck, reach)
    struck = tuple(note for note in event if not note.held)
    if struck and len(struck) < len(event):
        for way in ways(struck, neck, reach):
            places = iter(way.grip)
            grip = tuple(LET_GO if note.held else next(places) for note in event)
            found.append(way._replace(grip=grip))
    return sorted(found)


def broken(event: Event, before: Grip, after: Grip, neck: Neck) -> int:
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
