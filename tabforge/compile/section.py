"""A block as a section of the score: bars of voices made into events, with meters, tempos and bar lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import accumulate
from typing import TypedDict

from tabforge.compile.assemble import earlier, events_of
from tabforge.compile.barlines import bar_lines
from tabforge.compile.chordrow import read_chords
from tabforge.compile.frame import Frame, meter_of
from tabforge.compile.hairpins import settle_hairpins
from tabforge.compile.lengths import bar_lengths
from tabforge.compile.marks import settle_marks
from tabforge.compile.metric import Metric, metric_of
from tabforge.compile.placing import place_strokes
from tabforge.compile.raw import RAW, Raw
from tabforge.compile.report import Report
from tabforge.compile.strokes import strokes_of
from tabforge.diagnostics.catalogue import music
from tabforge.model.events import Event
from tabforge.model.meter import Meter
from tabforge.model.score import SIGNS, Backing, Bar, Scale, Section
from tabforge.syntax.document import Block
from tabforge.syntax.grammar import POISON
from tabforge.syntax.origins import Pointer


@dataclass(slots=True)
class Workshop:
    """What the blocks of one compilation share: the division of the quarter note and each meter's places."""

    divisions: int
    metrics: dict[Meter, Metric] = field(default_factory=dict)

    def metric(self, meter: Meter) -> Metric:
        """A meter's places; always the same object for the same meter."""
        known = self.metrics.get(meter)
        if known is None:
            known = self.metrics[meter] = metric_of(meter, self.divisions)
        return known


def section_of(block: Block, title: str, frame: Frame, at: Pointer, shop: Workshop, report: Report) -> Section:
    """The section of a run, a riff or a chord block. What cannot be made out is reported and left out."""
    frame = _begun_before_a_bar(block, frame, at, report)
    raw = Raw.empty() if report.exhausted else RAW[block["kind"]](block, frame, at, report)
    if report.exhausted:
        raw = Raw.empty()
    scale = raw.scales[0] or frame.scale if raw.scales else frame.scale
    bars, offsets = _bars(raw, replace(frame, strokes="written") if block["kind"] == "chords" else frame, shop, report)
    return Section(
        title=title,
        tuning=frame.tuning,
        capo=frame.capo,
        partial_capo=frame.partial_capo,
        fretting=frame.neck.fretting,
        scale=scale,
        swing=frame.swing,
        text=tuple(block.get("text", ())),
        span=report.origins.span(at),
        bars=bars,
        backing=_backing(bars, offsets, scale, frame, shop, report),
        click=frame.beside.click,
        count_in=frame.beside.count_in,
    )


def _begun_before_a_bar(block: Block, frame: Frame, at: Pointer, report: Report) -> Frame:
    """The frame without a pickup that is no shorter than a first bar of another meter than the block's, which is reported."""
    systems = block.get("systems")
    row = systems[0].get("meter") if systems else None
    if not frame.pickup or not row or row[0] in (".", POISON):
        return frame
    meter = meter_of(row[0])
    if frame.pickup < meter.quarters:
        return frame
    headline = f"the pickup is as long as a first bar of {meter} or longer"
    report.add(music.PICKUP_TOO_LONG, headline, (*at, "systems", 0, "meter", 0), expected=f"a pickup of less than {meter}")
    return replace(frame, pickup=Fraction(0))


def _backing(
    bars: Sequence[Bar], offsets: Sequence[int], scale: Scale | None, frame: Frame, shop: Workshop, report: Report
) -> tuple[Backing, ...]:
    """The second parts of a section whose bars are made."""
    if (frame.beside.drone is None and frame.beside.vamp is None) or not bars:
        return ()
    from tabforge.compile.backing import backing_of  # noqa: PLC0415  # only a study with second parts pays for the import
    from tabforge.compile.places import places_of  # noqa: PLC0415  # as the other

    return backing_of(places_of(bars, offsets, scale, shop.divisions), [shop.metric(bar.meter) for bar in bars], frame, report)


def _bars(raw: Raw, frame: Frame, shop: Workshop, report: Report) -> tuple[tuple[Bar, ...], list[int]]:
    """The bars of a block, and for each the ticks of its whole bar that lie before it."""
    count = len(raw.meters)
    lengths = bar_lengths(raw.voices, raw.meters, raw.boundaries, frame.pickup, report)
    lines = bar_lines(raw.boundaries, count, report)
    metrics = [shop.metric(meter) for meter in raw.meters]
    ticks = [int(length.quarters * shop.divisions) for length in lengths]
    offsets = [int(length.offset * shop.divisions) for length in lengths]
    starts = [start - offset for start, offset in zip(accumulate(ticks, initial=0), offsets, strict=False)]
    voices = []
    for bars in raw.voices:
        read_chords(bars, frame, report)
        voices.append(strokes_of(bars, metrics, offsets, starts, report))
    for strokes in voices:
        settle_marks(strokes, report)
        settle_hairpins(strokes, report)
    place_strokes(voices, frame, report, _pace(raw, frame, shop.divisions), metrics)
    force, changes = _scales(raw.scales, frame.scale, count)
    events = [events_of(strokes, count, frame, report, force) for strokes in voices]
    made = []
    for index in range(count):
        left, right = lines[index]
        made.append(
            Bar(
                meter=raw.meters[index],
                ticks=ticks[index],
                voices=_voices(events, index, offsets[index]),
                left=left,
                right=right,
                tempo=raw.tempos[index] or (frame.tempo if index == 0 else None),
                scale=changes[index] if changes else None,
                partial=lengths[index].partial,
                tempo_change=raw.changes[index],
                **_signs(raw.signs[index]),
                span=report.origins.span(raw.voices[0][index].at),
            )
        )
    return tuple(made), offsets


def _scales(given: Sequence[Scale | None], scale: Scale | None, count: int) -> tuple[list[Scale | None], list[Scale | None]]:
    """The scale in force in each bar, and what comes into force with it if that is another; nothing if nothing changes.

    A change with the first bar is the section's own scale.
    """
    if not any(given):
        return [], []
    force: list[Scale | None] = []
    changes: list[Scale | None] = []
    for index in range(count):
        new = given[index] if index < len(given) else None
        changes.append(new if index and new != scale else None)
        scale = new or scale
        force.append(scale)
    return force, changes


def _pace(raw: Raw, frame: Frame, divisions: int) -> list[float]:
    """Seconds a tick in each bar; empty if no tempo is said. Before the first tempo there is all the time one could want."""
    tempo = frame.tempo
    if tempo is None and not any(raw.tempos):
        return []
    found = []
    for own in raw.tempos:
        tempo = own or tempo
        found.append(60 / (tempo.quarters_per_minute * divisions) if tempo else 1.0)
    return found


class Signs(TypedDict, total=False):
    """What a cell of a signs row sets on its bar."""

    signs: tuple[str, ...]
    rehearsal: str
    new_line: bool


def _signs(cell: str) -> Signs:
    if cell == ".":
        return {}
    parts = cell.split("+")
    found: Signs = {"signs": tuple(part for part in parts if part in SIGNS), "new_line": "newline" in parts}
    for part in parts:
        if part.startswith("["):
            found["rehearsal"] = part[1:-1]
    return found


def _voices(events: Sequence[Sequence[tuple[Event, ...]]], index: int, offset: int) -> tuple[tuple[Event, ...], ...]:
    found = tuple([voice[index] for voice in events])
    if len(found) > 1 and not found[1]:
        found = found[:1]
    if offset:
        # Written values are found from a pickup's place in the whole bar; events count from where it begins.
        return tuple([tuple([earlier(event, offset) for event in voice]) for voice in found])
    return found

