"""The way of a sound's pitch as positions of the pitch wheel."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from math import ceil
from typing import Final

from tabforge.performance.model import Sound
from tabforge.writers.midi.chunks import CENTRE

RANGES: Final = (2, 12, 24, 48)
"""Half steps of the wheel's range that a file may ask for. The smallest that does is taken: a device that does not listen has two."""

_STEP: Final = 10.0
"""Cents from one position to the next on the way: less than an ear tells apart on a moving tone (common practice, no source)."""


def range_for(sounds: Iterable[Sound]) -> int:
    """The range a file needs, in half steps."""
    most = 0.0
    for sound in sounds:
        if sound.bend or sound.cents:
            most = max(most, max((abs(point.cents + sound.cents) for point in sound.bend), default=abs(sound.cents)))
    return next((each for each in RANGES if each * 100 >= most), RANGES[-1])


def position(cents: float, half_steps: int) -> int:
    """The wheel's position for a pitch so many cents above the key: 8192 + cents / range * 8192, at most 16383 (MIDI 1.0)."""
    return max(0, min(2 * CENTRE - 1, round(CENTRE + cents / (half_steps * 100) * CENTRE)))


def positions(sound: Sound, half_steps: int) -> Iterator[tuple[int, int]]:
    """Ticks after the start of the sound and the wheel's position there; the first is where it is struck."""
    if not sound.bend:
        yield 0, position(sound.cents, half_steps)
        return
    before = sound.bend[0]
    yield 0, position(before.cents + sound.cents, half_steps)
    for point in sound.bend[1:]:
        ticks, rise = point.tick - before.tick, point.cents - before.cents
        steps = max(1, min(ticks, ceil(abs(rise) / _STEP)))
        for step in range(1, steps + 1):
            tick = before.tick + ticks * step // steps
            if tick < sound.ticks:
                yield tick, position(before.cents + rise * step / steps + sound.cents, half_steps)
        before = point
