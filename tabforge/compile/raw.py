"""A block's bars before they are timed: its voices as columns, its meters, tempos, signs and bar lines."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Final

from tabforge.compile.barlines import Boundary
from tabforge.compile.frame import Frame, meter_of, tempo_of_cell
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar, VoiceReader
from tabforge.compile.run import run_bars
from tabforge.compile.scales import key_changes
from tabforge.compile.sounding import Resolver
from tabforge.diagnostics.catalogue import music
from tabforge.model.meter import TEMPO_CHANGES, Meter, Tempo
from tabforge.model.score import Scale
from tabforge.syntax.document import Block, System
from tabforge.syntax.origins import Pointer


@dataclass(slots=True)
class Raw:
    """A block's bars before they are timed. ``scales``: what comes into force with each bar, if it does; empty if none ever does."""

    voices: list[list[VoiceBar]]
    meters: list[Meter]
    tempos: list[Tempo | None]
    changes: list[str | None]
    signs: list[str]
    boundaries: dict[int, Boundary]
    scales: list[Scale | None] = field(default_factory=list)

    @classmethod
    def empty(cls) -> Raw:
        """A block of no bars."""
        return cls([[]], [], [], [], [], {})


def _run(block: Block, frame: Frame, at: Pointer, report: Report) -> Raw:
    bars = run_bars(block, frame, at, report)
    return Raw([bars], [frame.meter] * len(bars), [None] * len(bars), [None] * len(bars), ["."] * len(bars), {})


def _riff(block: Block, frame: Frame, at: Pointer, report: Report) -> Raw:
    readers = [VoiceReader(Resolver(frame), report), VoiceReader(Resolver(frame), report)]
    raw = Raw([[], []], [], [], [], [], {})
    for number, system in enumerate(block.get("systems", ())):
        place: Pointer = (*at, "systems", number)
        scales = key_changes(system["key"], frame.neck, frame.move, (*place, "key"), report) if "key" in system else []
        before = readers[0].scale
        first = readers[0].read(system, place, scales)
        start = len(raw.voices[0])
        raw.voices[0].extend(first)
        if scales:
            raw.scales += [None] * (start - len(raw.scales)) + scales[: len(first)]
        if "voice2" in system:
            if before is not None and readers[1].scale is not before:
                readers[1].change(before)  # while the voice was silent
            second = readers[1].read(system["voice2"], (*place, "voice2"), scales, len(first))
            raw.voices[1].extend(_missing(raw.voices[1], start))
            raw.voices[1].extend(second[: len(first)])
        _beside(raw, system, place, start, len(first), frame, report)
    if not raw.voices[1]:
        raw.voices.pop()
    return raw


def _chords(block: Block, frame: Frame, at: Pointer, report: Report) -> Raw:
    from tabforge.compile.chordblock import chord_bars  # noqa: PLC0415  # only a study with chord blocks pays for the import

    raw = Raw.empty()
    start = 0
    for number, system in enumerate(block.get("systems", ())):
        place: Pointer = (*at, "systems", number)
        count = len(system["progression"])
        if "key" in system:
            scales = key_changes(system["key"], frame.neck, frame.move, (*place, "key"), report)
            raw.scales += [None] * (start - len(raw.scales)) + scales[:count]
        _beside(raw, system, place, start, count, frame, report)
        start += count
    raw.voices[0] = chord_bars(block, raw.meters, raw.scales, frame, at, report)
    return raw


RAW: Final[dict[str, Callable[[Block, Frame, Pointer, Report], Raw]]] = {"run": _run, "riff": _riff, "chords": _chords}
"""Kind of a block → what makes its bars."""


def _beside(raw: Raw, system: System, place: Pointer, start: int, count: int, frame: Frame, report: Report) -> None:
    """Takes what a system of so many bars says beside its voices: bar lines, meters, tempos and signs. ``start``: the bars before it."""
    for key, sign in system.get("barlines", {}).items():
        index = start + int(key)
        raw.boundaries.setdefault(index, Boundary((*place, "barlines", key))).take(sign)
    meter = raw.meters[-1] if raw.meters else frame.meter
    for index in range(count):
        meter = _meter(system.get("meter", ()), index, meter)
        raw.meters.append(meter)
        tempo = _cell(system.get("tempo", ()), index)
        raw.tempos.append(tempo_of_cell(tempo, meter) if tempo[-1:].isdigit() else None)
        raw.changes.append(tempo if tempo in TEMPO_CHANGES else None)
        raw.signs.append(_cell(system.get("signs", ()), index))
    for word in ("meter", "key", "tempo", "signs"):
        extra: Sequence[str] = system.get(word, ())  # type: ignore[assignment]  # a row
        if len(extra) > count > 0:
            report.add(music.BARS_DIFFER, f"the row of {word} has {len(extra)} bars, the notes have {count}", (*place, word, count))


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
