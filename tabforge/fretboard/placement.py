"""Placement: a string, a fret and a finger for every note of a line.

What may be played is in ``readings`` and ``fingers``, what is good in ``cost``, how the best is found in ``search``; this is the
room's front
door, and it says what could not be placed and why.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tabforge.fretboard.bonds import bound, sounding
from tabforge.fretboard.cost import NEXT, USUAL, Weights, hurried
from tabforge.fretboard.fingers import Fingers
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.obstacles import obstacle
from tabforge.fretboard.readings import Event, Wanted
from tabforge.fretboard.search import search
from tabforge.fretboard.stage import Way
from tabforge.fretboard.trouble import Kind, Trouble
from tabforge.limits import MAX_DIAGNOSTICS

__all__ = ["Placement", "Wanted", "fingered", "place"]


class Placement(NamedTuple):
    """A placed line: for each event the places of its notes and their fingers (1 to 4, ``reach.THUMB``, 0 for an open string or
    where no hand has a
    finger for it), in the order they were wanted in, and the fret under the first finger. ``()``, ``()`` and 0 where an event
    cannot be played. ``strokes``: in economy picking the pick's stroke for each event, "" where it is not picked; else empty.
    """

    places: list[tuple[Place, ...]]
    fingers: list[Fingers]
    hands: list[int]
    troubles: list[Trouble]
    strokes: list[str]


def place(wanted: Sequence[Event], neck: Neck) -> tuple[list[tuple[Place, ...]], list[Trouble]]:
    """The places and the troubles of ``fingered``, for the usual player and without hurry."""
    found = fingered(wanted, neck)
    return found.places, found.troubles


def fingered(
    wanted: Sequence[Event],
    neck: Neck,
    *,
    weights: Weights = USUAL,
    seconds: Sequence[float] | None = None,
    strokes: Sequence[str] | None = None,
    economy: bool = False,
) -> Placement:
    """A line placed and fingered, and what could not be.

    ``wanted`` holds the sounding events of one line in time order, each a tuple of one or more notes; rests and tied continuations are
    not passed. Where two voices sound on one neck, pass their onsets as one line, with the notes that sound on from the event
    before as ``held``. ``seconds`` tells for each event how long after it the next one begins, ``strokes`` how it is picked ("d",
    "u", "" or ``cost.LEGATO``). ``economy``: strokes are chosen with the places; then ``strokes`` has ``cost.NEXT`` for an event
    that is picked without a silence before it, "d" or "u" where the writer gives it.

    An event that cannot be played gets an empty tuple and a Trouble; the others are placed as if it were not there. After MAX_DIAGNOSTICS
    troubles nothing is looked for that could be played instead. A held note that must
    be let go gets the place (0, 0) and a Trouble of kind HELD, which is no error. The result is the cheapest by ``cost``, over all
    strings, frets, fingers and hands, the same every time for the same arguments.
    """
    plain = seconds is None and strokes is None and not economy
    ways = None if plain else _ways(len(wanted), seconds, strokes, economy)
    hands, placed, fingers, chosen = search(neck, weights, economy).line(wanted, ways)
    troubles = []
    if not all(placed):
        failed = [index for index, grip in enumerate(placed) if not grip]
        troubles = [obstacle(index, wanted[index], neck, number < MAX_DIAGNOSTICS, weights) for number, index in enumerate(failed)]
    if any(map(bound, wanted)):
        troubles += _cut_short(wanted, placed, neck)
        troubles.sort(key=lambda trouble: trouble.index)
    return Placement(placed, fingers, hands, troubles, chosen)


def _ways(count: int, seconds: Sequence[float] | None, strokes: Sequence[str] | None, economy: bool) -> list[Way]:
    """How each event is come to from the one before."""
    known: dict[tuple[float, str], Way] = {}
    first = strokes[0] if economy and strokes and strokes[0] != NEXT else ""
    ways = [Way(stroke=first)][:count]
    for index in range(1, count):
        stroke = (strokes[index] if strokes else NEXT) if economy else strokes[index - 1] if strokes and strokes[index] else ""
        key = (seconds[index - 1] if seconds else 1.0, stroke)
        way = known.get(key)
        if way is None:
            way = known[key] = Way(hurried(key[0]), stroke)
        ways.append(way)
    return ways


def _cut_short(wanted: Sequence[Event], placed: Sequence[tuple[Place, ...]], neck: Neck) -> list[Trouble]:
    """Held notes that could not stay where they were."""
    troubles = []
    before: tuple[Place, ...] = ()
    for index, (event, grip) in enumerate(zip(wanted, placed, strict=True)):
        for number, note in enumerate(event) if grip else ():
            was = sounding(note.midi, before, neck) if note.held and not note.rings else None
            if was is not None and grip[number] != was:
                troubles.append(Trouble(kind=Kind.HELD, index=index, note=number, midi=note.midi, string=was[0], fret=was[1]))
        before = grip or before
    return troubles
