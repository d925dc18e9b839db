"""Fingers: which of them can stop the notes of a grip, and where the hand is then.

The rules are common practice, no source. Frets go up as fingers do. On one fret the finger with the higher number takes the string
nearer the floor, unless one finger lies across both: any finger over neighbouring strings, the first also over all strings at the
grip's lowest
fret, as long as no open string lies between. No two fingers are farther apart than ``reach.SPAN_MM`` says. The thumb reaches over the
edge to the last string alone, within a fret of the first finger's.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.fretboard.cost import Weights
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import FINGERS, SPAN_MM, THUMB

Fingers = tuple[int, ...]
"""A finger for each note of a grip: 1 to 4, THUMB, or 0 for an open string and for a finger that is not known."""

OFF: Final = 1
"""How many frets a finger of a chord may lie off its own fret in the hand, if the chord can be held so at all."""


def fingerings(grip: Sequence[Place], pins: Sequence[int | None], neck: Neck, weights: Weights) -> list[Fingers]:
    """Every way to finger a grip that obeys the rules and the pins."""
    order = sorted((number for number, place in enumerate(grip) if place[1]), key=lambda number: (grip[number][1], -grip[number][0]))
    if not order:
        return [(0,) * len(grip)]
    return list(_assign(grip, order, pins, neck, weights))


def _assign(grip: Sequence[Place], order: list[int], pins: Sequence[int | None], neck: Neck, weights: Weights) -> Iterator[Fingers]:
    chosen = [0] * len(grip)
    edge = len(neck.tuning)
    lowest = grip[order[0]][1]
    opened = [string for string, fret in grip if string and not fret]

    def across(before: Place, here: Place, finger: int) -> bool:
        """Whether a finger that is on the string before can also lie on this one."""
        if before[1] != here[1]:
            return False
        if before[0] - here[0] == 1:
            return True
        return finger == 1 and here[1] == lowest and not any(here[0] < string < before[0] for string in opened)

    def go(depth: int, used: list[tuple[int, Place]]) -> Iterator[Fingers]:
        if depth == len(order):
            yield tuple(chosen)
            return
        number = order[depth]
        here, pin = grip[number], pins[number]
        top, before = used[-1] if used else (0, (0, 0))
        for finger in range(max(1, top), FINGERS + 1):
            if pin is not None and pin != finger:
                continue
            if (finger == top and not across(before, here, finger)) or not _spans(used, finger, here[1], neck, weights):
                continue
            chosen[number] = finger
            yield from go(depth + 1, [*used, (finger, here)])
        if here[0] == edge and (pin == THUMB or (pin is None and weights.thumb is not None)):
            chosen[number] = THUMB
            for found in go(depth + 1, used):
                ones = [fret for (_, fret), finger in zip(grip, found, strict=True) if finger == 1]
                if not ones or abs(ones[0] - here[1]) <= 1:
                    yield found
        chosen[number] = 0

    yield from go(0, [])


def _spans(used: Sequence[tuple[int, Place]], finger: int, fret: int, neck: Neck, weights: Weights) -> bool:
    return all(
        low == finger or fret == at or neck.distance_mm(at, fret) <= SPAN_MM[low, finger] * weights.hand for low, (_, at) in used
    )


def hands(grip: Sequence[Place], fingers: Fingers, most: int) -> list[int]:
    """The hands, of ``most``, in which a grip is held with these fingers: all, if none is needed.

    One finger alone is over its own fret, or one fret behind it, or, the fourth, one fret beyond. Of a chord each finger lies at
    most ``OFF`` frets off
    its own; where that cannot be, the hand is where they lie nearest, the lower of two.
    """
    stopped = sorted({(finger, fret) for (_, fret), finger in zip(grip, fingers, strict=True) if finger})
    if not stopped:
        frets = [fret for _, fret in grip if fret]
        if not frets:
            return list(range(1, most + 1))
        return [max(1, min(*frets, most))] if len(frets) > 1 else [max(1, min(frets[0], most))]
    places = [fret - (0 if finger == THUMB else finger - 1) for finger, fret in stopped]
    if len(places) == 1:
        finger = stopped[0][0]
        found = [places[0] - 1] if finger in (FINGERS, THUMB) else []
        found += [places[0], places[0] + 1]
        fits = [hand for hand in found if 1 <= hand <= most]
    else:
        fits = [hand for hand in range(max(1, min(places) - OFF), min(most, max(places) + OFF) + 1) if _all_near(places, hand)]
    return fits or [min(range(1, most + 1), key=lambda hand: sum(abs(place - hand) for place in places))]


def _all_near(places: Sequence[int], hand: int) -> bool:
    return all(abs(place - hand) <= OFF for place in places)
