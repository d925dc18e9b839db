"""Layouts inside a window of frets: a position, and the open position.

In a position the first finger lies at the given fret and one finger on each of the four frets; the first may stretch one fret down, the
fourth one fret up. Where a note can be had in two ways, a finger in its place is better than a stretch, the first finger's stretch better
than the fourth's. With that the five positions of a major scale come out as they are taught (common practice; see ``layouts``).

Open position is frets 0 to 4, and an open string is better than the same note fretted.

Strings a fourth apart leave no gap in such a window. Where strings are farther apart, as in a dropped tuning or one in fifths, the note
between them is taken farther up the lower string, as long as the hand reaches it from the window's first finger.
"""

from __future__ import annotations

from tabforge.fretboard.extents import cut
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.line import Extent, Layout, Rungs
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import HAND_FRETS, REACH_MM
from tabforge.fretboard.trouble import Kind, Trouble


def position(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line of a position: every tone in its window, from the lowest to the highest."""
    hand = layout.fret or 0
    if hand > neck.last:
        return [], Trouble(kind=Kind.LAYOUT_START, fret=hand, limit=neck.last)
    return _cut(window(hand, ladder, neck), ladder, extent, neck)


def open_position(ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line of the open position."""
    return _cut(_within(list(range(HAND_FRETS + 1)), 1, ladder, neck), ladder, extent, neck)


def window(hand: int, ladder: Ladder, neck: Neck, downward: bool = True) -> Rungs:
    """All tones under a hand at a fret and its stretches; what lies between them and cannot be reached has no place.

    Where a note can be had by a stretch of the first finger or of the fourth, it is the first's, or the fourth's if not ``downward``.
    """
    stretches = [hand - 1, hand + HAND_FRETS] if downward else [hand + HAND_FRETS, hand - 1]
    return _within([*range(hand, hand + HAND_FRETS), *stretches], max(1, hand), ladder, neck)


def _within(preferred: list[int], first: int, ladder: Ladder, neck: Neck) -> Rungs:
    """The line in a window: its frets from the best to the worst, and the fret of the first finger."""
    rank = {fret: number for number, fret in enumerate(preferred) if 0 <= fret <= neck.last}
    strings = range(1, len(neck.tuning) + 1)
    low = ladder.at_or_above(min(neck.midi_at(string, min(rank)) for string in strings))
    high = ladder.at_or_below(max(neck.midi_at(string, max(rank)) for string in strings))
    line: Rungs = []
    for rung in range(low, high + 1):
        places = neck.places(ladder.midi(rung))
        inside = [place for place in places if place[1] in rank]
        best = min(inside, key=lambda place: rank[place[1]], default=None)
        line.append((rung, best or _reached(places, max(rank), first, neck)))
    while line and line[-1][1] is None:
        line.pop()
    return line


def _cut(line: Rungs, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """A line cut to its extent, if it leaves nothing out."""
    if not line:
        return [], Trouble(kind=Kind.LAYOUT_EMPTY)
    line, trouble = cut(line, ladder, extent)
    missing = tuple(ladder.midi(rung) for rung, place in line if place is None)
    unfretted = tuple(midi for midi in missing if neck.fretting and not neck.places(midi))
    if unfretted:
        return [], Trouble(kind=Kind.LAYOUT_UNFRETTED, missing=unfretted)
    if missing:
        return [], Trouble(kind=Kind.LAYOUT_HOLE, missing=missing)
    return line, trouble


def _reached(places: tuple[Place, ...], last: int, first: int, neck: Neck) -> Place | None:
    """The nearest place above a window that the hand reaches from its first finger, or None."""
    above = [place for place in places if place[1] > last and neck.distance_mm(first, place[1]) <= REACH_MM]
    return min(above, key=lambda place: place[1], default=None)
