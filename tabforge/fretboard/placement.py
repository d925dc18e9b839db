"""Placement: a string and a fret for every note of a line.

What may be played is in ``readings``, what is good in ``cost``, how the best is found in ``search``; this is the room's front door, and it
says what could not be placed and why. A later search with more knowledge of the hand can take ``search``'s place without the others.
"""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.fretboard.bonds import sounding
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.obstacles import obstacle
from tabforge.fretboard.readings import Event, Wanted
from tabforge.fretboard.search import search
from tabforge.fretboard.trouble import Kind, Trouble
from tabforge.limits import MAX_DIAGNOSTICS

__all__ = ["Wanted", "place"]


def place(wanted: Sequence[Event], neck: Neck) -> tuple[list[tuple[Place, ...]], list[Trouble]]:
    """Places for each event's notes, in the order they were wanted in, and what could not be placed.

    ``wanted`` holds the sounding events of one line in time order, each a tuple of one or more notes; rests and tied continuations are
    not passed. Where two voices sound on one neck, pass their onsets as one line, with the notes that sound on from the event
    before as ``held``.

    An event that cannot be played gets an empty tuple and a Trouble; the others are placed as if it were not there. After MAX_DIAGNOSTICS
    troubles nothing is looked for that could be played instead. A held note that must
    be let go gets the place (0, 0) and a Trouble of kind HELD, which is no error. The result is the cheapest by ``cost``, the same
    every time for the same line and neck.
    """
    _, placed, bonded = search(neck).line(wanted)
    troubles = []
    if not all(placed):
        failed = [index for index, grip in enumerate(placed) if not grip]
        troubles = [obstacle(index, wanted[index], neck, number < MAX_DIAGNOSTICS) for number, index in enumerate(failed)]
    if bonded:
        troubles += _cut_short(wanted, placed, neck)
        troubles.sort(key=lambda trouble: trouble.index)
    return placed, troubles


def _cut_short(wanted: Sequence[Event], placed: Sequence[tuple[Place, ...]], neck: Neck) -> list[Trouble]:
    """Held notes that could not stay where they were."""
    troubles = []
    before: tuple[Place, ...] = ()
    for index, (event, grip) in enumerate(zip(wanted, placed, strict=True)):
        for number, note in enumerate(event) if grip else ():
            was = sounding(note.midi, before, neck) if note.held else None
            if was is not None and grip[number] != was:
                troubles.append(Trouble(kind=Kind.HELD, index=index, note=number, midi=note.midi, string=was[0], fret=was[1]))
        before = grip or before
    return troubles
