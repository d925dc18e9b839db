"""Swing: pairs of a value played long–short.

The first half of a pair is stretched and the second shortened, and with it what is shorter than half a pair. A tuplet that fills whole
pairs has a rhythm of its own and is played as written; so is what stands in a meter whose beats are three (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from tabforge.model.events import Event
from tabforge.model.meter import Swing
from tabforge.model.score import Bar

Times = Callable[[Sequence[Event]], list[tuple[int, int]]]
"""Events of one voice of a bar → when each begins and ends, in ticks from the beginning of the bar."""


def as_written(events: Sequence[Event]) -> list[tuple[int, int]]:
    """Onsets and ends as they stand."""
    return [(event.onset, event.onset + event.ticks) for event in events]


def swung(swing: Swing | None, bar: Bar, shift: int, divisions: int) -> Times:
    """How a bar's events are timed. ``shift``: ticks of the whole bar that are missing before it."""
    half = int(swing.value.quarters * divisions) if swing is not None else 0
    if swing is None or bar.meter.compound or not half:
        return as_written
    whole = 2 * half
    long = whole * swing.first // (swing.first + swing.second)
    end = (shift + bar.ticks) // whole * whole  # a half pair at the end has no partner

    def moved(tick: int) -> int:
        place = tick + shift
        if place >= end:
            return tick
        inside = place % whole
        if inside < half:
            return tick - inside + inside * long // half
        return tick - inside + long + (inside - half) * (whole - long) // half

    def times(events: Sequence[Event]) -> list[tuple[int, int]]:
        straight = _whole_tuplets(events, shift, whole)
        return [
            (event.onset, event.onset + event.ticks) if index in straight else (moved(event.onset), moved(event.onset + event.ticks))
            for index, event in enumerate(events)
        ]

    return times


_OUTERMOST: Final = 0


def _whole_tuplets(events: Sequence[Event], shift: int, whole: int) -> set[int]:
    """Numbers of the events in tuplets that begin and end with pairs."""
    found: set[int] = set()
    start: int | None = None
    for index, event in enumerate(events):
        if _OUTERMOST in event.written.opens:
            start = index
        if start is not None and _OUTERMOST in event.written.closes:
            begins, ends = events[start].onset + shift, event.onset + event.ticks + shift
            if begins % whole == 0 and ends % whole == 0:
                found.update(range(start, index + 1))
            start = None
    return found
