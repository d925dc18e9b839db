"""One sound struck again and again: trills and tremolo picking."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabforge.performance.making import Making
from tabforge.performance.practice import SLURRED_STROKE, TRILL_MS


class Stroke(NamedTuple):
    """A part of a sound: ``offset`` ticks from its start, ``ticks`` long, ``up`` cents above, struck by ``attack`` (None: its own)."""

    offset: int
    ticks: int
    up: float = 0.0
    attack: str | None = None
    share: float = 1.0


def strokes(sound: Making, ticks: int, divisions: int) -> Iterator[Stroke]:
    """The strokes of a sound that lasts so many ticks; one, for most."""
    unit, up, attack = ticks, 0.0, None
    for piece in sound.marks:
        name = piece.mark.technique.name
        if piece.start > sound.start:
            continue
        if name == "trill":
            unit = next((divisions // part for part in (8, 4) if divisions // part >= TRILL_MS * sound.millisecond), divisions // 2)
            up = sound.section.half_steps(sound.string, sound.fret, sound.fret + int(piece.mark.amount or 0)) * 100
            attack = "slur"
        elif name == "tremolo picking":
            # Strokes through the stem count like beams and add to them (common practice, no source).
            unit = max(1, divisions >> (int(piece.mark.amount or 0) + piece.flags))
    count = max(1, ticks // max(1, unit))
    if attack is not None and ticks > 1:
        count = max(2, count)
    edges = [ticks * index // count for index in range(count + 1)]
    for index in range(count):
        first = index == 0
        yield Stroke(
            edges[index],
            edges[index + 1] - edges[index],
            up if index % 2 else 0.0,
            None if first else attack,
            1.0 if first or attack is None else SLURRED_STROKE,
        )
