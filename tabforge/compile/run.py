"""Runs: a scale laid out on the neck, walked, and cut into bars."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.compile.cells import Cells, cells
from tabforge.compile.cutting import HOLD, cut_into_bars
from tabforge.compile.durations import RhythmBar, rhythm_bar
from tabforge.compile.frame import Frame
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.sounding import Problem, Resolver, Sound, Want
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.explain import diagnose
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.layouts import Extent, Layout, Placed, lay_out
from tabforge.fretboard.neck import Neck
from tabforge.model.pitch import Pitch
from tabforge.source import Span
from tabforge.syntax.document import Block, LayoutSetting
from tabforge.syntax.origins import Pointer


def run_bars(block: Block, frame: Frame, at: Pointer, report: Report) -> list[VoiceBar]:
    """The bars of a run; none, with a finding, if it cannot be made."""
    if frame.scale is None:
        report.add(music.NO_SCALE, "a run needs a scale", at, expected="a line such as: scale Bb2 lydian")
        return []
    line = _line(block, frame, at, report)
    if not line:
        return []
    order = _walk(len(line), block.get("path", ["up"]), block.get("order", [1]))
    if not order:
        report.add(
            music.EMPTY_RUN,
            f"the sequence {' '.join(map(str, block.get('order', [1])))} is longer than the line of {len(line)} notes",
            (*at, "order"),
        )
        return []
    pattern = rhythm_bar(block.get("rhythm", "e"))
    span = report.origins.span(at)
    if not report.room_for(len(order), at):
        return []
    if pattern.troubles or pattern.quarters == 0:
        report.add(music.RUN_RHYTHM, _rhythm_trouble(pattern), (*at, "rhythm"))
        return []
    bars = cut_into_bars(len(order), pattern, frame.meter.quarters, frame.pickup, block.get("finish", "hold") == "hold")
    if bars is None:
        report.add(
            music.RUN_RHYTHM,
            f"a tuplet of this rhythm would lie across a bar line of {frame.meter}",
            (*at, "rhythm"),
            expected="a rhythm whose tuplets end where bars end",
        )
        return []
    sides = {word: cells(block[word]) for word in ("marks", "fingers", "picks") if block.get(word)}
    walked = [line[index] for index in order]
    return [_bar(rhythm, notes, walked, sides, at, span) for rhythm, notes in bars]


def _rhythm_trouble(pattern: RhythmBar) -> str:
    for kind, _, detail in pattern.troubles:
        if kind == "tuplet":
            return f"a tuplet of this rhythm is not filled; expected {detail}"
        return "this rhythm does not work out"
    return "grace notes alone fill no bar"


def _bar(rhythm: RhythmBar, notes: Sequence[int], walked: Sequence[Placed], sides: Sides, at: Pointer, span: Span) -> VoiceBar:
    sounds: list[Sound] = []
    for note in notes:
        if note >= 0:
            placed = walked[note]
            sounds.append((Want(placed.pitch, placed.string, placed.fret),))
        else:
            sounds.append(None if note == HOLD else ())
    found: dict[str, tuple[Cells, Pointer]] = {}
    for word, pattern in sides.items():
        texts, places = pattern.texts, pattern.places
        picked = [note % len(texts) if note >= 0 else -1 for note in notes]
        found[word] = (
            Cells(tuple([texts[each] if each >= 0 else "." for each in picked]), tuple([places[each] for each in picked])),
            (*at, word),
        )
    return VoiceBar(rhythm, sounds, [span] * len(sounds), found, at, (*at, "rhythm"))


Sides = dict[str, Cells]
"""Row → the pattern that is begun again under the notes."""


def _walk(count: int, path: Sequence[str], order: Sequence[int]) -> list[int]:
    """Indices into the ascending line. A sequence is played from every note that leaves room for it; downward it is mirrored."""
    reach = max(order)
    up = [start + step - 1 for start in range(count - reach + 1) for step in order]
    walked: list[int] = []
    for way in path:
        part = up if way == "up" else [count - 1 - index for index in up]
        # The note a plain line turns on is played once; a sequence keeps its groups whole.
        walked.extend(part[1:] if walked and part and len(order) == 1 and walked[-1] == part[0] else part)
    return walked


def _degrees(texts: Sequence[str], at: Pointer, resolver: Resolver, report: Report) -> list[Pitch]:
    found = []
    for sound in resolver.sounds("degrees", texts):
        if isinstance(sound, Problem):
            report.add(sound.code, sound.headline, at, expected=sound.expected, help=sound.help)
        elif sound and sound[0].pitch is not None:
            found.append(sound[0].pitch)
    return found


def _line(block: Block, frame: Frame, at: Pointer, report: Report) -> list[Placed]:
    """The ascending line on the neck."""
    assert frame.scale is not None
    resolver, before = Resolver(frame), report.errors()
    tones = _degrees(block["tones"], (*at, "tones"), resolver, report) if "tones" in block else None
    ends = {word: _one(block.get(word), (*at, word), resolver, report) for word in ("from", "to")}
    free: LayoutSetting = {"kind": "free"}
    layout = _layout(block.get("layout", free), frame, (*at, "layout"), resolver, report)
    if report.errors() > before:
        return []
    if ends["from"] and ends["to"] and ends["from"].midi > ends["to"].midi:
        report.add(music.EMPTY_RUN, f"from {block['from']} lies above to {block['to']}", (*at, "to"))
        return []
    extent = Extent(first=ends["from"], last=ends["to"], octaves=block.get("octaves"))
    placed, trouble = lay_out(layout, Ladder.of(frame.scale, tones), extent, frame.neck)
    if trouble is not None:
        place = (*at, "layout") if "layout" in block else at
        found = diagnose(trouble, report.origins.span(place), frame.neck)
        report.add(found.code, found.headline, place, label=found.label, expected=found.expected,
                   suggestion=found.suggestion, help=found.help, others=found.others)  # fmt: skip
        return []
    if not placed:
        report.add(music.EMPTY_RUN, "this run has no notes", at)
    return placed


def _one(text: object, at: Pointer, resolver: Resolver, report: Report) -> Pitch | None:
    found = _degrees([text], at, resolver, report) if isinstance(text, str) else []
    return found[0] if found else None


def _layout(given: LayoutSetting, frame: Frame, at: Pointer, resolver: Resolver, report: Report) -> Layout:
    count = len(frame.tuning)
    strings = [given[word] for word in ("from", "to", "string") if word in given]
    for string in strings:
        if string > count:
            report.add(
                music.NO_SUCH_STRING,
                f"there is no string {string}: this tuning has {count} strings",
                at,
                expected=f"a string from 1 to {count}",
            )
    fret = given.get("fret")
    if fret is not None and frame.move is not None:
        string = min(given.get("from", 1), count)
        fret = _moved(fret, string, 1 if given["kind"] in ("position", "shape") else 0, frame.move.semitones, frame.neck)
    degree = _one(given.get("degree"), (*at, "degree"), resolver, report)
    return Layout(
        kind=given["kind"],
        count=given.get("count", 3),
        from_string=given.get("from", given.get("string", count)),
        to_string=given.get("to", 1),
        fret=fret,
        degree=degree,
        shape=given.get("shape", ""),
    )


def _moved(fret: int, string: int, least: int, by: int, neck: Neck) -> int:
    """The fret of a layout in another key: where the pitch at that fret goes, in an octave that the string has."""
    midi = neck.midi_at(string, fret) + by
    while midi < neck.midi_at(string, least):
        midi += 12
    while midi > neck.midi_at(string, neck.last) and midi - 12 >= neck.midi_at(string, 0):
        midi -= 12
    return neck.fret_from(midi, string)
