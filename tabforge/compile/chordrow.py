"""Chord rows: symbols read, and moved with the key."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tabforge.compile.frame import Frame
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.strokes import side_span
from tabforge.diagnostics.catalogue import music
from tabforge.model.harmony import ChordSymbol
from tabforge.source import Span
from tabforge.syntax.origins import Pointer
from tabforge.theory.chords import nearest_chord, parse_chord
from tabforge.theory.intervals import Interval, transpose_class


def read_chords(bars: Sequence[VoiceBar], frame: Frame, report: Report) -> None:
    """Reads the chord cells of every bar into its ``chords``."""
    for bar in bars:
        if "chords" not in bar.sides:
            continue
        found, at = bar.sides["chords"]
        symbols: list[ChordSymbol | None] = []
        for index, text in enumerate(found.texts):
            name, at_sign, shape_text = text.partition("@")
            symbol = None if text in (".", "?") else parse_chord(name)
            if symbol is None and text not in (".", "?"):
                report.add(
                    music.UNKNOWN_CHORD,
                    f"{text} is not a chord symbol",
                    at,
                    span=side_span(report, bar, "chords", index),
                    suggestion=nearest_chord(text),
                    expected="a root, a quality, perhaps a bass: Bbmaj7, F#m7b5, C/E; or N.C.",
                )
            if symbol and frame.move:
                symbol = moved(symbol, frame.move)
            if symbol and at_sign:
                symbol = _shaped(symbol, shape_text, frame, at, side_span(report, bar, "chords", index), report)
            symbols.append(symbol)
        bar.chords = tuple(symbols)


def _shaped(symbol: ChordSymbol, text: str, frame: Frame, at: Pointer, span: Span | None, report: Report) -> ChordSymbol:
    """The symbol with its grip; one that is moved to another key keeps its name alone, since a grip need not move."""
    parts = text.split(".") if "." in text else list(text)
    strings, last = len(frame.tuning), frame.neck.last
    good = len(parts) == strings and all(
        part == "x" or (part.isdigit() and len(part) < 3 and frame.neck.has(strings - index, int(part))) for index, part in enumerate(parts)
    )
    if not good:
        report.add(
            music.BAD_SHAPE,
            f"“{text}” is not a shape for {strings} strings",
            at,
            span=span,
            expected=f"{strings} signs from the lowest string, frets up to {last} or x: {'x' * (strings - 4)}0212"[:80],
        )
        return symbol
    if frame.move is not None:
        return symbol
    return replace(symbol, shape=tuple(None if part == "x" else int(part) for part in parts))


def moved(symbol: ChordSymbol, by: Interval) -> ChordSymbol:
    """A chord symbol moved by an interval."""
    if symbol.root is None:
        return symbol
    root = transpose_class(symbol.root, by, 1)
    bass = transpose_class(symbol.bass, by, 1) if symbol.bass else None
    return replace(symbol, root=root, bass=bass, text=f"{root}{symbol.suffix}" + (f"/{bass}" if bass else ""))

