"""The rhythm of one voice of one bar as ready pieces of XML, everything that does not depend on pitch.

Bars of the same rhythm share their pieces, which is what makes the writer fast: most bars of an exercise have one of a few rhythms.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tabforge.model.events import Event
from tabforge.model.meter import Meter
from tabforge.model.values import Ratio, Written
from tabforge.writers.musicxml.beams import Lines, Tuplet, beams, tuplets
from tabforge.writers.musicxml.layers import Layer


class Frame(NamedTuple):
    """The pieces of one event, in the order the ``note`` element has them; user data goes between.

    ``opening`` [chord, pitch] ``timing`` [ties] ``kind`` [accidental] ``shape`` [notehead] ``foot`` [notations, lyric, play]. ``before``
    and ``after`` are the joined pieces of a note with nothing between; ``chord_foot`` is the foot of a chord's further notes; ``rest``
    a whole plain rest; ``tuplets`` the tuplet elements that belong into the notations (on a notation staff ``after`` has them already).
    """

    opening: str
    timing: str
    kind: str
    shape: str
    foot: str
    chord_foot: str
    tuplets: str
    before: str
    after: str
    rest: str


class Place(NamedTuple):
    """What else decides the pieces of a bar: its meter, length, the ticks missing before it, and the stems' direction (or None)."""

    meter: Meter
    ticks: int
    shift: int
    stem: str | None
    voice: int


class Rhythms:
    """The rhythms of one layer. ``frames`` gives the pieces of a voice's events."""

    def __init__(self, layer: Layer, divisions: int) -> None:
        self._layer = layer
        self._divisions = divisions
        self._numbers: dict[int, int] = {}
        self._by_value: dict[Written, int] = {}
        self._known: dict[tuple[object, ...], tuple[Frame, ...]] = {}

    def frames(self, events: Sequence[Event], place: Place) -> tuple[Frame, ...]:
        """One frame for each event."""
        numbers = self._numbers
        try:
            codes = [numbers[id(event.written)] if event.notes else -numbers[id(event.written)] for event in events]
        except KeyError:
            # Two objects of one value get one number. An id is safe as a key: the score keeps its objects alive while it is written.
            for event in events:
                number = self._by_value.setdefault(event.written, len(self._by_value) + 1)
                numbers[id(event.written)] = number
            codes = [numbers[id(event.written)] if event.notes else -numbers[id(event.written)] for event in events]
        graces = tuple([(at, event.grace) for at, event in enumerate(events) if not event.ticks])
        key = (*codes, graces, place.meter.groups, place.meter.unit, *place[1:])
        known = self._known.get(key)
        if known is None:
            known = self._known[key] = tuple(self._build(events, place))
        return known

    def _build(self, events: Sequence[Event], place: Place) -> list[Frame]:
        layer = self._layer
        lines: Sequence[Lines] = [()] * len(events)
        groups: list[list[int]] = []
        stems = not layer.silent
        inside = tuplets(events)
        if stems:
            lines, groups = beams(events, inside, place.meter, self._divisions, place.shift)
        brackets = _tuplet_elements(events, inside, groups, shown=stems) if inside else [""] * len(events)
        voice = f"<voice>{place.voice}</voice>"
        stem = "" if place.stem is None and stems else f"<stem>{place.stem if stems else 'none'}</stem>"
        full = int(place.meter.quarters * self._divisions)
        chord_foot = layer.staff_element
        start = '<note dynamics="0">' if layer.silent else "<note>"
        hidden = ' print-object="no"' if layer.silent else ""
        graces = _grace_elements(events)
        frames = []
        for event, beam, tuplet, grace in zip(events, lines, brackets, graces, strict=True):
            timing = "" if grace else f"<duration>{event.ticks}</duration>"
            written = event.written
            kind = f"{voice}<type>{written.value.name}</type>{'<dot/>' * written.dots}"
            time = _time_modification(written)
            own_stem = f"<stem>{place.stem or 'up'}</stem>" if grace and stems else stem
            foot = chord_foot + "".join(f'<beam number="{number}">{value}</beam>' for number, value in enumerate(beam, 1))
            notations = f"<notations>{tuplet}</notations>" if tuplet else ""
            if event.ticks == full == place.ticks:
                rest = f'<note{hidden}><rest measure="yes"/>{timing}{voice}{chord_foot}'
            else:
                rest = f"<note{hidden}><rest/>{timing}{kind}{time}{chord_foot}"
            frames.append(
                Frame(
                    opening=start + grace,
                    timing=timing,
                    kind=kind,
                    shape=time + own_stem,
                    foot=foot,
                    chord_foot=chord_foot,
                    tuplets=tuplet,
                    before=timing + kind,
                    after=time + own_stem + foot + ("" if layer.tab else notations),
                    rest=rest,
                )
            )
        return frames


def _time_modification(written: Written) -> str:
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


def _tuplet_elements(
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


_STOLEN = 25
"""Percent of the neighbour's time that the grace notes before one note take in all: quick, as plucked strings play them (no source)."""


def _grace_elements(events: Sequence[Event]) -> list[str]:
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
