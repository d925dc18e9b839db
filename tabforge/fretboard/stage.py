"""Stages: an event with all its holds, ready to be come to.

What it costs to come to every hold of an event from one hold before it is a row: a number for each hold, in lanes of one integer. A row is
the sum of what hangs on the hand before (the shift) and of what hangs on the grip and the fingers before (crossing, fingers, bonds), so
that few parts, worked out once, make up all rows.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from typing import Final, NamedTuple, TypeVar

from tabforge.fretboard.bonds import bound, broken_cost
from tabforge.fretboard.cost import BROKEN, GRAIN, WRONG, Weights, crossing_cost, economy_cost, shift_cost, start_cost
from tabforge.fretboard.fingers import Fingers
from tabforge.fretboard.holds import Hold, middle
from tabforge.fretboard.lanes import LANE, guards, lanes, ones
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.readings import Event, Grip

_UNUSED: Final[tuple[int, dict[int, int], dict[int, int]]] = (0, {}, {})

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
    """What a hold is, wherever the hand: its strings, its fingers and its stroke. Holds of one stage that touch alike have one touch."""

    __slots__ = ("fingers", "grip", "middle", "stroke", "used")

    def __init__(self, grip: Grip, fingers: Fingers, stroke: str) -> None:
        self.grip, self.fingers, self.stroke = grip, fingers, stroke
        self.middle = middle(grip)
        self.used = used(grip, fingers)


class Way(NamedTuple):
    """How an event is come to: how hurried (see ``cost.hurried``), and the pick's stroke before if both are picked. Where strokes are
    chosen: what ``cost.economy_cost`` takes for ``way``.
    """

    hurry: int = 0
    stroke: str = ""


PLAIN = Way()


class Stage:
    """An event and its holds. ``touches`` has the touch of each hold."""

    def __init__(self, event: Event, holds: list[Hold], neck: Neck, weights: Weights, hand_ways: Sequence[Sequence[int]]) -> None:
        self.event, self.holds, self._neck, self.weights, self._hand_ways = event, holds, neck, weights, hand_ways
        self.count = len(holds)
        self.ones, self.guard = ones(self.count), guards(self.count)
        self.hands = [hold.hand for hold in holds]
        known: dict[tuple[Grip, Fingers, str], Touch] = {}
        self.touches: list[Touch] = []
        for hold in holds:
            key = (hold.grip, hold.fingers, hold.stroke)
            if key not in known:
                known[key] = Touch(*key)
            self.touches.append(known[key])
        self._own = sum(GRAIN * hold.cost << LANE * number for number, hold in enumerate(holds))
        self.by_hand = _grouped(self.hands)
        self.in_hand: dict[int, list[int]] = {}
        for number, hand in enumerate(self.hands):
            self.in_hand.setdefault(hand, []).append(number)
        self._by_middle = _grouped(touch.middle for touch in self.touches)
        self.by_touch = _grouped(self.touches)
        self._uses: dict[int, tuple[int, dict[int, int], dict[int, int]]] = {}
        for touch, where in self.by_touch.items():
            for finger, fret, on in touch.used:
                used, by_string, by_fret = self._uses.get(finger) or (0, {}, {})
                by_string[on] = by_string.get(on, 0) | where
                by_fret[fret] = by_fret.get(fret, 0) | where
                self._uses[finger] = (used | where, by_string, by_fret)
        self._binds = bound(event)
        self._single = len(event) == 1 and not event[0].linked
        wishes = sum(note.held or note.linked for note in event)
        self.chooses = bool(holds[0].stroke)
        """Whether strokes are chosen with the holds."""
        self._by_stroke = _grouped((touch.middle, touch.stroke) for touch in self.touches) if self.chooses else {}
        self.slack = GRAIN * (BROKEN * wishes + (WRONG if self.chooses else 0))
        """What it costs at most to come to a hold, besides what the ways of the hand, the fingers and the pick cost."""
        self._hand_rows: dict[tuple[int, int], int] = {}
        self._bounds: dict[tuple[int, int, int], tuple[int, ...]] = {}
        self._crossings: dict[tuple[int, str, str], int] = {}
        self._finger_rows: dict[Used, int] = {}
        self._dragged_rows: dict[Used, int] = {}
        self._rows: dict[tuple[Stage, Way], Rows] = {}

    def begun(self, stroke: str) -> int:
        """What it costs to begin a line with each hold. ``stroke``: the first one, where it is given and others are chosen."""
        begun = self._own + sum(GRAIN * start_cost(hand, self.weights) * where for hand, where in self.by_hand.items())
        for (after, later), where in self._by_stroke.items():
            begun += GRAIN * economy_cost(after, "", after, later, stroke) * where
        return begun

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
            most = slack + GRAIN * len(self.touches[number].used) * max(weights.lift, weights.roll, weights.hop, weights.drag)
            ways = self._hand_ways[hand]
            shifts = {other: most + shift_cost(ways[other], weights, hurry) for other in self.by_hand}
            here = self.touches[number].middle
            skips = {middle: GRAIN * weights.crossing * ((abs(middle - here) + 1) // 2) for middle in self._by_middle}
            known = tuple([shifts[other] + skips[touch.middle] for other, touch in zip(self.hands, self.touches, strict=True)])
            self._bounds[number, hurry, slack] = known
        return known

    def _hand_row(self, hand: int, hurry: int) -> int:
        row = self._hand_rows.get((hand, hurry))
        if row is None:
            row = self._own
            ways = self._hand_ways[hand]
            for other, where in self.by_hand.items():
                row += shift_cost(ways[other], self.weights, hurry) * where
            self._hand_rows[hand, hurry] = row
        return row

    def _touch_row(self, touch: Touch, stroke: str) -> int:
        row = self._crossings.get((touch.middle, touch.stroke, stroke))
        if row is None:
            row = self._crossings[touch.middle, touch.stroke, stroke] = self._crossing_row(touch, stroke)
        rows = self._dragged_rows if self._single and len(touch.grip) == 1 else self._finger_rows
        for each in touch.used:
            part = rows.get(each)
            row += self._finger_row(each, rows) if part is None else part
        if self._binds:
            for later, where in self.by_touch.items():
                row += broken_cost(self.event, touch.grip, touch.fingers, later.grip, later.fingers, self._neck) * GRAIN * where
        return row

    def _crossing_row(self, touch: Touch, stroke: str) -> int:
        row = 0
        known = (touch.stroke if stroke else "") if self.chooses or touch.stroke else stroke
        for after, where in self._by_middle.items():
            row += GRAIN * crossing_cost(touch.middle, after, self.weights, known) * where
        for (after, later), where in self._by_stroke.items():
            row += GRAIN * economy_cost(touch.middle, touch.stroke, after, later, stroke) * where
        return row

    def _finger_row(self, before: Used, rows: dict[Used, int]) -> int:
        """``cost.finger_cost`` for all holds at once: by the lanes that use the finger, keep it on its string, keep it on its fret."""
        finger, fret, strings = before
        weights = self.weights
        used, by_string, by_fret = self._uses.get(finger, _UNUSED)
        stays = 0
        for on, where in by_string.items():
            if on & strings:
                stays |= where
        there = by_fret.get(fret, 0)
        row = weights.lift * self.ones + (weights.hop - weights.lift) * used - weights.hop * stays
        row += (weights.roll - weights.hop) * (there & ~stays)
        if rows is self._dragged_rows:
            row += weights.drag * (stays & ~there)
        rows[before] = row = GRAIN * row
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
