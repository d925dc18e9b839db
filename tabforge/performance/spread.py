"""When each string of a chord is struck: strokes of the pick, brushes, arpeggios."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.model.events import Event
from tabforge.performance.making import Making
from tabforge.performance.practice import ARPEGGIO_MS, BRUSH_MS, SPREAD_LARGEST, STRUM_MS

_SIGNS: Final = {
    "arpeggio upward": (ARPEGGIO_MS, True), "arpeggio downward": (ARPEGGIO_MS, False),
    "brush upward": (BRUSH_MS, True), "brush downward": (BRUSH_MS, False),
}  # fmt: skip
"""Technique → milliseconds from one note to the next, and whether it begins with the lowest."""


def spread(event: Event, struck: Sequence[Making]) -> None:
    """Move the sounds of a chord apart. The first is on the beat; a stroke down begins with the string of the highest number."""
    found = next((_SIGNS[mark.technique.name] for mark in event.marks if mark.technique.name in _SIGNS), None)
    if found is not None:
        gap, upward = found
        ordered = sorted(struck, key=lambda sound: (sound.midi, -sound.string), reverse=not upward)
    elif event.attached.stroke is not None:
        gap = STRUM_MS
        ordered = sorted(struck, key=lambda sound: sound.string, reverse=event.attached.stroke == "d")
    else:
        return
    ticks = min(sound.end - sound.start for sound in struck)
    apart = min(gap * struck[0].millisecond, SPREAD_LARGEST * ticks / len(struck))
    for place, sound in enumerate(ordered):
        sound.start += int(apart * place)
