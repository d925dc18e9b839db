"""A drone for a performance that has none: the root, deep, struck again at the beginning of each bar."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tabforge.performance.model import Performance, Sound

LOWEST: Final = 36
"""C2: the drone's octave goes up from here. Deeper roots are not heard from small loudspeakers (common practice, no source)."""

VELOCITY: Final = 80


def with_drone(performance: Performance, roots: Mapping[int, int]) -> Performance:
    """A performance with a drone under each passage that has a root and no drone of its own.

    ``roots`` are note numbers by the number of the section. Bars begin where the clicks have an accent; without clicks the drone is struck
    where the passage begins.
    """
    accents = [click.tick for click in performance.clicks if click.accent and not click.counting]
    own = [sound.start for sound in performance.sounds if sound.part == "drone"]
    added = []
    for passage in performance.passages:
        root = roots.get(passage.section)
        if root is None or any(passage.start <= start < passage.end for start in own):
            continue
        strikes = [tick for tick in accents if passage.start <= tick < passage.end] or [passage.start]
        for start, end in pairwise([*strikes, passage.end]):
            added.append(
                Sound(
                    part="drone", start=start, ticks=end - start, midi=LOWEST + (root - LOWEST) % 12, velocity=VELOCITY,
                    string=performance.strings, attack="finger",
                )
            )  # fmt: skip
    if not added:
        return performance
    return replace(performance, sounds=tuple(sorted((*performance.sounds, *added), key=lambda sound: sound.start)))
