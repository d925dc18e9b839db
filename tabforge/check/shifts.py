"""Shifts for which the tempo leaves no time."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.grips import UNHELD
from tabforge.check.view import View, has
from tabforge.diagnostics.catalogue.neck import SHIFT_TOO_FAST
from tabforge.diagnostics.core import Diagnostic
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import HAND_FRETS
from tabforge.model.events import Event
from tabforge.model.meter import Tempo
from tabforge.model.score import Score

FASTEST_MM: Final = 1000.0
"""Millimetres a second that a hand goes along the neck from note to note and arrives where it should. Common practice, no source: from the
first position to the twelfth fret on a guitar within a sixteenth at 90 beats a minute."""

Frets = tuple[int, int]
"""The lowest and the highest fret that a hand holds."""


def shifts_too_fast(view: View) -> Iterator[Diagnostic]:
    """Notes to which no hand gets in time from those before them, in either voice: both are one hand's. Without a tempo there is all the
    time one could want.
    """
    neck = before = None
    at = 0.0
    for neck_now, events, moment in _timed(view):
        held = [(frets, event) for event in events if (frets := _held(event)) is not None]
        if not held:
            continue
        frets = min(low for (low, _), _ in held), max(high for (_, high), _ in held)
        if before is not None and neck is neck_now and moment > at:
            way = _way(before, frets, neck_now)
            if way > FASTEST_MM * (moment - at):
                come, go = (before[1], frets[0]) if frets[0] > before[1] else (before[0], frets[1])
                yield from view.tell(
                    SHIFT_TOO_FAST,
                    f"the hand would go {way:.0f} mm along the neck in {moment - at:.2f} seconds, from fret {come} to fret {go}",
                    next(event for each, event in held if go in each),
                    "frets",
                    label=f"{way / (moment - at) / 1000:.1f} metres a second",
                    help="put the notes nearer together, let an open string ring in between, or play it slower",
                )
        neck, before, at = neck_now, frets, moment


def _timed(view: View) -> Iterator[tuple[Neck, list[Event], float]]:
    """What all voices have at each moment, with the seconds from the beginning; only from the first tempo on."""
    score: Score = view.score
    tempo: Tempo | None = None
    now = 0.0
    for section in score.sections:
        neck = view.neck(section)
        now += 60.0  # a section is begun anew
        for bar in section.bars:
            tempo = bar.tempo or tempo
            if tempo is None:
                continue
            pace = 60 / (tempo.quarters_per_minute * score.divisions)
            moments: dict[int, list[Event]] = {}
            for voice in bar.voices:
                for event in voice:
                    if event.notes and event.grace is None:
                        moments.setdefault(event.onset, []).append(event)
            for onset in sorted(moments) if len(bar.voices) > 1 else moments:
                yield neck, moments[onset], now + onset * pace
            now += bar.ticks * pace


def _held(event: Event) -> Frets | None:
    """The frets a hand comes to for an event; None where it need not: open strings, and what it holds already."""
    frets = [note.fret for note in event.notes if note.fret and not note.tied_in and not (note.marks and has(note, UNHELD))]
    return (min(frets), max(frets)) if frets else None


def _way(before: Frets, after: Frets, neck: Neck) -> float:
    """The least way in mm from a hand on some frets to one on others, the first and the fourth finger stretched by a fret."""
    first, second = _hands(before), _hands(after)
    if first[1] < second[0]:
        return neck.distance_mm(first[1], second[0])
    if second[1] < first[0]:
        return neck.distance_mm(second[1], first[0])
    return 0.0


def _hands(frets: Frets) -> tuple[int, int]:
    """The lowest and the highest fret under the first finger with which some frets can be held."""
    low, high = frets
    return (low, low) if high - low > HAND_FRETS else (max(1, high - HAND_FRETS), low + 1)
