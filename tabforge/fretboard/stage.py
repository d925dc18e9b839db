"""Stages: an event with all its holds, ready to be come to.

What it costs to come to every hold of an event from one hold before it is a row: a number for each hold, in lanes of one integer. A row is
the sum of what hangs on the hand before (the shift) and of what hangs on the grip and the fingers before (crossing, fingers, bonds), so
that few parts, worked out once, make up all rows.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable
from typing import NamedTuple, TypeVar

from tabforge.fretboard.bonds import bound, broken_cost
from tabforge.fretboard.cost import BROKEN, Weights, crossing_cost, finger_cost, shift_cost, start_cost
from tabforge.fretboard.fingers import Fingers
from tabforge.fretboard.holds import Hold, middle
from tabforge.fretboard.lanes import guards, lanes, ones
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.readings import Event, Grip

Used = tuple[int, int, int]
"""A finger, its fret, and its strings, a bit for each."""


def used(grip: Grip, fingers: Fingers) -> tuple[Used, ...]:
    """The fingers of a hold and where they are."""
    found: dict[int, tuple[int, int]] = {}
    for (string, fret), finger in zip(grip, fingers, strict=True):
        if finger:
            found[finger] = (fret, found.get(finger, (0, 0))[1] | 1 << string)
    return tuple((finger, fret, strings) for finger, (fret, strings) in sorted(found.items()))


class Touch:
    """What a hold is, wherever the hand: its strings and its fingers. Holds of one stage that touch alike have one touch."""

    __slots__ = ("fingers", "grip", "middle", "used")

    def __init__(self, grip: Grip, fingers: Fingers) -> None:
        self.grip, self.fingers = grip, fingers
        self.middle = middle(grip)
        self.used = used(grip, fingers)


class Way(NamedTuple):
    """How an event is come to: how hurried (see ``cost.hurried``), and the pick's stroke before if both are picked."""

    hurry: int = 0
    stroke: str = ""


PLAIN = Way()


class Stage:
    """An event and its holds. ``touches`` has the touch of each hold."""

    def __init__(self, event: Event, holds: list[Hold], neck: Neck, weights: Weights) -> None:
        self.event, self.holds, self._neck, self.weights = event, holds, neck, weights
        self.count = len(holds)
        self.ones, self.guard = ones(self.count), guards(self.count)
        self.hands = [hold.hand for hold in holds]
        known: dict[tuple[Grip, Fingers], Touch] = {}
        self.touches: list[Touch] = []
        for hold in holds:
            key = (hold.grip, hold.fingers)
            if key not in known:
                known[key] = Touch(*key)
            self.touches.append(known[key])
        self._own = sum(hold.cost << 16 * number for number, hold in enumerate(holds))
        self.by_hand = _grouped(self.hands)
        self.in_hand: dict[int, list[int]] = {}
        for number, hand in enumerate(self.hands):
            self.in_hand.setdefault(hand, []).append(number)
        self._by_middle = _grouped(touch.middle for touch in self.touches)
        self.by_touch = _grouped(self.touches)
        self._by_used: dict[int, dict[Used, int]] = {}
        for touch, where in self.by_touch.items():
            for each in touch.used:
                same = self._by_used.setdefault(each[0], {})
                same[each] = same.get(each, 0) + where
        self._binds = bound(event)
        wishes = sum(note.held or note.linked for note in event)
        self.slack = BROKEN * wishes
        """What it costs at most to come to a hold, besides what the ways of the hand, the fingers and the pick cost."""
        self._hand_rows: dict[tuple[int, int], int] = {}
        self._bounds: dict[tuple[int, int, int], tuple[int, ...]] = {}
        self._crossings: dict[tuple[int, str], int] = {}
        self._finger_rows: dict[Used, int] = {}
        self._rows: dict[tuple[Stage, Way], Rows] = {}

    def begun(self) -> int:
        """What it costs to begin a line with each hold."""
        return self._own + sum(start_cost(hand, self.weights) * where for hand, where in self.by_hand.items())

    def rows(self, before: Stage, way: Way) -> Rows:
        """The rows from the holds of another stage."""
        known = self._rows.get((before, way))
        if known is None:
            hands = {hand: self._hand_row(hand, way.hurry) for hand in before.by_hand}
            touches = {touch: self._touch_row(touch, way.stroke) for touch in before.by_touch}
            known = self._rows[before, way] = Rows(
                [hands[hand] for hand in before.hands], [touches[touch] for touch in before.touches]
            )
        return known

    def bounds(self, number: int, hurry: int, slack: int) -> tuple[int, ...]:
        """For each hold what it may cost more than hold ``number``: if it costs more than that, it is no worse to come from hold
        ``number``, wherever
        one goes. For the way from its hand is no longer than to the other's hand and on from there, the strings skipped are at most as many
        more as lie between the two, and besides that it costs at most what its fingers and the next stage's ``slack`` come to.
        """
        known = self._bounds.get((number, hurry, slack))
        if known is None:
            hand, weights = self.hands[number], self.weights
            most = slack + len(self.touches[number].used) * max(weights.lift, weights.roll, weights.hop)
            shifts = {other: most + shift_cost(abs(other - hand), weights, hurry) for other in self.by_hand}
            here = self.touches[number].middle
            skips = {middle: weights.crossing * ((abs(middle - here) + 1) // 2) for middle in self._by_middle}
            known = tuple([shifts[other] + skips[touch.middle] for other, touch in zip(self.hands, self.touches, strict=True)])
            self._bounds[number, hurry, slack] = known
        return known

    def _hand_row(self, hand: int, hurry: int) -> int:
        row = self._hand_rows.get((hand, hurry))
        if row is None:
            row = self._own
            for other, where in self.by_hand.items():
                row += shift_cost(abs(other - hand), self.weights, hurry) * where
            self._hand_rows[hand, hurry] = row
        return row

    def _touch_row(self, touch: Touch, stroke: str) -> int:
        row = self._crossings.get((touch.middle, stroke))
        if row is None:
            row = 0
            for after, where in self._by_middle.items():
                row += crossing_cost(touch.middle, after, self.weights, stroke) * where
            self._crossings[touch.middle, stroke] = row
        for each in touch.used:
            part = self._finger_rows.get(each)
            row += self._finger_row(each) if part is None else part
        if self._binds:
            for later, where in self.by_touch.items():
                row += broken_cost(self.event, touch.grip, touch.fingers, later.grip, later.fingers, self._neck) * where
        return row

    def _finger_row(self, before: Used) -> int:
        finger, fret, strings = before
        row = self.ones * self.weights.lift
        for after, where in self._by_used.get(finger, {}).items():
            row += (finger_cost(finger, fret, strings, (after,), self.weights) - self.weights.lift) * where
        self._finger_rows[before] = row
        return row


class Rows(NamedTuple):
    """The rows from each hold of one stage to another stage, each as its two parts: what hangs on the hand, and what hangs on the touch."""

    hands: list[int]
    touches: list[int]


_Key = TypeVar("_Key", bound=Hashable)


def _grouped(keys: Iterable[_Key]) -> dict[_Key, int]:
    """For each key the lanes that have it."""
    where: dict[_Key, list[int]] = {}
    for number, key in enumerate(keys):
        where.setdefault(key, []).append(number)
    return {key: lanes(found) for key, found in where.items()}
