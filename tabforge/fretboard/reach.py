"""What a hand can reach. All bounds are common practice, no source: hands differ, and a fretting hand's stretch is measured in millimetres.

For scale: on a guitar of 648 mm the first four frets span 97 mm from finger to finger (fret 1 to 4), two whole steps at fret 1 (1-3-5)
126 mm, at fret 5 (5-7-9) 100 mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from typing import Final

from tabforge.fretboard.neck import Neck, Place

HAND_FRETS: Final = 4
"""Frets under the four fingers of a hand at rest, one finger a fret."""

REACH_FRETS: Final = 5
"""The farthest fret of a grip, counted from its lowest fretted one."""

REACH_MM: Final = 130.0
"""The farthest stretch from first to fourth finger that placement chooses by itself."""

WIDE_MM: Final = 115.0
"""A stretch above this earns advice."""

FINGERS: Final = 4

THUMB: Final = 5
"""Stands for the thumb where fingers are told by numbers, 1 to 4 being the fingers and 0 an open string."""

COMFORT_MM: Final = (0.0, 40.0, 75.0, 105.0)
"""How far two fingers lie apart in comfort: neighbours, with one finger between them, the first and the fourth. One finger a fret is
within it everywhere on a guitar, and not in the first positions of a bass."""

SPAN_MM: Final = {(1, 2): 75.0, (2, 3): 60.0, (3, 4): 60.0, (1, 3): 110.0, (2, 4): 100.0, (1, 4): REACH_MM}
"""The farthest stretch from finger to finger that placement chooses by itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch between two fretted places, from the lower fret to the higher. ``index`` is the note of a line it begins on."""

    low: Place
    high: Place
    mm: float
    index: int = 0

    @property
    def wide(self) -> bool:
        """Whether it is wide enough to deserve advice."""
        return self.mm > WIDE_MM


def stretch(places: Iterable[Place], neck: Neck, index: int = 0) -> Stretch | None:
    """The stretch of a grip, or of notes that one hand plays without moving; None if fewer than two frets are fingered."""
    fretted = sorted((place for place in places if place[1]), key=lambda place: place[1])
    if not fretted or fretted[0][1] == fretted[-1][1]:
        return None
    low, high = fretted[0], fretted[-1]
    return Stretch(low=low, high=high, mm=neck.distance_mm(low[1], high[1]), index=index)


def wide_stretches(line: Sequence[Place], neck: Neck) -> list[Stretch]:
    """Wide stretches inside the groups of notes that an ascending line has on each string, in the order of the line."""
    found = []
    at = 0
    for _, group in groupby(line, key=lambda place: place[0]):
        places = list(group)
        span = stretch(places, neck, at)
        if span and span.wide:
            found.append(span)
        at += len(places)
    return found


def farthest(neck: Neck, hand: float = 1.0) -> list[int]:
    """For each fret the farthest one that a grip with it as its lowest may have (fret 0: nothing is fingered yet, so the last).
    ``hand`` is the
    share of REACH_MM that is had.
    """
    reach = [neck.last]
    for low in range(1, neck.last + 1):
        high = min(low + REACH_FRETS, neck.last)
        while neck.distance_mm(low, high) > REACH_MM * hand:
            high -= 1
        reach.append(high)
    return reach


def most_hands(neck: Neck) -> int:
    """How many places along the neck a hand can take: from fret 1 to where its fourth finger is at the last fret."""
    return max(1, neck.last - HAND_FRETS + 1)


def fingers_needed(places: Iterable[Place]) -> int:
    """How many fingers a grip takes. One finger may stop neighbouring strings at one fret, and the first finger bars all strings at the
    lowest fret unless an open string lies between them (common practice, no source). The thumb is not counted.
    """
    strings: dict[int, list[int]] = {}
    opened = []
    for string, fret in places:
        if fret:
            strings.setdefault(fret, []).append(string)
        else:
            opened.append(string)
    count = 0
    lowest = min(strings, default=0)
    for fret, stopped in strings.items():
        stopped.sort()
        barred = fret == lowest and not any(stopped[0] < string < stopped[-1] for string in opened)
        count += 1 if barred else 1 + sum(right - left > 1 for left, right in pairwise(stopped))
    return count
