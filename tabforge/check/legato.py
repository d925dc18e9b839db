"""Hammer-ons, pull-offs and slides, with the notes they lead to.

A mark under a chord is for those of its notes that move: one that stays where it is counts only if none moves.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import Marked, View, has
from tabforge.diagnostics.catalogue.advice import SLIDE_AT_NUT
from tabforge.diagnostics.catalogue.music import HAMMER_DOWN, PULL_OPEN, PULL_UP, SLIDE_STAYS
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.events import Note
from tabforge.model.techniques import Role

_SLIDES: Final = frozenset({"legato slide", "shift slide"})
_SILENT_FRET: Final = frozenset({"dead note", "natural harmonic"})
"""Techniques under which a fret does not say where a finger holds the string."""


def _led(found: Marked, names: frozenset[str]) -> list[tuple[Note, Note]]:
    """The notes that a technique leads from and to, on each string."""
    pairs: list[tuple[Note, Note]] = []
    after = found.next
    if after is None:
        return pairs
    for note in found.event.notes:
        for mark in note.marks:
            if mark.role is Role.START and mark.technique.name in names:
                pairs += [
                    (note, target)
                    for target in after.notes
                    if target.string == note.string and not has(note, _SILENT_FRET) and not has(target, _SILENT_FRET)
                ]
                break
    return pairs


_HAMMER: Final = frozenset({"hammer-on"})
_PULL: Final = frozenset({"pull-off"})


def hammers_that_fail(view: View) -> Iterator[Diagnostic]:
    """Hammer-ons that do not lead up."""
    for found in view.carrying(_HAMMER):
        hammered = _led(found, _HAMMER)
        moves = any(first.fret != second.fret for first, second in hammered)
        for first, second in hammered:
            if second.fret < first.fret or (second.fret == first.fret and not moves):
                falls = second.fret < first.fret
                yield from view.tell(
                    HAMMER_DOWN,
                    f"this hammer-on leads from fret {first.fret} {_to(first, second)}: "
                    + ("a note that comes out lower on the same string is a pull-off" if falls else "no finger comes down on a new fret"),
                    found.event,
                    "marks",
                    _HAMMER,
                    expected=f"a note above fret {first.fret} on string {first.string}",
                    suggestion="p" if falls and len(hammered) == 1 else None,
                )


def pulls_that_fail(view: View) -> Iterator[Diagnostic]:
    """Pull-offs that do not lead down."""
    for found in view.carrying(_PULL):
        pulled = _led(found, _PULL)
        moves = any(first.fret != second.fret for first, second in pulled)
        for first, second in pulled:
            if first.fret == 0 and (second.fret or not moves):
                yield from view.tell(
                    PULL_OPEN,
                    f"this pull-off begins on string {first.string}, which is played open: there is no finger to pull off",
                    found.event,
                    "marks",
                    _PULL,
                    expected="a fretted note to pull off from",
                    suggestion="h" if second.fret and len(pulled) == 1 else None,
                )
            elif second.fret > first.fret or (second.fret == first.fret and not moves):
                rises = second.fret > first.fret
                yield from view.tell(
                    PULL_UP,
                    f"this pull-off leads from fret {first.fret} {_to(first, second)}: "
                    + ("a note that comes out higher on the same string is a hammer-on" if rises else "a pull-off uncovers a lower note"),
                    found.event,
                    "marks",
                    _PULL,
                    expected=f"a note below fret {first.fret} on string {first.string}",
                    suggestion="h" if rises and len(pulled) == 1 else None,
                )


def slides_that_fail(view: View) -> Iterator[Diagnostic]:
    """Slides that end where they begin, and those with an open string at one end."""
    for found in view.carrying(_SLIDES):
        slid = _led(found, _SLIDES)
        for first, second in slid:
            if first.fret == second.fret:
                if all(one.fret == other.fret for one, other in slid):
                    yield from view.tell(
                        SLIDE_STAYS,
                        f"this slide begins and ends at fret {first.fret} of string {first.string}: there is no way to slide",
                        found.event,
                        "marks",
                        _SLIDES,
                        expected="two frets",
                        help="a note that goes on sounding is held with =",
                    )
            elif first.fret == 0 or second.fret == 0:
                begins = first.fret == 0
                yield from view.tell(
                    SLIDE_AT_NUT,
                    f"this slide {'begins' if begins else 'ends'} on string {first.string} played open: a sliding finger "
                    + ("has no fret to start from there" if begins else "runs off the fretboard there"),
                    found.event,
                    "marks",
                    _SLIDES,
                    help=f"slide in from nowhere with in/ on the note at fret {second.fret}, or hammer it on (h)"
                    if begins
                    else "slide away with out\\ and strike the open string, or pull off (p)",
                )


def _to(first: Note, second: Note) -> str:
    return f"to fret {second.fret}" if second.fret != first.fret else "to the same fret"
