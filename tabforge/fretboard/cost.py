"""What makes a fingering good: the one home of the weights.

A fingering is one **hold** for each event: a string and a fret for each note, the finger that stops it, and where the hand is. The hand is
told by the fret under its first finger, one finger a fret, so that four frets lie under it. A fingering costs what it costs to begin in
its first hand, what its holds cost, and what it costs to go from each hold to the next: the hand's way, the skip from string to
string, what its fingers have to do, and the way of the pick.

All weights are common practice, no source: they say in which order teachers would weigh these things, not how hands were measured.
They are whole points. Ways from hold to hold are summed in grains, ``GRAIN`` to a point, which tell small ways of the hand apart; whole
numbers keep sums exact, so that ties are real ties. ``players`` has the table of those who weigh them otherwise.
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

    shift_way: int = 1
    """Moving the hand, for each 40 mm of the way, a quarter of it for each 10 mm begun: a fret is 34 mm at the nut of a guitar and half as
    much at the octave."""

    hurry: int = 1
    """Moving the hand in little time, for each 40 mm of the way and each of ``HURRIES`` that is undercut."""

    crossing: int = 1
    """Skipping strings from one grip to the next, for each string skipped between their middles. The next string is no way at all."""

    picking: int = 1
    """Going to a string on the other side of the pick: after a downstroke towards the lower strings, after an upstroke towards the
    higher. Alternate picking calls the one way inside and the other outside; in economy picking only the other goes on in one stroke. In
    legato playing: picking a note, on a string that is come to anew."""

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

    around: int = 5
    """Two fingers at the lowest fret of a grip that reach around others, which lie on two strings or more between them: there the first
    finger lies across."""

    weak: int = 0
    """Using the fourth finger."""

    thumb: int | None = None
    """Stopping the lowest string with the thumb; None: never, unless the writer asks for it."""

    lift: int = 1
    """A finger that is lifted and not used next; one that stays, or slides along its string as a guide, costs nothing."""

    drag: int = 2
    """A finger that plays two notes in a row at different frets of a string, if no slide is written."""

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

GRAIN: Final = 4
"""Grains to a point."""

BROKEN: Final = 40
"""A note that should ring on but is let go, or one that should be led to but lies on another string, or under a finger that cannot lead to
it: more than a shift over the whole neck."""

CUT: Final = 30
"""A note marked to ring that is let go before its shape is over: more than a barre for the whole of a broken chord."""

WRONG: Final = 40
"""A stroke against the rule of economy picking."""

UPBEAT: Final = 2
"""Beginning with an upstroke where strokes are chosen."""

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
    cost += weights.around if _reaches_around(grip, fingers) else 0
    used = sorted(finger for finger in stopped if finger != THUMB)
    for low, high in pairwise(used):
        over = neck.distance_mm(stopped[low], stopped[high]) - COMFORT_MM[high - low] * weights.hand
        if over > 0:
            cost += weights.strain * (int(over // 10) + 1)
    return cost


def _reaches_around(grip: Sequence[Place], fingers: Sequence[int]) -> bool:
    lowest = min((fret for _, fret in grip if fret), default=0)
    low = {string: finger for (string, fret), finger in zip(grip, fingers, strict=True) if fret == lowest and finger not in (0, THUMB)}
    if len(set(low.values())) < 2:
        return False
    return sum(min(low) < string < max(low) and fret > lowest for string, fret in grip) > 1


def hand_ways(neck: Neck, most: int) -> list[list[int]]:
    """The way from each hand to each other, up to hand ``most``, in units of 10 mm begun. Via a third hand no way is shorter."""
    marks = [round(10 * neck.distance_mm(0, hand)) for hand in range(most + 1)]
    return [[-(-abs(other - mark) // 100) for other in marks] for mark in marks]


def shift_cost(way: int, weights: Weights = USUAL, hurry: int = 0) -> int:
    """What it costs in grains to move the hand; ``way`` as ``hand_ways`` has it."""
    return GRAIN * weights.shift + (weights.shift_way + weights.hurry * hurry) * way if way else 0


def start_cost(hand: int, weights: Weights = USUAL) -> int:
    """What it costs to begin a line in a hand."""
    return weights.start * ((hand - 1) // 2)


def crossing_cost(before: int, after: int, weights: Weights = USUAL, stroke: str = "") -> int:
    """What it costs to go from one grip's strings to another's; each is given as the sum of its outermost strings. ``stroke``: the pick's
    way before ("d" or "u") if both are picked, ``LEGATO`` where what stays on its string is not.
    """
    cost = weights.crossing * max(0, (abs(after - before) - 1) // 2)
    if stroke == LEGATO:
        return cost + (weights.picking if after != before else 0)
    return cost + (weights.picking if (stroke == "d" and after > before) or (stroke == "u" and after < before) else 0)


LEGATO: Final = "l"
"""Stands for a stroke where only the first note on a string is picked."""

NEXT: Final = "e"
"""Stands for a stroke where the rule of economy picking gives it."""


def economy_cost(before: int, stroke: str, after: int, later: str, way: str) -> int:
    """What a stroke costs that is not the one it ought to be: in economy picking the pick goes on towards the string it comes to, and back
    and forth on one string. ``before`` and ``after`` as for ``crossing_cost``; ``way``: NEXT, the stroke the writer gives, or "" at the
    beginning and after a silence, where a downstroke is plainer.
    """
    if not way:
        return UPBEAT if later == "u" else 0
    if not later or (way == NEXT and not stroke):
        return 0
    if way != NEXT:
        ought = way
    elif before == after:
        ought = "u" if stroke == "d" else "d"
    else:
        ought = "u" if after > before else "d"
    return WRONG if later != ought else 0


def finger_cost(
    finger: int, frets: int, strings: int, later: Sequence[tuple[int, int, int]], weights: Weights, drags: bool = False
) -> int:
    """What becomes of one finger: at fret ``frets`` on ``strings`` (a bit for each), and after that where ``later`` has it, if at all.
    ``drags``: it plays both of two single notes, the second of which is struck.
    """
    for other, fret, on in later:
        if other == finger:
            if strings & on:
                return weights.drag if drags and fret != frets else 0
            return weights.roll if fret == frets else weights.hop
    return weights.lift
