"""Harmonics and trills for which the neck is too short, and harmonics of two kinds on one note."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import View, begun
from tabforge.diagnostics.catalogue.advice import TOUCHED_PAST_NECK
from tabforge.diagnostics.catalogue.music import PAST_NECK, TWO_HARMONICS
from tabforge.diagnostics.core import Diagnostic

HARMONICS: Final = frozenset({"natural harmonic", "artificial harmonic", "pinch harmonic", "tapped harmonic"})
_REACHING: Final = frozenset({"trill", "tapped harmonic", "artificial harmonic"})
"""The techniques whose amount is a number of frets above the note."""
_LOOKED_AT: Final = HARMONICS | _REACHING


def harmonics_out_of_place(view: View) -> Iterator[Diagnostic]:
    """Notes whose technique needs a fret that the neck does not have, or sounds two harmonics at once."""
    for found in view.carrying(_LOOKED_AT):
        event = found.event
        last = view.neck(found.line.section).last
        for note in event.notes:
            if note.tied_in:
                continue
            kinds = [mark.technique.name for mark in begun(note.marks) if mark.technique.name in HARMONICS]
            if len(set(kinds)) > 1:
                yield from view.tell(
                    TWO_HARMONICS,
                    f"{_a(kinds[0])} and {_a(kinds[1])} on the same note: a string is made to ring in one way at a time",
                    event,
                    "marks",
                    kinds[1:],
                    expected="one of them",
                )
            for mark in begun(note.marks):
                name, reach = mark.technique.name, note.fret + int(mark.amount or 0)
                if reach <= last or name not in _REACHING:
                    continue
                if name == "artificial harmonic":
                    yield from view.tell(
                        TOUCHED_PAST_NECK,
                        f"this artificial harmonic is touched {mark.amount} frets above fret {note.fret}, past the last fret, {last}",
                        event,
                        "marks",
                        (name,),
                        help="without a fret to aim at the place is hard to hit; a node nearer by (ah7, ah5) is surer",
                    )
                else:
                    way = f"goes from fret {note.fret} to fret {reach}" if name == "trill" else f"is tapped at fret {reach}"
                    yield from view.tell(
                        PAST_NECK,
                        f"this {name} {way}, but the neck ends at fret {last}",
                        event,
                        "marks",
                        (name,),
                        help="on the next higher string the note lies lower on the neck" if note.string > 1 else None,
                    )


def _a(name: str) -> str:
    return f"{'an' if name[0] in 'aeiou' else 'a'} {name}"
