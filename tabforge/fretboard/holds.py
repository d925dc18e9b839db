"""Holds: all ways to play one event, each a grip, its fingers and a hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from tabforge.fretboard.cost import Weights, hold_cost
from tabforge.fretboard.fingers import Fingers, fingerings, hands
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import THUMB, farthest, most_hands
from tabforge.fretboard.readings import LET_GO, Event, Grip, grips, pinned_whole


class Hold(NamedTuple):
    """A grip, held with some fingers, in a hand, and the pick's stroke where it is chosen with them ("d", "u", else "").

    Holds are kept in their order: by hand, then by the sum of the frets, then those whose fingers are over or behind their own frets first,
    then string by string and finger by finger. Among equals the first is taken.
    """

    hand: int
    frets: int
    raised: int
    grip: Grip
    fingers: Fingers
    cost: int
    stroke: str = ""


CHORD: Final = 3
"""Notes that make a chord, which is held as such."""


def _usual(ways: list[Hold]) -> list[Hold]:
    """Of all ways to hold a chord's grip those that are best for it, whatever comes before and after: a player knows a grip as a whole.

    The best costs least; of those that cost the same, with three strings stopped, the first finger is used; where open strings sound, the
    hand is in the lowest place.
    """
    best: dict[Fingers, tuple[int, bool, int]] = {}
    for hold in ways:
        stopped = [finger for finger in hold.fingers if finger]
        opened = any(string and not fret for string, fret in hold.grip)
        key = (hold.cost, len(stopped) >= CHORD and 1 not in stopped, hold.hand if opened else 0)
        best[hold.fingers] = min(key, best.get(hold.fingers, key))
    least = min(best.values(), default=None)
    return [hold for hold in ways if best[hold.fingers] == least]


def middle(grip: Grip) -> int:
    """The sum of a grip's outermost strings, twice the middle between them; strings that are let go do not count."""
    strings = [string for string, _ in grip if string]
    return min(strings) + max(strings)


def holds(event: Event, neck: Neck, reach: Sequence[int], weights: Weights) -> list[Hold]:
    """Every way to play an event, also with what is held let go. ``reach`` is ``reach.farthest`` of the neck and the player's hand.

    Pins are never overruled. Where the rules of ``fingers`` leave no way with them, the fingers that are pinned stand, and the others are
    not known (0).
    """
    found = _struck(event, neck, reach, weights)
    struck = tuple(note for note in event if not note.held)
    if struck and len(struck) < len(event):
        for hold in _struck(struck, neck, reach, weights):
            places, fingers = iter(hold.grip), iter(hold.fingers)
            grip = tuple(LET_GO if note.held else next(places) for note in event)
            found.append(hold._replace(grip=grip, fingers=tuple(0 if note.held else next(fingers) for note in event)))
    return sorted(found)


def holdable(event: Event, neck: Neck, weights: Weights) -> bool:
    """Whether a hand can hold all notes of an event together."""
    pins = [note.finger for note in event]
    return any(fingerings(grip, pins, neck, weights) for grip in grips(event, neck, farthest(neck, weights.hand)))


def _struck(event: Event, neck: Neck, reach: Sequence[int], weights: Weights) -> list[Hold]:
    pins = [note.finger for note in event]
    choices = grips(event, neck, reach)
    found: list[Hold] = []
    chord = len(event) >= CHORD and not any(note.held for note in event)
    for grip in choices:
        ways = [hold for fingers in fingerings(grip, pins, neck, weights) for hold in _held(event, grip, fingers, neck, weights)]
        found += _usual(ways) if chord else ways
    if not found and (any(pin is not None for pin in pins) or pinned_whole(event)):
        for grip in choices:
            fingers = tuple(pin if pin and place[1] else 0 for pin, place in zip(pins, grip, strict=True))
            found += _held(event, grip, fingers, neck, weights)
    return found


def _held(event: Event, grip: Grip, fingers: Fingers, neck: Neck, weights: Weights) -> list[Hold]:
    frets = sum(fret for _, fret in grip)
    opened = any(place[1] == 0 and note.fret is None and note.finger is None for place, note in zip(grip, event, strict=True))
    made = []
    for hand in hands(grip, fingers, most_hands(neck)):
        raised = sum(
            max(0, fret - (hand + finger - 1)) for (_, fret), finger in zip(grip, fingers, strict=True) if finger and finger != THUMB
        )
        made.append(Hold(hand, frets, raised, grip, fingers, hold_cost(grip, fingers, hand, opened, neck, weights)))
    return made
