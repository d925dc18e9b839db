"""Muffled strokes that are asked for a pitch."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.bends import BENDS
from tabforge.check.harmonics import HARMONICS
from tabforge.check.view import View, begun, is_dead
from tabforge.diagnostics.catalogue.advice import DEAD_AND_GHOST
from tabforge.diagnostics.catalogue.music import DEAD_WITH_PITCH
from tabforge.diagnostics.core import Diagnostic

_PITCHED: Final = BENDS | HARMONICS | {"vibrato", "wide vibrato", "trill"}


def dead_notes_with_pitch(view: View) -> Iterator[Diagnostic]:
    """Dead notes that are to be bent, rocked, trilled or made to ring; and dead notes that are ghost notes too.

    A mark under a chord is for its notes that sound, if there are any.
    """
    for found in view.carrying(("dead note",)):
        event = found.event
        for note in event.notes:
            if note.tied_in or not is_dead(note):
                continue
            for mark in begun(note.marks):
                name = mark.technique.name
                if mark.string is None and any(not is_dead(other) for other in event.notes):
                    continue
                if name in _PITCHED:
                    yield from view.tell(
                        DEAD_WITH_PITCH,
                        f"{name} on a dead note: a muffled string has no pitch for it",
                        event,
                        "marks",
                        (name,),
                        expected="a note that sounds, or the dead note alone",
                    )
                elif name == "ghost note":
                    yield from view.tell(
                        DEAD_AND_GHOST,
                        "a note that is both dead and a ghost note: the one has no pitch, the other a faint one",
                        event,
                        "marks",
                        (name,),
                        help="for a hardly audible muffled stroke a dead note with a soft dynamic says it",
                    )
