"""Placement: a string and a fret for every note of a line of sounding events."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.trouble import Kind, Trouble


class Wanted(NamedTuple):
    """A note to be placed. ``midi`` is the pitch of the fretted string; ``string`` and ``fret`` pin it (from 1, and from the capo).

    A dead note is pinned to its string and a fret. ``held``: it sounds on from the event before on the same string.
    """

    midi: int
    string: int | None = None
    fret: int | None = None
    held: bool = False


def place(
    wanted: Sequence[tuple[Wanted, ...]], neck: Neck
) -> tuple[list[tuple[Place, ...]], list[Trouble]]:
    """Places for each event's notes, in the order they were wanted in; an event that cannot be played gets an empty tuple and a Trouble.

    Events are chords or single notes in time order; rests and tied continuations are not passed.
    """
    placed: list[tuple[Place, ...]] = []
    troubles: list[Trouble] = []
    for index, event in enumerate(wanted):
        taken: list[Place] = []
        for number, note in enumerate(event):
            if note.string is not None and note.fret is not None:
                taken.append((note.string, note.fret))
                continue
            strings = {string for string, _ in taken}
            options = [
                each
                for each in neck.places(note.midi)
                if each[0] not in strings and note.string in (None, each[0])
            ]
            if not options:
                troubles.append(Trouble(kind=Kind.NOWHERE, index=index, note=number, midi=note.midi))
                taken = []
                break
            taken.append(options[0])
        placed.append(tuple(taken))
    return placed, troubles
