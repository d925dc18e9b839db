"""Readings: how an event is played in each hand.

In a given hand an event has one grip: the one that costs least there; among equals the one with the lower frets (by their sum), then
the one whose first note is on the lower-numbered string, and so on. A hand that reaches no grip of the event has none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from tabforge.fretboard.cost import NEVER, grip_cost
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import FINGERS, HAND_FRETS, fingers_needed, most_hands


class Wanted(NamedTuple):
    """A note to be placed. ``midi`` is the pitch of the fretted string; ``string`` and ``fret`` pin it (from 1, and from the capo).

    A pinned fret is never overruled: if another pitch lies there, that is trouble. A dead note is pinned to its string and a fret, and
    its ``midi`` is the pitch of that place. Two wishes look back at the event before: ``held``, the note sounds on from it and should stay
    where it was; ``linked``, a hammer-on, pull-off or slide leads to the note, which should lie on a string of that event.
    """

    midi: int
    string: int | None = None
    fret: int | None = None
    held: bool = False
    linked: bool = False


Event = tuple[Wanted, ...]
Grip = tuple[Place, ...]

LET_GO: Final[Place] = (0, 0)
"""Stands in a grip for a held note that had to be let go."""

MOST_TRIES: Final = 1000
"""Steps of looking for one chord's grips, those with lower frets first. Chords on six to eight strings took 430 at most when it was
measured; only many notes on twelve strings in near unison come near the limit, and then the best of what was found is taken.
"""


class Reading:
    """An event in each hand: ``grips[n]`` and its cost ``costs[n]`` in hand n + 1; ``middles[n]`` is the sum of the outermost strings.

    Where a hand has no grip, ``middles`` has that of the nearest hand that does. ``tolls`` is the search's: readings that came before it.
    """

    __slots__ = ("costs", "grips", "middles", "tolls")

    def __init__(self, grips: tuple[Grip | None, ...], costs: bytes) -> None:
        self.grips = grips
        self.costs = costs
        self.middles = _middles(grips)
        self.tolls: dict[Reading | None, bytes] = {}


def middle(grip: Grip) -> int:
    """The sum of a grip's outermost strings, twice the middle between them; strings that are let go do not count."""
    strings = [string for string, _ in grip if string]
    return min(strings) + max(strings)


def _middles(grips: tuple[Grip | None, ...]) -> bytes:
    known = {}
    for number, grip in enumerate(grips):
        if grip is not None:
            known[number] = middle(grip)
    return bytes(
        known[number] if number in known else known[min(known, key=lambda other: abs(other - number))]
        for number in range(len(grips))
    )


def options(note: Wanted, neck: Neck) -> tuple[Place, ...]:
    """The places where a note can be played as it is pinned."""
    places = neck.places(note.midi)
    if note.string is not None:
        places = tuple(place for place in places if place[0] == note.string)
    if note.fret is not None:
        places = tuple(place for place in places if place[1] == note.fret)
    return places


def grips(event: Event, neck: Neck, reach: Sequence[int]) -> list[Grip]:
    """Playable grips: each note on a string of its own, all fingers within reach, open strings free.

    ``reach`` is ``reach.farthest`` of the neck. Where every note is pinned to a fret, the grip stands whatever its stretch.
    """
    choices = [options(note, neck) for note in event]
    if len(event) == 1:
        return [(place,) for place in choices[0]]
    if all(note.string and note.fret is not None for note in event):
        pinned = tuple(places[0] for places in choices if places)
        return [pinned] if len({string for string, _ in pinned}) == len(event) else []
    found = list(_fitted(choices, reach, neck.last))
    if len(event) > FINGERS:
        found = [grip for grip in found if fingers_needed(grip) <= FINGERS]
    return found


def _fitted(choices: list[tuple[Place, ...]], reach: Sequence[int], last: int) -> Iterator[Grip]:
    order = sorted(range(len(choices)), key=lambda number: len(choices[number]))
    grip: list[Place] = [(0, 0)] * len(choices)
    tries = 0

    def fit(depth: int, used: int, low: int, high: int) -> Iterator[Grip]:
        nonlocal tries
        if depth == len(order):
            yield tuple(grip)
            return
        number = order[depth]
        for place in choices[number]:
            tries += 1
            if tries > MOST_TRIES:
                return
            string, fret = place
            if used >> string & 1:
                continue
            lower, higher = (min(low, fret), max(high, fret)) if fret else (low, high)
            if higher > reach[lower]:
                continue
            grip[number] = place
            yield from fit(depth + 1, used | 1 << string, lower, higher)

    yield from fit(0, 0, last, 0)


def hands(grip: Grip, most: int) -> range:
    """The hands, of ``most``, that play a grip: all, if nothing is fingered; with three notes fingered or more, only the one whose first
    finger is on the lowest fret.
    """
    frets = [fret for _, fret in grip if fret]
    if not frets:
        return range(1, most + 1)
    low, high = min(frets), max(frets)
    if len(frets) > 2 or high - low >= HAND_FRETS:
        first, last = low, low
    elif len(frets) == 2:
        first, last = high - HAND_FRETS + 1, low
    else:
        first, last = low - HAND_FRETS, low + 1
    return range(max(1, min(first, most)), min(last, most) + 1)


class Way(NamedTuple):
    """A grip in a hand. Ways compare as readings choose: by cost, then by the sum of the frets, then string by string."""

    cost: int
    frets: int
    grip: Grip
    hand: int


def ways(event: Event, neck: Neck, reach: Sequence[int]) -> list[Way]:
    """Every grip of an event in every hand that plays it."""
    most = most_hands(neck)
    found = []
    for grip in grips(event, neck, reach):
        frets = sum(fret for _, fret in grip)
        opened = any(place[1] == 0 and note.fret is None for place, note in zip(grip, event, strict=True))
        for hand in hands(grip, most):
            found.append(Way(grip_cost(grip, hand, opened), frets, grip, hand))
    return found


def read(event: Event, neck: Neck, reach: Sequence[int]) -> Reading | None:
    """An event's reading, or None if no hand can play it. What it wishes of the event before is not looked at."""
    best: dict[int, Way] = {}
    for way in ways(event, neck, reach):
        known = best.get(way.hand)
        if known is None or way < known:
            best[way.hand] = way
    if not best:
        return None
    chosen = [best.get(hand) for hand in range(1, most_hands(neck) + 1)]
    return Reading(
        tuple(way.grip if way else None for way in chosen),
        bytes(way.cost if way else NEVER for way in chosen),
    )
