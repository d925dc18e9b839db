"""Strings that two voices want at once.

What names its string has been looked at when the notes were placed. A bare dead note only then came to lie on its string, that of the note
before it: such notes are looked at here.
"""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.check.view import View, is_dead
from tabforge.diagnostics.catalogue.advice import STRUCK_WHILE_HELD
from tabforge.diagnostics.catalogue.music import STRING_TWICE
from tabforge.diagnostics.core import Diagnostic, Label
from tabforge.model.events import Event, Note


def strings_shared(view: View) -> Iterator[Diagnostic]:
    """A string that both voices strike at once, or that one strikes while the other holds it, if a bare dead note is among them."""
    for section in view.score.sections:
        for bar in section.bars:
            if len(bar.voices) > 1:
                first, second = bar.voices
                yield from _between(view, first, second)


def _between(view: View, first: tuple[Event, ...], second: tuple[Event, ...]) -> Iterator[Diagnostic]:
    """Walks through both voices of a bar together."""
    one = other = 0
    while one < len(first) and other < len(second):
        upper, lower = first[one], second[other]
        if upper.grace is None and lower.grace is None:
            yield from _compare(view, upper, lower)
        ends = (upper.onset + upper.ticks, lower.onset + lower.ticks)
        one, other = one + (ends[0] <= ends[1]), other + (ends[1] <= ends[0])


def _compare(view: View, upper: Event, lower: Event) -> Iterator[Diagnostic]:
    for note in upper.notes:
        for against in lower.notes:
            if note.string == against.string and (_bare(view, upper, note) or _bare(view, lower, against)):
                yield from _clash(view, (upper, note), (lower, against))


def _bare(view: View, event: Event, note: Note) -> bool:
    """Whether a note is a dead note that names no string of its own."""
    return is_dead(note) and view.places.bare(event.span)


def _clash(view: View, one: tuple[Event, Note], other: tuple[Event, Note]) -> Iterator[Diagnostic]:
    string = one[1].string
    begins = [event.onset for event, note in (one, other) if not note.tied_in]
    if len(begins) == 2 and begins[0] == begins[1]:
        yield from view.tell(
            STRING_TWICE,
            f"both voices strike string {string} at once; it can sound only one of them",
            other[0],
            "",
            label=f"string {string}",
            others=(Label(span=one[0].span, text=f"string {string} too"),),
            expected="each note on a string of its own",
        )
        return
    late, early = sorted((one, other), key=lambda each: (not each[1].tied_in, each[0].onset), reverse=True)
    if not late[1].tied_in and is_dead(late[1]):
        yield from view.tell(
            STRUCK_WHILE_HELD,
            f"this dead note muffles string {string}, on which the other voice still holds {early[1].pitch}",
            late[0],
            "",
            others=(Label(span=early[0].span, text=f"held on string {string}"),),
            help="shorten the held note, or muffle another string",
        )
