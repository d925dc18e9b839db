"""Techniques that need a finger on the string, under notes that are played open."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import View, begun, is_dead
from tabforge.diagnostics.catalogue.advice import OPEN_VIBRATO
from tabforge.diagnostics.catalogue.music import OPEN_SLIDE, OPEN_TAP
from tabforge.diagnostics.core import Diagnostic

_TAPS: Final = frozenset({"tap", "left-hand tap"})
_SLIDES: Final = frozenset({"slide in from below", "slide in from above", "slide out upward", "slide out downward"})
_VIBRATOS: Final = frozenset({"vibrato", "wide vibrato"})


def open_strings_without_a_finger(view: View) -> Iterator[Diagnostic]:
    """Taps, slides from and to nowhere, and vibrato on open strings. Vibrato under a chord is for the notes that a finger holds."""
    for found in view.carrying(_TAPS | _SLIDES | _VIBRATOS):
        event = found.event
        for note in event.notes:
            if note.fret != 0 or note.tied_in or is_dead(note):
                continue
            for mark in begun(note.marks):
                name, string = mark.technique.name, note.string
                if name in _TAPS:
                    yield from view.tell(
                        OPEN_TAP,
                        f"a {name} on string {string}, which is played open: there is no fret to tap it onto",
                        event,
                        "marks",
                        (name,),
                        expected="a fretted note",
                        help="a string that is let go to sound open is a pull-off (p) on the note before",
                    )
                elif name in _SLIDES:
                    yield from view.tell(
                        OPEN_SLIDE,
                        f"a {name} on string {string}, which is played open: there is no finger on it to slide",
                        event,
                        "marks",
                        (name,),
                        expected="a fretted note",
                    )
                elif name in _VIBRATOS and all(
                    other.fret == 0 or is_dead(other) for other in event.notes if mark in other.marks
                ):
                    yield from view.tell(
                        OPEN_VIBRATO,
                        f"{name} on string {string}, which is played open: there is no finger on it to rock",
                        event,
                        "marks",
                        (name,),
                        help="fret the note on the next lower string, or rock it with the vibrato bar or by pressing behind the nut",
                    )
