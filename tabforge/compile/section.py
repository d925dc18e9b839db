"""A block as a section of the score: bars of voices made into events, with meters, tempos and bar lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate
from typing import TypedDict

from tabforge.compile.assemble import events_of
from tabforge.compile.barlines import Boundary, bar_lines
from tabforge.compile.chordrow import read_chords
from tabforge.compile.frame import Frame, meter_of, tempo_of_cell
from tabforge.compile.hairpins import settle_hairpins
from tabforge.compile.lengths import bar_lengths
from tabforge.compile.marks import settle_marks
from tabforge.compile.metric import Metric, metric_of
from tabforge.compile.placing import place_strokes
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar, VoiceReader
from tabforge.compile.run import run_bars
from tabforge.compile.sounding import Resolver
from tabforge.compile.strokes import strokes_of
from tabforge.diagnostics.catalogue import music
from tabforge.model.events import Event
from tabforge.model.meter import TEMPO_CHANGES, Meter, Tempo
from tabforge.model.score import SIGNS, Bar, Section
from tabforge.syntax.document import Block
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


@dataclass(slots=True)
class Raw:
    """A block's bars before they are timed."""

    voices: list[list[VoiceBar]]
    meters: list[Meter]
    tempos: list[Tempo | None]
    changes: list[str | None]
    signs: list[str]
    boundaries: dict[int, Boundary]


def section_of(block: Block, title: str, frame: Frame, at: Pointer, shop: Workshop, report: Report) -> Section:
    """The section of a run or riff. What cannot be made out is reported and left out."""
    raw = Raw([[]], [], [], [], [], {})
    if not report.exhausted:
        raw = _run(block, frame, at, report) if block["kind"] == "run" else _riff(block, frame, at, report)
    if report.exhausted:
        raw = Raw([[]], [], [], [], [], {})
    return Section(
        title=title,
        tuning=frame.tuning,
        capo=frame.capo,
        partial_capo=frame.partial_capo,
        fretting=frame.neck.fretting,
        scale=frame.scale,
        swing=frame.swing,
        text=tuple(block.get("text", ())),
        span=report.origins.span(at),
        bars=_bars(raw, frame, shop, report),
    )


def _run(block: Block, frame: Frame, at: Pointer, report: Report) -> Raw:
    bars = run_bars(block, frame, at, report)
    return Raw([bars], [frame.meter] * len(bars), [None] * len(bars), [None] * len(bars), ["."] * len(bars), {})


def _riff(block: Block, frame: Frame, at: Pointer, report: Report) -> Raw:
    readers = [VoiceReader(Resolver(frame), report), VoiceReader(Resolver(frame), report)]
    raw = Raw([[], []], [], [], [], [], {})
    meter = frame.meter
    for number, system in enumerate(block.get("systems", ())):
        place: Pointer = (*at, "systems", number)
        first = readers[0].read(system, place)
        start = len(raw.voices[0])
        raw.voices[0].extend(first)
        if "voice2" in system:
            second = readers[1].read(system["voice2"], (*place, "voice2"), len(first))
            raw.voices[1].extend(_missing(raw.voices[1], start))
            raw.voices[1].extend(second[: len(first)])
        for key, sign in system.get("barlines", {}).items():
            index = start + int(key)
            raw.boundaries.setdefault(index, Boundary((*place, "barlines", key))).take(sign)
        for index in range(len(first)):
            meter = _meter(system.get("meter", ()), index, meter)
            raw.meters.append(meter)
            tempo = _cell(system.get("tempo", ()), index)
            raw.tempos.append(tempo_of_cell(tempo, meter) if tempo[-1:].isdigit() else None)
            raw.changes.append(tempo if tempo in TEMPO_CHANGES else None)
            raw.signs.append(_cell(system.get("signs", ()), index))
        for word in ("meter", "tempo", "signs"):
            extra: Sequence[str] = system.get(word, ())  # type: ignore[assignment]  # a row
            if len(extra) > len(first) > 0:
                report.add(
                    music.BARS_DIFFER,
                    f"the row of {word} has {len(extra)} bars, the notes have {len(first)}",
                    (*place, word, len(first)),
                )
    if not raw.voices[1]:
        raw.voices.pop()
    return raw


def _missing(bars: list[VoiceBar], count: int) -> list[VoiceBar]:
    """A second voice that is silent in earlier systems has no bars there; they are filled with rests when events are made."""
    return [SILENT] * (count - len(bars))


SILENT = VoiceBar.silent()


def _cell(row: Sequence[str], index: int) -> str:
    """A cell of a row with one for each bar; ``.`` past its end and where it could not be read."""
    return row[index] if index < len(row) and row[index] != "?" else "."


def _meter(row: Sequence[str], index: int, before: Meter) -> Meter:
    text = _cell(row, index)
    return meter_of(text) if text != "." else before


def _bars(raw: Raw, frame: Frame, shop: Workshop, report: Report) -> tuple[Bar, ...]:
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
    place_strokes(voices, frame, report, _pace(raw, frame, shop.divisions))
    events = [events_of(strokes, count, frame, report) for strokes in voices]
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
                partial=lengths[index].partial,
                tempo_change=raw.changes[index],
                **_signs(raw.signs[index]),
                span=report.origins.span(raw.voices[0][index].at),
            )
        )
    return tuple(made)


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
        return tuple([tuple([_earlier(event, offset) for event in voice]) for voice in found])
    return found


def _earlier(event: Event, offset: int) -> Event:
    return replace(event, onset=event.onset - offset)

