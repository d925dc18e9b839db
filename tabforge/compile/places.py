"""The bars of a section as second parts see them: where each stands in its meter, and where a part that is struck evenly is struck."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from tabforge.compile.durations import Piece, RhythmBar, Slot
from tabforge.model.meter import Meter
from tabforge.model.score import Bar, Scale

SHORTEST: Final = Fraction(1, 8)
"""Quarter notes of a thirty-second: onsets of second parts are whole numbers of it."""


@dataclass(frozen=True, slots=True)
class BarPlace:
    """A bar. ``length`` is its real length and ``offset`` what of its whole bar lies before it, in quarter notes; ``scale`` is in force.

    ``pieces`` are how the first voice fills it where plain values do not (a pickup of a double-dotted thirty-second); else empty. Such
    a bar is struck at its beginning alone.
    """

    meter: Meter
    length: Fraction
    offset: Fraction
    scale: Scale | None
    pieces: tuple[Piece, ...] = ()


def places_of(bars: Sequence[Bar], offsets: Sequence[int], scale: Scale | None, divisions: int) -> list[BarPlace]:
    """The places of a section's bars. ``offsets``: ticks of the whole bar that lie before each; ``scale`` is in force where it begins."""
    found = []
    for bar, before in zip(bars, offsets, strict=True):
        scale = bar.scale or scale
        length, offset = Fraction(bar.ticks, divisions), Fraction(before, divisions)
        plain = not (length % SHORTEST or offset % SHORTEST)
        pieces = () if plain else tuple(Piece(each.written, Fraction(each.ticks, divisions)) for each in bar.voices[0] if each.ticks)
        found.append(BarPlace(bar.meter, length, offset, scale, pieces))
    return found


def grid(places: Sequence[BarPlace], every: Fraction) -> list[list[Fraction]]:
    """Where in each bar something is struck that is struck again after every so many quarter notes; from the first whole bar on.

    It is counted anew from each bar line, unless it is longer than the bar: then through the bars from where it was struck last.
    """
    found: list[list[Fraction]] = []
    at, due = Fraction(0), Fraction(0)
    for index, place in enumerate(places):
        end = at + place.length
        if index == 0 and place.offset:
            found.append([])
            due = end
        elif every <= place.meter.quarters:
            first = -(-place.offset // every) * every - place.offset
            count = max(0, -((first - place.length) // every))
            found.append([first + every * number for number in range(int(count))])
            due = end
        else:
            due = max(due, at)
            struck = []
            while due < end:
                struck.append(due - at)
                due += every
            found.append(struck)
        if place.pieces:
            found[-1] = [onset for onset in found[-1] if not onset]
        at = end
    return found


def rhythm_at(place: BarPlace, onsets: Sequence[Fraction]) -> RhythmBar:
    """A bar whose columns begin at these onsets, the first of them 0."""
    if place.pieces:
        return RhythmBar((Slot(place.length, place.pieces, 0),), place.length)
    ends = [*onsets, place.length][1:]
    return RhythmBar(tuple([Slot(end - onset, ()) for onset, end in zip(onsets, ends, strict=True)]), place.length)
