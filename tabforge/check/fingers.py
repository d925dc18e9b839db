"""Fingerings that no hand has."""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.diagnostics.catalogue.advice import ONE_FINGER_TWICE
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.events import Event
from tabforge.model.score import Score
from tabforge.syntax.document import Study
from tabforge.syntax.origins import Origins


def _stretched(event: Event) -> Iterator[Diagnostic]:
    frets: dict[str, int] = {}
    for note in event.notes:
        if note.finger is None:
            continue
        first = frets.setdefault(note.finger, note.fret)
        if first != note.fret:
            low, high = sorted((first, note.fret))
            yield Diagnostic(
                code=ONE_FINGER_TWICE,
                headline=f"finger {note.finger} would be at fret {low} and at fret {high} at the same time",
                span=event.span,
                help="a finger can hold several strings down only at one fret",
            )
            return


def one_finger_twice(score: Score, document: Study, origins: Origins) -> Iterator[Diagnostic]:
    """Chords whose written fingering puts one finger at two frets."""
    for section in score.sections:
        for bar in section.bars:
            for voice in bar.voices:
                for event in voice:
                    if len(event.notes) > 1:
                        yield from _stretched(event)
