"""What makes a fingering good: the one home of the weights.

A fingering is one **hold** for each event: a string and a fret for each note, the finger that stops it, and where the hand is. The hand is
told by the fret under its first finger, one finger a fret, so that four frets lie under it. A fingering costs what it costs to begin in
its first hand, what its holds cost, and what it costs to go from each hold to the next: the hand's way, the skip from string to
string, what its fingers have to do, and the way of the pick.

All weights are common practice, no source: they say in which order teachers would weigh these things, not how hands were measured.
Whole numbers keep sums exact, so that ties are real ties. ``players`` has the table of those who weigh them otherwise.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import COMFORT_MM, HAND_FRETS, THUMB


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """The weights of one sort of player; as they stand here, of one who was not told of otherwise."""

    shift: int = 4
    """Moving the hand at all."""

    shift_fret: int = 1
    """Moving the hand, for each fret of the way."""

    hurry: int = 1
    """Moving the hand in little time, for each fret of the way and each of ``HURRIES`` that is undercut."""

    crossing: int = 1
    """Skipping strings from one grip to the next, for each string skipped between their middles. The next string is no way at all."""

    picking: int = 1
    """Going to a string on the other side of the pick: after a downstroke towards the lower strings, after an upstroke towards the
    higher. Alternate picking calls the one way inside and the other outside; in economy picking only the other goes on in one stroke."""

    stretch: int = 3
    """The first or the fourth finger outside the four frets under the hand, for each fret."""

    displaced: int = 1
    """A finger over another finger's fret, for each fret."""

    span: int = 1
    """Each fret between the lowest and the highest finger of a grip."""

    strain: int = 1
    """Two fingers farther apart than is comfortable (``reach.COMFORT_MM``), for each 10 mm begun."""

    barre: int = 2
    """The first finger across several strings; another finger 1 more."""

    weak: int = 0
    """Using the fourth finger."""

    thumb: int | None = None
    """Stopping the lowest string with the thumb; None: never, unless the writer asks for it."""

    lift: int = 1
    """A finger that is lifted and not used next; one that stays, or slides along its string as a guide, costs nothing."""

    roll: int = 2
    """A finger that goes to another string at its fret."""

    hop: int = 3
    """A finger that goes to another string and another fret."""

    skipped: int = 1
    """Each string inside a grip that must be kept silent."""

    opened: int = 1
    """An open string that was not asked for, for each fret that the hand is above the first: it sounds unlike its neighbours."""

    unstopped: int = 0
    """An open string that was not asked for, wherever the hand is: a shape with one cannot be moved along the neck."""

    high: int = 1
    """The hand above ``high_from``, for each fret above it: beyond the octave frets are narrow and the body is in the way."""

    high_from: int = 12

    start: int = 1
    """Beginning a line up the neck, for every two frets above the first: of positions that serve alike, players begin in the lower one."""

    hand: float = 1.0
    """How far the hand stretches, as a share of the bounds in ``reach``."""


USUAL: Final = Weights()

BROKEN: Final = 40
"""A note that should ring on but is let go, or one that should be led to on a string but lies on another: more than a shift over the whole
neck."""

SWAPPED: Final = 10
"""A held note that another finger takes over while it sounds."""

MOST: Final = 100
"""What a hold costs at most; dearer ones differ no more."""

HURRIES: Final = (0.1, 0.2)
"""Seconds from one event to the next, within which a shift is hurried, more so the shorter they are. For scale: eighth notes at 60 beats a
minute are 0.5 seconds apart, sixteenths at 120 0.125."""


def hurried(seconds: float) -> int:
    """How many of HURRIES a time undercuts."""
    return len(HURRIES) - bisect_right(HURRIES, seconds)


def hold_cost(grip: Sequence[Place], fingers: Sequence[int], hand: int, opened: bool, neck: Neck, weights: Weights) -> int:
    """What it costs to hold a grip. ``fingers``: 1 to 4, ``THUMB``, 0 for an open string; ``opened``: it has open strings that nobody
    asked for.
    """
    cost = weights.high * max(0, hand - weights.high_from)
    if opened:
        cost += weights.unstopped + weights.opened * (hand - 1)
    stopped = {finger: fret for (_, fret), finger in zip(grip, fingers, strict=True) if finger}
    for finger, fret in stopped.items():
        if finger == THUMB:
            cost += weights.thumb or 0
            continue
        off = fret - (hand + finger - 1)
        stretched = (finger == 1 and off < 0) or (finger == HAND_FRETS and off > 0)
        cost += abs(off) * (weights.stretch if stretched else weights.displaced)
        cost += weights.weak if finger == HAND_FRETS else 0
    if len(grip) > 1:
        cost += _together(grip, fingers, stopped, neck, weights)
    return min(cost, MOST)


def _together(grip: Sequence[Place], fingers: Sequence[int], stopped: dict[int, int], neck: Neck, weights: Weights) -> int:
    strings = [string for string, _ in grip]
    cost = weights.skipped * (max(strings) - min(strings) + 1 - len(strings))
    frets = [fret for _, fret in grip if fret]
    if frets:
        cost += weights.span * (max(frets) - min(frets))
    cost += sum(weights.barre + (finger != 1) for finger in stopped if fingers.count(finger) > 1)
    used = sorted(finger for finger in stopped if finger != THUMB)
    for low, high in pairwise(used):
        over = neck.distance_mm(stopped[low], stopped[high]) - COMFORT_MM[high - low] * weights.hand
        if over > 0:
            cost += weights.strain * (int(over // 10) + 1)
    return cost


def shift_cost(way: int, weights: Weights = USUAL, hurry: int = 0) -> int:
    """What it costs to move the hand by so many frets."""
    return weights.shift + (weights.shift_fret + weights.hurry * hurry) * way if way else 0


def start_cost(hand: int, weights: Weights = USUAL) -> int:
    """What it costs to begin a line in a hand."""
    return weights.start * ((hand - 1) // 2)


def crossing_cost(before: int, after: int, weights: Weights = USUAL, stroke: str = "") -> int:
    """What it costs to go from one grip's strings to another's; each is given as the sum of its outermost strings. ``stroke``: the pick's
    way before ("d" or "u") if both are picked.
    """
    cost = weights.crossing * max(0, (abs(after - before) - 1) // 2)
    return cost + (weights.picking if (stroke == "d" and after > before) or (stroke == "u" and after < before) else 0)


def finger_cost(finger: int, frets: int, strings: int, later: Sequence[tuple[int, int, int]], weights: Weights) -> int:
    """What becomes of one finger: at fret ``frets`` on ``strings`` (a bit for each), and after that where ``later`` has it, if at all."""
    for other, fret, on in later:
        if other == finger:
            return 0 if strings & on else weights.roll if fret == frets else weights.hop
    return weights.lift
