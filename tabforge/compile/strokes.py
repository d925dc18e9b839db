"""Strokes: every column that begins something, in time order, with all that hangs on it. They become events once they are placed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from tabforge.compile.markcells import column_marks
from tabforge.compile.metric import Atom, Metric
from tabforge.compile.plan import bar_plan
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.sounding import Want
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.neck import Place
from tabforge.model.events import DYNAMICS, HAIRPINS, NOTHING_ATTACHED, Attached, Word
from tabforge.model.techniques import Mark
from tabforge.source import Span
from tabforge.syntax.origins import Pointer

SILENT: Final = frozenset({"fermata"})
"""Techniques that a silence may have as well as a sound."""


@dataclass(slots=True)
class Stroke:
    """Something that begins: a note or chord (``wants``), a rest (``()``), or the rest of a held sound (None).

    ``own`` marks as written, ``carries`` whether ``-`` carries earlier ones on; ``note_marks`` and ``event_marks`` are settled by the marks
    pass. ``places`` and ``tied`` (goes on in the next stroke) are settled by placement and holds.
    """

    bar: int
    start: int
    atoms: tuple[Atom, ...]
    grace: str | None
    wants: tuple[Want, ...] | None
    span: Span
    at: Pointer
    marks_at: tuple[VoiceBar, int] | None = None
    own: tuple[Mark, ...] = ()
    carries: bool = False
    fingers: tuple[str, ...] = ()
    plucks: tuple[str, ...] = ()
    attached: Attached = NOTHING_ATTACHED
    swell: str | None = None
    swells_on: Span | None = None
    """Where ``-`` carries a hairpin on."""
    places: tuple[Place, ...] = ()
    tied: bool = False
    event_marks: tuple[Mark, ...] = ()
    note_marks: tuple[Mark, ...] = ()


def strokes_of(bars: list[VoiceBar], metrics: list[Metric], offsets: list[int], starts: list[int], report: Report) -> list[Stroke]:
    """The strokes of a voice. ``starts`` are the bars' first ticks in the block."""
    strokes: list[Stroke] = []
    sounded = False
    for number, bar in enumerate(bars):
        sides = bar.sides
        seen = {index for word in sides for index in _seen(bar, word)} if sides else ()
        kinds = []
        for index, sound in enumerate(bar.sounds):
            if sound:
                kinds.append("n")
                sounded = True
            elif sound is None:
                if not sounded:
                    report.add(music.NOTHING_TO_HOLD, "there is nothing to hold yet", bar.at, span=bar.spans[index])
                    sounded = True
                kinds.append("H" if index in seen else "=")
            else:
                kinds.append("r")
        plan = bar_plan(bar.rhythm, metrics[number], offsets[number], "".join(kinds))
        start, spans, sounds, slots = starts[number], bar.spans, bar.sounds, bar.rhythm.slots
        built: list[Stroke | None] = []
        for index, atoms in enumerate(plan):
            if atoms:
                stroke = Stroke(number, start, atoms, slots[index].grace, sounds[index], spans[index], bar.at)
                strokes.append(stroke)
                built.append(stroke)
            else:
                built.append(None)
        for word in sides:
            _ATTACH[word](bar, word, built, report)
    return strokes


def _seen(bar: VoiceBar, word: str) -> list[int]:
    """Columns at which a side row says something that must not be lost in a held sound."""
    return [index for index, text in enumerate(bar.sides[word][0].texts) if text not in (".", "-", "?")]


def _marks(bar: VoiceBar, word: str, built: list[Stroke | None], report: Report) -> None:
    found, at = bar.sides[word]
    for index, text in enumerate(found.texts):
        if text == "." or text == "?":
            continue
        stroke = built[index]
        if stroke is not None:
            stroke.own, stroke.carries = column_marks(text)
            stroke.marks_at = (bar, index)
            if stroke.wants == () and any(mark.technique.name not in SILENT for mark in stroke.own):
                names = " and ".join(mark.technique.name for mark in stroke.own)
                rings = any(mark.technique.name in ("let ring", "palm mute") for mark in stroke.own)
                report.add(
                    music.MARK_ON_REST,
                    f"{names} is marked on a rest, where nothing is struck",
                    at,
                    span=side_span(report, bar, word, index),
                    expected="a note to stand under",
                    help="one that began on a note before is carried on over a rest with -" if rings else None,
                )


def side_span(report: Report, bar: VoiceBar, word: str, index: int) -> Span | None:
    """The place of a side row's cell."""
    found, at = bar.sides[word]
    starts = report.origins.starts(at)
    return Span(starts[found.places[index]], starts[found.places[index]] + len(found.texts[index])) if starts else None


def mark_place(stroke: Stroke, report: Report) -> tuple[Pointer, Span]:
    """Where the marks of a stroke are written."""
    if stroke.marks_at is None:
        return stroke.at, stroke.span
    bar, index = stroke.marks_at
    at = bar.sides["marks"][1]
    return at, side_span(report, bar, "marks", index) or report.origins.span(at)


def _fingers(bar: VoiceBar, word: str, built: list[Stroke | None], report: Report) -> None:
    found, at = bar.sides[word]
    for index, text in enumerate(found.texts):
        if text == "." or text == "?":
            continue
        stroke, parts = built[index], tuple(text.split("+"))
        wants = stroke.wants if stroke else None
        span = side_span(report, bar, word, index)
        if not wants:
            what = "a rest" if wants == () else "a held note"
            report.add(music.WORDS_ON_NOTHING, f"{text} in the row of {word} stands under {what}", at, span=span)
            continue
        assert stroke is not None
        if word == "picks" and parts[0] in "du":
            stroke.attached = replace(stroke.attached, stroke=parts[0])
            if len(parts) > 1:
                report.add(music.FINGERS_DIFFER, f"{text} is not one stroke", at, span=span, expected="d, u, or plucking fingers: p+i+m")
        elif len(parts) not in (1, len(wants)):
            report.add(
                music.FINGERS_DIFFER,
                f"{len(parts)} {word} stand under {len(wants)} notes",
                at,
                span=span,
                expected=f"{len(wants)} joined with +, in the order of the notes",
            )
        else:
            parts = parts * len(wants) if len(parts) == 1 and word == "picks" else parts
            if word == "fingers":
                # One finger under a chord is a barre: it lies on every note.
                stroke.fingers = parts * len(wants) if len(parts) == 1 else parts
            else:
                stroke.plucks = parts


def _words(bar: VoiceBar, word: str, built: list[Stroke | None], report: Report) -> None:
    for index, text in enumerate(bar.sides[word][0].texts):
        stroke = built[index]
        if text == "." or text == "?" or stroke is None:
            continue
        quoted = text.startswith('"')
        hyphen = not quoted and len(text) > 1 and text.endswith("-")
        syllable = Word(text=text[1:-1] if quoted else text[:-1] if hyphen else text, hyphen=hyphen)
        stroke.attached = replace(stroke.attached, word=syllable)


def _chords(bar: VoiceBar, word: str, built: list[Stroke | None], report: Report) -> None:
    for symbol, stroke in zip(bar.chords, built, strict=False):
        if symbol is not None and stroke is not None:
            stroke.attached = replace(stroke.attached, chord=symbol)


def _dynamics(bar: VoiceBar, word: str, built: list[Stroke | None], report: Report) -> None:
    for index, text in enumerate(bar.sides[word][0].texts):
        stroke = built[index]
        if text in DYNAMICS and stroke is not None:
            stroke.attached = replace(stroke.attached, dynamic=text)
        if text in HAIRPINS and stroke is not None:
            stroke.swell = HAIRPINS[text]
        if text == "-" and stroke is not None:
            stroke.swells_on = side_span(report, bar, word, index) or stroke.span


_ATTACH: dict[str, Callable[[VoiceBar, str, list[Stroke | None], Report], None]] = {
    "marks": _marks,
    "dynamics": _dynamics,
    "fingers": _fingers,
    "picks": _fingers,
    "words": _words,
    "chords": _chords,
}
