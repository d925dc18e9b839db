"""Notes marked to ring on (``lr``) as notes that the hand holds while others are struck.

How long a hand can hold them no mark says. They are held while the mark goes on, but not past a bar line or a new chord symbol, where
the harmony changes and the fingers with it (common practice, no source); a single marked note is held to the end of its bar. A note that
is struck again is no longer held from before, and where no hand could hold all of them the oldest are let go.
"""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.compile.strokes import Stroke
from tabforge.fretboard.cost import Weights
from tabforge.fretboard.holds import holdable
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.readings import Event, Wanted
from tabforge.model.techniques import Role

Part = tuple[Stroke, int, int]
"""A stroke, the index of its first note in the moment's chord, and how many notes it has there."""

Moment = tuple[Event, list[Part]]


def ring(moments: Sequence[Moment], neck: Neck, weights: Weights) -> list[Moment]:
    """The moments, each with what rings on while it is struck."""
    found: list[Moment] = []
    ringing: list[tuple[Wanted, bool]] = []  # a note, and whether its mark stands alone
    bar = -1
    for event, parts in moments:
        roles = [_role(stroke) for stroke, _, _ in parts]
        if parts[0][0].bar != bar or any(stroke.attached.chord for stroke, _, _ in parts):
            ringing, bar = [], parts[0][0].bar
        elif not any(role in (Role.INSIDE, Role.STOP) for role in roles):
            ringing = [each for each in ringing if each[1]]
        struck = {note.midi for note in event}
        strings = {note.string for note in event if note.string}
        ringing = [each for each in ringing if each[0].midi not in struck and each[0].string not in strings]
        while ringing and not holdable((*event, *(note for note, _ in ringing)), neck, weights):
            ringing.pop(0)
        found.append(((*event, *(note for note, _ in ringing)), parts))
        for role, (stroke, first, count) in zip(roles, parts, strict=True):
            if role is not None and not stroke.grace:
                held = [note._replace(held=True, linked=False, rings=True) for note in event[first : first + count]]
                ringing.extend((note, role is Role.SINGLE) for note in held)
    return found


def rings(strokes: Sequence[Stroke]) -> bool:
    """Whether any of them is marked to ring on."""
    return any(stroke.event_marks and _role(stroke) is not None for stroke in strokes)


def _role(stroke: Stroke) -> Role | None:
    return next((mark.role for mark in stroke.event_marks if mark.technique.name == "let ring"), None)
