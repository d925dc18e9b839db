"""Holding a grip: whether a hand can, with which fingers, and what the grip weighs.

What a grip suffers for what it lacks is common practice, no source; how a hand holds it is ``cost``'s to say.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Final

from tabforge.fretboard.cost import Weights, hold_cost
from tabforge.fretboard.fingers import Fingers, fingerings, hands
from tabforge.fretboard.gripped import Frets, Grip
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import FINGERS, HAND_FRETS, THUMB, farthest, fingers_needed, most_hands, stretch

FINGER: Final = 1
"""Each finger that a grip takes."""

FARTHER: Final = 1
"""Each fret that a grip lies up the neck, if it does not lie in the first frets."""


OVER: Final = 6
"""A barre over three strings or more beside an open string on the floor's side: the finger's root lies over that one too."""

@lru_cache(maxsize=64)
def reach_on(neck: Neck, hand: float) -> tuple[int, ...]:
    """``reach.farthest``, remembered."""
    return tuple(farthest(neck, hand))


def away(frets: Frets) -> int:
    """Frets that a grip lies up the neck: how far above the first its lowest stopped one is, if it does not lie in the first frets."""
    fretted = [fret for fret in frets if fret]
    return min(fretted) - 1 if fretted and max(fretted) > HAND_FRETS else 0


def least_cost(frets: Frets, lack: int, weights: Weights) -> int:
    """What a grip weighs at least, however it is held: with the fewest fingers, the thumb besides, and nothing that strains."""
    fretted = [fret for fret in frets if fret]
    if not fretted:
        return lack
    thumb = weights.thumb is not None
    few = fingers_needed((string, fret) for string, fret in enumerate(frets, 1) if fret is not None)
    across = weights.barre if len(fretted) > FINGERS + thumb else 0
    return lack + FINGER * (few - thumb) + across + FARTHER * away(frets) + weights.span * (max(fretted) - min(fretted))


def fingers_of(weights: Weights) -> int:
    """How many fingers a player's hand has for a grip, the thumb with them where it is used."""
    return FINGERS + (weights.thumb is not None)


def silenced(frets: Frets) -> bool:
    """Whether each string between those that sound, and not played itself, has a finger on a string beside it that keeps it silent."""
    return all(
        fret is not None or frets[at - 1] or frets[at + 1]
        for at, fret in enumerate(frets[1:-1], 1)
        if any(each is not None for each in frets[:at]) and any(each is not None for each in frets[at + 1 :])
    )


def held(frets: Frets, neck: Neck, weights: Weights, lack: int = 0, *, barred: bool = False) -> Grip | None:
    """A grip with its fingers, as a player holds it best; None if no hand does. ``lack`` is what it weighs beside.

    No finger lies across a string that is not played: it would sound. ``barred``: the first finger stops all strings at the lowest fret.
    """
    places = [(string, fret) for string, fret in enumerate(frets, 1) if fret is not None]
    if not places or fingers_needed(places) > fingers_of(weights) or not silenced(frets):
        return None
    lowest = min((fret for _, fret in places if fret), default=0)
    if lowest and max(fret for _, fret in places) > reach_on(neck, weights.hand)[lowest]:
        return None
    pins = [1 if barred and fret == lowest else None for _, fret in places]
    opened = any(not fret for _, fret in places)
    ways = []
    for fingers in fingerings(places, pins, neck, weights):
        if not _covers(places, fingers, frets):
            beside = _over(places, fingers)
            for hand in hands(places, fingers, most_hands(neck)):
                cost = hold_cost(places, fingers, hand, opened, neck, weights) + beside
                raised = sum(max(0, fret - hand - finger + 1) for (_, fret), finger in zip(places, fingers, strict=True) if finger)
                ways.append((cost, hand, raised, fingers))
    if not ways:
        return None
    cost, hand, _, fingers = min(ways)  # of those alike the lowest hand, and fingers over or behind their own frets
    return _grip(frets, fingers, hand, neck, lack + cost)


def as_written(frets: Frets, neck: Neck, weights: Weights) -> Grip:
    """A grip that is asked for by its frets: it stands whatever a hand says, without fingers where none can hold it."""
    places = [(string, fret) for string, fret in enumerate(frets, 1) if fret is not None]
    fretted = [fret for _, fret in places if fret]
    return held(frets, neck, weights) or _grip(frets, (0,) * len(places), min(fretted, default=0), neck, 0)


def _covers(places: Sequence[Place], fingers: Fingers, frets: Frets) -> bool:
    """Whether the first finger lies across a string that is not played. No other finger lies across strings that are not neighbours."""
    ones = [string for (string, _), finger in zip(places, fingers, strict=True) if finger == 1]
    return len(ones) > 1 and None in frets[ones[0] - 1 : ones[-1]]


def _over(places: Sequence[Place], fingers: Fingers) -> int:
    """What it costs that a barre's finger has an open string under its root."""
    ones = [string for (string, _), finger in zip(places, fingers, strict=True) if finger == 1]
    wide = len(ones) > 1 and ones[-1] - ones[0] > 1
    return OVER if wide and any(string < ones[0] and not fret for string, fret in places) else 0


def _grip(frets: Frets, fingers: Sequence[int], hand: int, neck: Neck, cost: int) -> Grip:
    places = [(string, fret) for string, fret in enumerate(frets, 1) if fret is not None]
    fretted = [fret for _, fret in places if fret]
    used = {finger for finger in fingers if finger not in (0, THUMB)}
    by_string = {string: finger for (string, _), finger in zip(places, fingers, strict=True)}
    span = stretch(places, neck)
    return Grip(
        frets=frets,
        fingers=tuple(by_string.get(string, 0) for string in range(1, len(frets) + 1)),
        midi=tuple(None if fret is None else neck.midi_at(string, fret) for string, fret in enumerate(frets, 1)),
        hand=hand if fretted else 0,
        stretch=span.mm if span else 0.0,
        cost=cost + FINGER * len(used) + FARTHER * away(frets),
    )
