"""The rhythm of one voice of one bar as ready pieces of XML, everything that does not depend on pitch.

Bars of the same rhythm share their pieces, which is what makes the writer fast: most bars of an exercise have one of a few rhythms.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from tabforge.model.events import Event
from tabforge.model.meter import Meter
from tabforge.model.values import Written
from tabforge.writers.musicxml.beams import Lines, beams
from tabforge.writers.musicxml.graces import grace_elements
from tabforge.writers.musicxml.layers import Layer
from tabforge.writers.musicxml.tuplets import time_modification, tuplet_elements, tuplets


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
        brackets = tuplet_elements(events, inside, groups, shown=stems) if inside else [""] * len(events)
        voice = f"<voice>{place.voice}</voice>"
        stem = "" if place.stem is None and stems else f"<stem>{place.stem if stems else 'none'}</stem>"
        full = int(place.meter.quarters * self._divisions)
        chord_foot = layer.staff_element
        start = '<note dynamics="0">' if layer.silent else "<note>"
        hidden = ' print-object="no"' if layer.silent else ""
        graces = grace_elements(events)
        frames = []
        for event, beam, tuplet, grace in zip(events, lines, brackets, graces, strict=True):
            timing = "" if grace else f"<duration>{event.ticks}</duration>"
            written = event.written
            kind = f"{voice}<type>{written.value.name}</type>{'<dot/>' * written.dots}"
            time = time_modification(written)
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
