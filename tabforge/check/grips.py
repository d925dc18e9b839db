"""Grips that no hand has the fingers for."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.check.view import View, has
from tabforge.diagnostics.catalogue.neck import NO_FINGERS
from tabforge.diagnostics.core import Diagnostic
from tabforge.fretboard.cost import Weights
from tabforge.fretboard.fingers import fingerings
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import REACH_MM, stretch
from tabforge.fretboard.readings import Grip

_ANY_HAND: Final = Weights(thumb=0, hand=2.0)
"""What fingers there are is asked, not what is good nor how far they stretch: the thumb may help."""

UNHELD: Final = ("dead note", "tap", "natural harmonic")
"""Techniques whose note the fretting hand does not hold down along with the others."""


def grips_without_fingers(view: View) -> Iterator[Diagnostic]:
    """Chords that are within reach, and yet take more fingers than there are, or fingers that would have to cross."""
    known: dict[tuple[Neck, Grip], bool] = {}
    for line in view.lines:
        neck = view.neck(line.section)
        for event in line.events:
            if len(event.notes) < 3:
                continue
            grip = tuple([(note.string, note.fret) for note in event.notes if not has(note, UNHELD)])
            key = (neck, grip)
            if key not in known:
                known[key] = _holdable(grip, neck)
            if not known[key]:
                yield from view.tell(
                    NO_FINGERS,
                    "no hand has the fingers for this grip",
                    event,
                    "frets",
                    label=f"{sum(fret > 0 for _, fret in grip)} fretted notes",
                    help="leave a note out, or put one on another string",
                )


def _holdable(grip: Grip, neck: Neck) -> bool:
    """Whether there are fingers for a grip; one that is too wide is another matter (see ``stretches``)."""
    span = stretch(grip, neck)
    if span is not None and span.mm > REACH_MM:
        return True
    return bool(fingerings(grip, [None] * len(grip), neck, _ANY_HAND))
