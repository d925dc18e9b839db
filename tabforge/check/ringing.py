"""Let ring where nothing can ring on."""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.check.view import Line, View
from tabforge.diagnostics.catalogue.advice import RING_CUT
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.events import Event
from tabforge.model.techniques import Role


def rings_that_are_cut(view: View) -> Iterator[Diagnostic]:
    """Extents of let ring in which each note is ended by the very next one, which is struck on the same string.

    That a string is struck again later in an extent is the nature of broken chords, and strummed chords end each other: neither is told.
    """
    for found in view.carrying(("let ring",)):
        role = _role(found.event)
        if role not in (Role.SINGLE, Role.START) or not found.begins:
            continue
        struck = _extent(found.line, found.at)
        strings = [event.notes[0].string if len(event.notes) == 1 else None for event in struck]
        if len(struck) > 1 and strings[0] is not None and len(set(strings)) == 1:
            yield from view.tell(
                RING_CUT,
                f"let ring on string {strings[0]}, where the next note is struck too: each note ends the one before",
                found.event,
                "marks",
                ("let ring",),
                help="a string sounds one note at a time; put the notes on different strings, or write tn for notes that are held in full",
            )


def _role(event: Event) -> Role | None:
    return next((mark.role for mark in event.marks if mark.technique.name == "let ring"), None)


def _extent(line: Line, index: int) -> list[Event]:
    """The strokes of the extent that begins here and the one after it; empty if a rest, through which it rings, ends or parts it."""
    struck: list[Event] = []
    inside = True
    for at in range(index, len(line.events)):
        event = line.events[at]
        if not event.notes:
            return []
        if at > index:
            inside = inside and _role(event) in (Role.INSIDE, Role.STOP)
        if all(note.tied_in for note in event.notes):
            continue
        struck.append(event)
        if not inside:
            return struck
    return []
