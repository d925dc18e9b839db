"""Grace notes: whose time they take."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from tabforge.model.events import Event

_STOLEN: Final = 25
"""Percent of the neighbour's time that the grace notes before one note take in all: quick, as plucked strings play them (no source)."""


def grace_elements(events: Sequence[Event]) -> list[str]:
    """The ``grace`` element of every grace note, empty for others. Grace notes in a row share the time they take."""
    elements = [""] * len(events)
    start = 0
    while start < len(events):
        end = start
        while end < len(events) and events[end].grace is not None and events[end].grace == events[start].grace:
            end += 1
        if end > start:
            share = max(1, _STOLEN // (end - start))  # whole numbers: a reader takes no others
            before = events[start].grace == "before"
            steal = f'steal-time-previous="{share}" slash="yes"' if before else f'steal-time-following="{share}" slash="no"'
            elements[start:end] = [f"<grace {steal}/>"] * (end - start)
        start = max(end, start + 1)
    return elements
