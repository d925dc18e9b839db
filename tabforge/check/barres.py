"""Barres at frets that the notes do not bear out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import Marked, View, has
from tabforge.diagnostics.catalogue.advice import BARRE_UNUSED
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.techniques import Mark

_BARRES: Final = ("barre", "half barre")


def barres_unused(view: View) -> Iterator[Diagnostic]:
    """Barres under which no note lies, below which a finger would have to reach, or under which an open string could not sound."""
    for found in view.carrying(_BARRES):
        if not found.begins:
            continue
        for mark in found.event.marks:
            if mark.technique.name in _BARRES:
                yield from _judge(view, found, mark)


def _judge(view: View, found: Marked, mark: Mark) -> Iterator[Diagnostic]:
    name, fret, event = mark.technique.name, int(mark.amount or 0), found.event
    notes = [note for note in event.notes if not has(note, ("dead note", "natural harmonic", "tap"))]
    behind = [note for note in notes if 0 < note.fret < fret]
    opened = [note for note in notes if note.fret == 0]
    if behind:
        why = f"but string {behind[0].string} is held at fret {behind[0].fret}: no finger reaches behind the first one"
    elif opened and (name == "barre" or len(opened) == len(notes)):
        why = f"but string {opened[0].string} is played open: under a barre it could not sound"
    else:
        return
    yield from view.tell(
        BARRE_UNUSED,
        f"a {name} at fret {fret}, {why}",
        event,
        "marks",
        (name,),
        help="a half barre (hb) leaves strings open"
        if opened and not behind and name == "barre"
        else "the other fingers lie at the barre or above it",
    )
