"""What notes sound where frets lie between the half steps."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tabforge.compile.strokes import Stroke
from tabforge.fretboard.neck import Neck
from tabforge.model.pitch import Pitch


def tune(strokes: Sequence[Stroke], neck: Neck) -> None:
    """Notes sound what their frets give: their own names, and the cents between."""
    for stroke in strokes:
        if stroke.wants and stroke.places:
            stroke.wants = tuple([
                want if want.pitch is None else want._replace(pitch=_tuned(want.pitch, neck.sound_at(*place)))
                for want, place in zip(stroke.wants, stroke.places, strict=True)
            ])


def _tuned(pitch: Pitch, sound: tuple[int, int]) -> Pitch:
    """A pitch with the cents that its place gives, on its own letter."""
    midi, cents = sound
    return replace(pitch, alter=pitch.alter + midi - pitch.midi, cents=cents)
