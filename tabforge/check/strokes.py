"""Pick strokes that go against what is played."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from tabforge.check.view import View
from tabforge.diagnostics.catalogue.advice import ONE_NOTE_SPREAD, STROKE_AGAINST, STROKE_ON_SLUR
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.events import Event
from tabforge.model.score import Section
from tabforge.model.techniques import Role

_SPREADS: Final = {"arpeggio upward": "d", "brush upward": "d", "arpeggio downward": "u", "brush downward": "u"}
"""The pick stroke that spreads a chord this way: a downstroke runs from the lowest string to the highest."""
_WORD: Final = {"d": "a downstroke", "u": "an upstroke"}
_RUNS: Final = {
    "d": "a downstroke runs from the lowest string to the highest, and so spreads the chord upward",
    "u": "an upstroke runs from the highest string to the lowest, and so spreads the chord downward",
}
_SLURS: Final = frozenset({"hammer-on", "pull-off", "legato slide"})
_TAPS: Final = frozenset({"tap", "left-hand tap"})


def _rising(event: Event, section: Section) -> bool:
    """Whether the strings of a chord sound higher from the thickest to the thinnest, as those of a re-entrant tuning do not."""
    pitches = [section.tuning.open(note.string).midi for note in sorted(event.notes, key=lambda note: -note.string)]
    return all(low < high for low, high in pairwise(pitches))


def strokes_against_arpeggios(view: View) -> Iterator[Diagnostic]:
    """Upstrokes that are to spread a chord upward, downstrokes that are to spread it downward."""
    for found in view.carrying(_SPREADS):
        event = found.event
        stroke = event.attached.stroke
        if stroke is None or len(event.notes) < 2 or not _rising(event, found.line.section):
            continue
        for mark in event.marks:
            needed = _SPREADS.get(mark.technique.name)
            if needed is not None and needed != stroke:
                yield from view.tell(
                    STROKE_AGAINST,
                    f"{mark.technique.name} with {_WORD[stroke]}: {_RUNS[stroke]}",
                    event,
                    "picks",
                    (stroke,),
                    suggestion=needed,
                )


def spreads_of_one_note(view: View) -> Iterator[Diagnostic]:
    """Arpeggio and brush strokes on single notes."""
    for found in view.carrying(_SPREADS):
        event = found.event
        if len(event.notes) != 1 or not found.begins:
            continue
        for mark in event.marks:
            if mark.technique.name in _SPREADS:
                name = mark.technique.name
                yield from view.tell(
                    ONE_NOTE_SPREAD,
                    f"{name} on a single note: there is no chord to spread",
                    event,
                    "marks",
                    (name,),
                    help="a rake (rk) drags over damped strings into one note",
                )


def strokes_on_slurred_notes(view: View) -> Iterator[Diagnostic]:
    """Strokes and plucking fingers under notes that a hammer-on, pull-off or legato slide sounds, and pick strokes under tapped notes."""
    for found in view.carrying(_SLURS | _TAPS):
        event = found.event
        stroke = event.attached.stroke
        plucked = [note.pluck for note in event.notes if note.pluck]
        if not event.notes or not (stroke or plucked):
            continue
        how = set()
        for note in event.notes:
            marks = [mark.technique.name for mark in note.marks if _sounds(mark.technique.name, mark.role, stroke)]
            how.add(marks[0] if marks else None)
        name = how.pop()
        if not how and name is not None:
            said = stroke or "+".join(plucked)
            yield from view.tell(
                STROKE_ON_SLUR,
                f"{said} stands under a note that is sounded by a {name}: the other hand does not strike it",
                event,
                "picks",
                (said,),
                expected=". under a note that is not struck",
                help="a slide whose second note is picked is a shift slide (ss)" if name == "legato slide" else None,
            )


def _sounds(name: str, role: Role, stroke: str | None) -> bool:
    return (name in _SLURS and role is Role.STOP) or (stroke is not None and name in _TAPS)
