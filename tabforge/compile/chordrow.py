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
            symbol = None if text in (".", "?") else parse_chord(text)
            if symbol is None and text not in (".", "?"):
                report.add(
                    music.UNKNOWN_CHORD,
                    f"{text} is not a chord symbol",
                    at,
                    span=side_span(report, bar, "chords", index),
                    suggestion=nearest_chord(text),
                    expected="a root, a quality, perhaps a bass: Bbmaj7, F#m7b5, C/E; or N.C.",
                )
            symbols.append(moved(symbol, frame.move) if symbol and frame.move else symbol)
        bar.chords = tuple(symbols)


def moved(symbol: ChordSymbol, by: Interval) -> ChordSymbol:
    """A chord symbol moved by an interval."""
    if symbol.root is None:
        return symbol
    root = transpose_class(symbol.root, by, 1)
    bass = transpose_class(symbol.bass, by, 1) if symbol.bass else None
    return replace(symbol, root=root, bass=bass, text=f"{root}{symbol.suffix}" + (f"/{bass}" if bass else ""))

