"""Flageolet tones: what sounds when a string is touched at a node.

A string touched at k/n of its length sounds its n-th partial, n times the open string's frequency (the harmonic series of an ideal string;
any acoustics handbook, for example Fletcher and Rossing, The Physics of Musical Instruments, chapter 2, cited from memory). The
node lies at fret
``-12 * log2(1 - k/n)``; a fret counts as being at a node when it is no more than a third of a semitone from it.
"""

from __future__ import annotations

from functools import cache
from math import gcd, log2
from typing import Final

HIGHEST_PARTIAL: Final = 6
"""Higher partials speak poorly on a fretted instrument (common practice, no source)."""

_NEAR: Final = 1 / 3


@cache
def nodes() -> dict[int, int]:
    """Fret → semitones above the open string that its harmonic sounds, rounded; of several partials at a fret, the lowest."""
    found: dict[int, int] = {}
    for partial in range(2, HIGHEST_PARTIAL + 1):
        for part in range(1, partial):
            place = -12 * log2(1 - part / partial)
            fret = round(place)
            if gcd(part, partial) == 1 and abs(place - fret) <= _NEAR:
                found.setdefault(fret, round(12 * log2(partial)))
    return dict(sorted(found.items()))


def harmonic(half_steps: float) -> int | None:
    """Semitones above the (open or stopped) string that sound when it is touched so many half steps higher; None at no node."""
    if half_steps == int(half_steps):
        return nodes().get(int(half_steps))
    for partial in range(2, HIGHEST_PARTIAL + 1):
        if any(abs(-12 * log2(1 - part / partial) - half_steps) <= _NEAR for part in range(1, partial)):
            return round(12 * log2(partial))
    return None
