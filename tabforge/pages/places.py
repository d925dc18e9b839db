"""The events of a section in their places, numbered: the thread from the score to what is engraved and back."""

from __future__ import annotations

from typing import NamedTuple

from tabforge.model.events import Event
from tabforge.model.score import Section


class Placed(NamedTuple):
    """An event in its place. ``number`` is its own within the section; ``bar`` counts from 0, ``voice`` is 0 or 1.

    ``tick`` is its written onset from the beginning of the section. A grace note has the onset of the note that it leads to.
    """

    number: int
    bar: int
    voice: int
    tick: int
    event: Event


def placed(section: Section) -> tuple[Placed, ...]:
    """All events of a section: bar by bar, in each bar voice by voice."""
    found: list[Placed] = []
    start = 0
    for index, bar in enumerate(section.bars):
        for voice, events in enumerate(bar.voices):
            for event in events:
                found.append(Placed(len(found), index, voice, start + event.onset, event))
        start += bar.ticks
    return tuple(found)


def staff_id(number: int, note: int) -> str:
    """The id of a note of an event on the staff; a rest is note 0."""
    return f"s{number}-{note}"


def tab_id(number: int, note: int) -> str:
    """The id of the same note on TAB."""
    return f"t{number}-{note}"
