"""What makes a fingering good: the one home of the weights.

A fingering is one **hand** for each event: the fret under the first finger, one finger a fret, so that four frets lie under the hand; the
first and the fourth finger may stretch one fret further. Hand and event together decide the grip (see ``readings``). A fingering costs
what its first hand costs, what its grips cost in their hands, what the hand's moves cost, and the skips from string to string. A skip is
counted where the hand arrives: between the grips that the new hand has for both events.

All weights are common practice, no source: they say in which order teachers would weigh these things, not how hands were measured.
Whole numbers keep sums exact, so that ties are real ties.
"""

from __future__ import annotations

from typing import Final

from tabforge.fretboard.neck import Place
from tabforge.fretboard.reach import HAND_FRETS

SHIFT: Final = 4
"""Moving the hand at all."""

SHIFT_FRET: Final = 1
"""Moving the hand, for each fret of the way."""

CROSSING: Final = 1
"""Skipping strings from one grip to the next, for each string skipped between their middles. The next string is no way at all."""

STRETCH: Final = 3
"""A finger stretched out of its place, for each fret."""

SPAN: Final = 1
"""Each fret between the lowest and the highest finger of a grip."""

SKIPPED: Final = 1
"""Each string inside a grip that must be kept silent."""

OPEN: Final = 1
"""An open string that was not asked for, for each fret that the hand is above the first: it sounds unlike its neighbours."""

HIGH: Final = 1
"""The hand above the octave, for each fret above it: the frets are narrow and the body is in the way."""

OCTAVE: Final = 12

START: Final = 1
"""Beginning a line up the neck, for every two frets above the first: of positions that serve alike, players begin in the lower one."""

BROKEN: Final = 40
"""A note that should ring on but is let go, or one that should be led to on a string but lies on another: more than a shift over the whole
neck."""

MOST: Final = 100
"""What a grip in its hand costs at most; dearer ones differ no more."""

NEVER: Final = 200
"""What it costs to play an event in a hand that has no grip for it: more than all else together."""


def grip_cost(grip: tuple[Place, ...], hand: int, opened: bool) -> int:
    """What a grip costs in a hand. ``opened``: it has open strings that nobody asked for."""
    cost = HIGH * max(0, hand - OCTAVE)
    if opened:
        cost += OPEN * (hand - 1)
    frets = [fret for _, fret in grip if fret]
    if frets:
        low, high = min(frets), max(frets)
        cost += SPAN * (high - low)
        cost += STRETCH * (max(0, hand - low) + max(0, high - hand - HAND_FRETS + 1))
    if len(grip) > 1:
        strings = [string for string, _ in grip]
        cost += SKIPPED * (max(strings) - min(strings) + 1 - len(strings))
    return min(cost, MOST)


def shift_cost(way: int) -> int:
    """What it costs to move the hand by so many frets."""
    return SHIFT + SHIFT_FRET * way if way else 0


def start_cost(hand: int) -> int:
    """What it costs to begin a line in a hand."""
    return START * ((hand - 1) // 2)


def crossing_cost(before: int, after: int) -> int:
    """What it costs to go from one grip's strings to another's; each is given as the sum of its outermost strings."""
    return CROSSING * max(0, (abs(after - before) - 1) // 2)
