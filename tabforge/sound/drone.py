"""A drone for a performance that has none: the root, deep, struck again at the beginning of each bar."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import pairwise
from typing import Final

from tabforge.performance.model import Performance, Sound

LOWEST: Final = 36
"""C2: the drone's octave goes up from here. Deeper roots are not heard from small loudspeakers (common practice, no source)."""

VELOCITY: Final = 64
"""As a second part's is in what a score says itself: below the line."""


def with_drone(performance: Performance, roots: Mapping[int, int], bars: Iterable[int]) -> Performance:
    """A performance with a drone under each passage that has a root and no drone of its own.

    ``roots`` are note numbers by the number of the section, ``bars`` the ticks at which bars begin, in order.
    """
    bars = list(bars)
    own = [sound.start for sound in performance.sounds if sound.part == "drone"]
    added = []
    for passage in performance.passages:
        root = roots.get(passage.section)
        if root is None or any(passage.start <= start < passage.end for start in own):
            continue
        strikes = sorted({passage.start, *(tick for tick in bars if passage.start < tick < passage.end)})
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
