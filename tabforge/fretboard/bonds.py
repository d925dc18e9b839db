"""Bonds: notes that should stay where the event before had them, or on its strings."""

from __future__ import annotations

from collections.abc import Iterable

from tabforge.fretboard.cost import BROKEN, CUT, SWAPPED
from tabforge.fretboard.fingers import Fingers
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.readings import Event, Grip


def bound(event: Event) -> bool:
    """Whether an event wishes anything of the event before."""
    return any(note.held or note.linked for note in event)


def broken_cost(event: Event, before: Grip, fingers: Fingers, after: Grip, later: Fingers, neck: Neck) -> int:
    """What the wishes of ``event`` cost that a grip before and a grip after it, each with its fingers, do not fulfil."""
    cost = 0
    for number, (note, place) in enumerate(zip(event, after, strict=True)):
        if note.held:
            if place not in before:
                cost += (CUT if note.rings else BROKEN) * (sounding(note.midi, before, neck) is not None)
            elif place[1]:
                cost += SWAPPED * (fingers[before.index(place)] != later[number])
        elif note.linked:
            cost += BROKEN * _parted(note.slid, place, later[number], before, fingers)
    return cost


def _parted(slid: bool, place: Place, finger: int, before: Grip, fingers: Fingers) -> bool:
    """Whether a note that is led to lies on a string of its own, or is stopped by a finger that cannot lead to it."""
    for (string, fret), other in zip(before, fingers, strict=True):
        if string == place[0]:
            return bool(finger and other and fret != place[1] and slid != (finger == other))
    return True


def sounding(midi: int, grip: Iterable[Place], neck: Neck) -> Place | None:
    """Where a pitch sounds in a grip."""
    return next((place for place in grip if place[0] and neck.midi_at(*place) == midi), None)
