"""Second parts of a section: a drone and a vamp, as events placed on the neck like the block's own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import accumulate

from tabforge.compile.assemble import earlier, events_of
from tabforge.compile.drone import drone_bars
from tabforge.compile.frame import Frame
from tabforge.compile.metric import Metric
from tabforge.compile.places import BarPlace
from tabforge.compile.placing import place_strokes
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.strokes import strokes_of
from tabforge.compile.vamp import vamp_bars
from tabforge.model.events import Event
from tabforge.model.score import Backing
from tabforge.syntax.origins import Pointer


def backing_of(places: Sequence[BarPlace], metrics: list[Metric], frame: Frame, report: Report) -> tuple[Backing, ...]:
    """The second parts that are in force, in the order of ``model.score.BACKINGS``; ``metrics`` has each bar's. None in a study that has an
    error: then they are only looked through for what is wrong with them, and what a setting of the header has been told once is not
    told for every block.
    """
    own = report.fork()
    own.columns = report.columns
    frame, beside = replace(frame, strokes="written"), frame.beside
    made: list[tuple[str, str | None, list[VoiceBar], Pointer]] = []
    if beside.drone is not None:
        made.append(("drone", beside.drone.get("every"), drone_bars(places, beside.drone, frame, own), beside.drone_at))
    if beside.vamp is not None:
        made.append(("vamp", beside.vamp.get("every"), vamp_bars(places, beside.vamp, frame, own), beside.vamp_at))
    room = all(own.room_for(sum(len(bar.sounds) for bar in bars), at) for _, _, bars, at in made)
    found: list[Backing] = []
    if room and not report.errors() and not own.errors():
        for kind, every, bars, at in made:
            events = _events(bars, places, metrics, frame, own)
            part = Backing(kind=kind, bars=tuple(events), shown=beside.shown, every=every, span=report.origins.span(at))
            found.append(part)
    own.found = [each for index, each in enumerate(own.found) if each not in report.found and each not in own.found[:index]]
    report.absorb(own)
    return tuple(found)


def _events(
    bars: list[VoiceBar], places: Sequence[BarPlace], metrics: list[Metric], frame: Frame, report: Report
) -> list[tuple[Event, ...]]:
    divisions = metrics[0].divisions
    offsets = [int(place.offset * divisions) for place in places]
    ticks = [int(place.length * divisions) for place in places]
    starts = [start - offset for start, offset in zip(accumulate(ticks, initial=0), offsets, strict=False)]
    strokes = strokes_of(bars, metrics, offsets, starts, report)
    place_strokes([strokes], frame, report)
    events = events_of(strokes, len(bars), frame, report, [place.scale for place in places])
    return [tuple([earlier(event, offset) for event in own]) if offset else own for own, offset in zip(events, offsets, strict=True)]
