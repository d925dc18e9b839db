"""Readings: the grips that an event can be played with, a string and a fret for each of its notes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final, NamedTuple

from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import FINGERS, fingers_needed


class Wanted(NamedTuple):
    """A note to be placed. ``midi`` is the pitch of the fretted string; ``string`` and ``fret`` pin it (from 1, and from the capo), and so
    does ``finger``: 1 to 4, ``reach.THUMB``, or 0 for an open string. ``cents`` is what the pitch is above ``midi``.

    A pinned fret is never overruled: if another pitch lies there, that is trouble. A dead note is pinned to its string and a fret, and
    its ``midi`` is the pitch of that place. Two wishes look back at the event before: ``held``, the note sounds on from it and should stay
    where it was; ``linked``, a hammer-on, pull-off or slide leads to the note, which should lie on a string of that event. ``slid``: it is
    a slide that leads to it, and one finger plays both; what is hammered on or pulled off has a finger of its own. ``rings``: the note is
    held because it was marked to ring, and may be let go where it must.
    """

    midi: int
    string: int | None = None
    fret: int | None = None
    held: bool = False
    linked: bool = False
    finger: int | None = None
    cents: int = 0
    rings: bool = False
    slid: bool = False


Event = tuple[Wanted, ...]
Grip = tuple[Place, ...]

LET_GO: Final[Place] = (0, 0)
"""Stands in a grip for a held note that had to be let go."""

MOST_TRIES: Final = 1000
"""Steps of looking for one chord's grips, those with lower frets first. Chords on six to eight strings took 430 at most when it was
measured; only many notes on twelve strings in near unison come near the limit, and then the best of what was found is taken.
"""


def options(note: Wanted, neck: Neck) -> tuple[Place, ...]:
    """The places where a note can be played as it is pinned."""
    places = neck.places(note.midi, note.cents) if note.cents else neck.places(note.midi)
    if note.string is not None:
        places = tuple(place for place in places if place[0] == note.string)
    if note.fret is not None:
        places = tuple(place for place in places if place[1] == note.fret)
    elif note.finger is not None:
        fitting = tuple(place for place in places if (place[1] == 0) == (note.finger == 0))
        places = fitting or places
    return places


def pinned_whole(event: Event) -> bool:
    """Whether every note of an event is pinned to its place, so that its grip stands whatever a hand says."""
    return all(note.string and note.fret is not None for note in event)


def grips(event: Event, neck: Neck, reach: Sequence[int]) -> list[Grip]:
    """Playable grips: each note on a string of its own, all fingers within reach, open strings free.

    ``reach`` is ``reach.farthest`` of the neck. Where every note is pinned to a fret, the grip stands whatever its stretch.
    """
    choices = [options(note, neck) for note in event]
    if len(event) == 1:
        return [(place,) for place in choices[0]]
    if pinned_whole(event):
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
