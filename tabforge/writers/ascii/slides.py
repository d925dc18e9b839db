"""Which way slides go, and which could be mistaken: both depend on the note that follows."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, NamedTuple

from tabforge.model.events import Event, Note
from tabforge.model.score import Bar
from tabforge.model.techniques import SLIDES, Role
from tabforge.source import Span
from tabforge.writers.loss import Loss

LEAVING: Final = frozenset({"slide out upward", "slide out downward"})

Place = tuple[int, int, int, int]
"""Bar, voice, event (all counted from 0), string."""


class Slides(NamedTuple):
    """``down`` holds the notes that lead into a slide to a lower fret; ``shifts`` are the places where a shift slide begins."""

    down: frozenset[Place]
    shifts: tuple[Span, ...]
    losses: tuple[Loss, ...]


def look_ahead(bars: Iterable[Bar]) -> Slides:
    """Follow every slide of a section to its end. One pass; a note without marks costs a test."""
    down: set[Place] = set()
    shifts: list[Span] = []
    losses: list[Loss] = []
    leading: dict[tuple[int, int], tuple[Place, int]] = {}
    leaving: dict[tuple[int, int], tuple[Span, str]] = {}
    for b, bar in enumerate(bars):
        for v, events in enumerate(bar.voices):
            for e, event in enumerate(events):
                if leaving:
                    _confused(event, v, leaving, losses)
                for note in event.notes:
                    if leading:
                        begun = leading.pop((v, note.string), None)
                        if begun is not None and note.fret < begun[1]:
                            down.add(begun[0])
                    if note.marks:
                        _begin(note, (b, v, e, note.string), event.span, leading, leaving, shifts)
    return Slides(frozenset(down), tuple(dict.fromkeys(shifts)), tuple(losses))


def _begin(
    note: Note,
    place: Place,
    span: Span,
    leading: dict[tuple[int, int], tuple[Place, int]],
    leaving: dict[tuple[int, int], tuple[Span, str]],
    shifts: list[Span],
) -> None:
    for mark in note.marks:
        name = mark.technique.name
        if name in SLIDES and mark.role is not Role.STOP:
            leading[place[1], note.string] = place, note.fret
            if name == "shift slide":
                shifts.append(span)
        elif name in LEAVING:
            leaving[place[1], note.string] = span, name


def _confused(event: Event, voice: int, leaving: dict[tuple[int, int], tuple[Span, str]], losses: list[Loss]) -> None:
    """A slide into nowhere looks like a slide to the next note if the very next event has a note on its string."""
    strings = {note.string for note in event.notes}
    for key in [key for key in leaving if key[0] == voice]:
        span, name = leaving.pop(key)
        if key[1] in strings:
            losses.append(Loss(span=span, what=name, how="written like a slide to the next note on the string"))
