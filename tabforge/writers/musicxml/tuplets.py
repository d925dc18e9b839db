"""Tuplets: which events each spans, the ratio its notes have, the sign that shows it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tabforge.model.events import Event
from tabforge.model.values import Ratio, Written


class Tuplet(NamedTuple):
    """One tuplet of a bar: its nesting level, its first and last event (indices), the ticks it begins and ends at."""

    level: int
    first: int
    last: int
    start: int
    end: int


def tuplets(events: Sequence[Event]) -> list[Tuplet]:
    """The tuplets of a voice, in the order they close."""
    found: list[Tuplet] = []
    begun: dict[int, int] = {}
    for index, event in enumerate(events):
        begun.update(dict.fromkeys(event.written.opens, index))
        for level in event.written.closes:
            first = begun[level]
            found.append(Tuplet(level, first, index, events[first].onset, event.onset + event.ticks))
    return found


def time_modification(written: Written) -> str:
    """The cumulative ratio of all tuplets around a note. The unit is named where one tuplet alone counts in another value."""
    if not written.tuplets:
        return ""
    actual = normal = 1
    for ratio in written.tuplets:
        actual, normal = actual * ratio.actual, normal * ratio.normal
    unit = written.units[0] if len(written.units) == 1 and written.units[0].name != written.value.name else None
    named = f"<normal-type>{unit.name}</normal-type>" if unit else ""
    return (
        f"<time-modification><actual-notes>{actual}</actual-notes><normal-notes>{normal}</normal-notes>{named}</time-modification>"
    )


def tuplet_elements(
    events: Sequence[Event], inside: Sequence[Tuplet], groups: Sequence[Sequence[int]], *, shown: bool
) -> list[str]:
    """The ``tuplet`` elements of every event. No bracket where one beam covers exactly the tuplet (common practice, no source)."""
    opening: list[list[str]] = [[] for _ in events]
    closing: list[list[str]] = [[] for _ in events]
    whole = {(group[0], group[-1], len(group)) for group in groups}
    for tuplet in sorted(inside, key=lambda each: each.level):
        number = tuplet.level + 1
        unseen = f'<tuplet type="start" number="{number}" bracket="no" show-number="none"/>'
        opening[tuplet.first].append(_tuplet_start(events, tuplet, whole) if shown else unseen)
        closing[tuplet.last].insert(0, f'<tuplet type="stop" number="{number}"/>')
    return ["".join(starts + stops) for starts, stops in zip(opening, closing, strict=True)]


def _tuplet_start(events: Sequence[Event], tuplet: Tuplet, whole: set[tuple[int, int, int]]) -> str:
    written = events[tuplet.first].written
    ratio, unit = written.tuplets[tuplet.level], written.units[tuplet.level]
    size = sum(event.grace is None for event in events[tuplet.first : tuplet.last + 1])
    bracket = "no" if (tuplet.first, tuplet.last, size) in whole else "yes"
    number = "actual" if _usual(ratio) else "both"
    portion = "<tuplet-{0}><tuplet-number>{1}</tuplet-number><tuplet-type>{2}</tuplet-type></tuplet-{0}>"
    return (
        f'<tuplet type="start" number="{tuplet.level + 1}" bracket="{bracket}" show-number="{number}">'
        f"{portion.format('actual', ratio.actual, unit.name)}{portion.format('normal', ratio.normal, unit.name)}</tuplet>"
    )


def _usual(ratio: Ratio) -> bool:
    """Whether the first number alone is understood: 3 in the time of 2, 2 in the time of 3, 5 to 7 in the time of 4, and so on."""
    power = ratio.normal & (ratio.normal - 1) == 0
    return (ratio.actual, ratio.normal) in {(2, 3), (4, 3), (8, 6)} or (power and ratio.normal < ratio.actual < 2 * ratio.normal)
