"""Bends that no finger can make: on an open string, and two at once on one note."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import View, begun, has, is_dead
from tabforge.diagnostics.catalogue.music import OPEN_BEND, TWO_BENDS
from tabforge.diagnostics.core import Diagnostic

BENDS: Final = frozenset({"bend", "bend and release", "pre-bend", "pre-bend and release"})
"""The techniques that push a string to the side."""


def bends_that_fail(view: View) -> Iterator[Diagnostic]:
    """Bends on strings that no finger holds, and notes with more than one."""
    for found in view.carrying(BENDS):
        event = found.event
        for note in event.notes:
            bends = [mark.technique.name for mark in begun(note.marks) if mark.technique.name in BENDS]
            if not bends or note.tied_in or is_dead(note):
                continue
            harmonic = has(note, ("natural harmonic",))
            if note.fret == 0 or harmonic:
                why = "is only touched for its harmonic" if harmonic else "is played open"
                held = next((other.string for other in event.notes if other.fret and not is_dead(other)), None)
                yield from view.tell(
                    OPEN_BEND,
                    f"a {bends[0]} on string {note.string}, which {why}: no finger holds it, so none can push it",
                    event,
                    "marks",
                    bends,
                    label="no finger on this string" if len(event.notes) == 1 else f"string {note.string} is open here",
                    expected="a fretted note",
                    help=f"under a chord a mark is for all its notes; b1@{held} is for string {held} alone"
                    if held and not harmonic
                    else "such a string is raised by pressing it behind the nut, which you can say in the row of words; "
                    "the vibrato bar lowers it (dip)",
                )
            elif len(bends) > 1:
                yield from view.tell(
                    TWO_BENDS,
                    f"a {bends[0]} and a {bends[1]} on the same note: the string can be pushed only one way at a time",
                    event,
                    "marks",
                    bends[1:] if bends[0] != bends[1] else (),
                    expected="one of them",
                    help="b1r bends and lets back, pb1r lets a pre-bend back",
                )
