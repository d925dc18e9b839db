"""Fingerings that no hand has."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations

from tabforge.check.view import View, has, is_dead
from tabforge.diagnostics.catalogue.advice import FINGER_ON_OPEN, FINGERS_CROSSED, ONE_FINGER_TWICE
from tabforge.diagnostics.catalogue.music import FINGER_ZERO
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.events import Event


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


def one_finger_twice(view: View) -> Iterator[Diagnostic]:
    """Chords whose written fingering puts one finger at two frets."""
    for event in view.chords:
        yield from _stretched(event)


def fingers_on_open_strings(view: View) -> Iterator[Diagnostic]:
    """Fingers written under open strings. One finger under a whole chord is a barre and says nothing of the strings beside it.

    A run begins its pattern of fingers again and again, whatever lies open: nobody has written one under an open string there.
    """
    for line in view.lines:
        for event in line.events:
            if event.span == line.section.span:
                continue
            for note in event.notes:
                if note.finger is None or note.fret or is_dead(note) or has(note, ("tapped harmonic", "artificial harmonic")):
                    continue
                if len(event.notes) > 1 and len({other.finger for other in event.notes}) == 1:
                    continue
                yield from view.tell(
                    FINGER_ON_OPEN,
                    f"finger {note.finger} is written under string {note.string}, which is played open",
                    event,
                    "fingers",
                    (note.finger,),
                    expected="0 or . for an open string",
                )


def zeros_on_fretted_notes(view: View) -> Iterator[Diagnostic]:
    """Fingers 0, which stand for open strings, where fewer notes are open. The score does not keep them: they are read from the source."""
    if not _zeros(view):
        return
    for line in view.lines:
        for event in line.events:
            fretted = [note for note in event.notes if note.fret and not note.tied_in]
            free = len(event.notes) - len(fretted)
            if not fretted:
                continue
            for text in view.places.texts(event.span, "fingers"):
                parts = text.split("+")
                if parts.count("0") > (free if len(parts) == len(event.notes) else 0):
                    note = fretted[0]
                    yield from view.tell(
                        FINGER_ZERO,
                        f"finger 0 stands for an open string, but string {note.string} is held at fret {note.fret}"
                        if len(event.notes) == 1
                        else f"finger 0 stands for an open string, but of this chord {free or 'none'} {'is' if free < 2 else 'are'} open",
                        event,
                        "fingers",
                        ("0",),
                        expected="a finger from 1 to 4, T, or .",
                    )


def _zeros(view: View) -> bool:
    """Whether any row of fingers has a 0."""
    systems = [system for block in view.document.get("blocks", ()) for system in block.get("systems", ())]
    rows = [voice.get("fingers", ()) for system in systems for voice in (system, system.get("voice2", {}))]
    return any("0" in bar for row in rows for bar in row)


def fingers_crossed(view: View) -> Iterator[Diagnostic]:
    """Chords in which a finger nearer to the thumb lies higher on the neck than one farther from it. The thumb itself is free."""
    for event in view.chords:
        held = [note for note in event.notes if note.finger in ("1", "2", "3", "4") and note.fret and not is_dead(note)]
        for one, other in combinations(sorted(held, key=lambda note: note.finger or ""), 2):
            if one.finger != other.finger and one.fret > other.fret:
                yield from view.tell(
                    FINGERS_CROSSED,
                    f"finger {one.finger} at fret {one.fret} would cross over finger {other.finger} at fret {other.fret}",
                    event,
                    "fingers",
                    help="along the neck the fingers lie in the order 1 2 3 4",
                )
                break
