"""Where a voice plan lies on a neck: a string for each voice, the lower voices on the lower strings."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations
from typing import Final

from tabforge.fretboard.gripped import Frets
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.voice_plans import Plan, offsets
from tabforge.fretboard.voicing_styles import VoicingKind

LEFT_OUT: Final[dict[VoicingKind, int]] = {"triads": 0, "drop2": 0, "power": 0, "shell": 1, "drop3": 1, "spread": 2}
"""How many strings between the voices a style may leave out, where no strings are asked for (common practice, no source)."""


def string_sets(strings: int, voices: int, left_out: int) -> Iterator[tuple[int, ...]]:
    """Sets of as many strings as there are voices, with at most so many others between them; those of the low numbers first."""
    for first in range(1, strings - voices + 2):
        for others in combinations(range(first + 1, min(strings, first + voices - 1 + left_out) + 1), voices - 1):
            yield (first, *others)


def places_of(plan: Plan, strings: Sequence[int], neck: Neck, reach: Sequence[int]) -> Iterator[Frets]:
    """The grips of a plan on these strings, all octaves of it, the lowest first, as far as a hand reaches.

    The lower voices lie on the strings that sound lower when open, wherever they are on the neck.
    """
    rising = sorted(strings, key=lambda string: (neck.midi_at(string, 0), -string))
    steps = offsets(plan)
    lowest = rising[0]
    for base in range(neck.last + 1):
        midi = neck.midi_at(lowest, base)
        if midi % 12 != plan[0] or not neck.has(lowest, base):
            continue
        frets: list[int | None] = [None] * len(neck.tuning)
        for string, step in zip(rising, steps, strict=True):
            fret = neck.fret_of(midi + step, string)
            if fret is None:
                break
            frets[string - 1] = fret
        else:
            fretted = [fret for fret in frets if fret]
            if not fretted or max(fretted) <= reach[min(fretted)]:
                yield tuple(frets)
