"""Chords as they are written in a row: names and numerals read, and moved with the key; the symbols of a riff's chord row."""

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

Shape = tuple[int | None, ...]
"""A grip as a chord symbol has it: a fret for each string from the lowest, None for one that is not played."""


def read_chords(bars: Sequence[VoiceBar], frame: Frame, report: Report) -> None:
    """Reads the chord cells of every bar into its ``chords``. A bar that has its symbols keeps them."""
    for bar in bars:
        if "chords" not in bar.sides or bar.chords:
            continue
        found, at = bar.sides["chords"]
        own = frame if bar.scale is None else replace(frame, scale=bar.scale)
        symbols: list[ChordSymbol | None] = []
        for index, text in enumerate(found.texts):
            if text in (".", "?"):
                symbols.append(None)
                continue
            symbol, shape = chord_of(text, own, at, side_span(report, bar, "chords", index), report)
            # A chord that is moved to another key keeps its name alone, since a grip need not move.
            symbols.append(replace(symbol, shape=shape) if symbol and shape and frame.move is None else symbol)
        bar.chords = tuple(symbols)


def chord_of(text: str, frame: Frame, at: Pointer, span: Span | None, report: Report) -> tuple[ChordSymbol | None, Shape | None]:
    """The chord that a cell such as ``V7``, ``Am7`` or ``C@x32010`` names in the key in force, and its shape as it is written.

    A cell that names none is reported. A numeral moves with its scale, a name with the key.
    """
    name, at_sign, shape_text = text.partition("@")
    symbol = parse_chord(name)
    if symbol is None:
        symbol = _numeral(name, frame, at, span, report)
    elif frame.move:
        symbol = moved(symbol, frame.move)
    shape = _shape(shape_text, frame, at, span, report) if symbol and at_sign else None
    return symbol, shape


def _numeral(name: str, frame: Frame, at: Pointer, span: Span | None, report: Report) -> ChordSymbol | None:
    """The chord of a roman numeral; what is no numeral either is reported."""
    import re  # noqa: PLC0415  # as roman numerals, for the cells that are no names

    from tabforge.theory.roman import NUMERAL_TEXT, read_numeral  # noqa: PLC0415

    if not re.fullmatch(NUMERAL_TEXT, name):
        report.add(
            music.UNKNOWN_CHORD,
            f"{name} is not a chord symbol",
            at,
            span=span,
            suggestion=nearest_chord(name),
            expected="a root, a quality, perhaps a bass: Bbmaj7, F#m7b5, C/E; a numeral: ii7, V7, bVII; or N.C.",
        )
        return None
    if frame.scale is None:
        report.add(
            music.NO_SCALE, f"the numeral {name} needs a scale to be counted in", at, span=span, expected="a line such as: scale C3 major"
        )
        return None
    symbol = read_numeral(name, frame.scale)
    if symbol is None:
        scale = f"{frame.scale.root.pitch_class} {frame.scale.name}"
        report.add(
            music.UNKNOWN_CHORD,
            f"{name} names no chord in {scale}",
            at,
            span=span,
            expected="a numeral of a degree that the scale has, large for a major third and small for a minor one: I, ii7, V7, vii°",
            help=f"{scale} has the degrees {' '.join(frame.scale.labels)}; another is counted against the major scale: bVI, nVII, #IV",
        )
    return symbol


def _shape(text: str, frame: Frame, at: Pointer, span: Span | None, report: Report) -> Shape | None:
    """A shape such as ``x32010``; one that the neck does not have is reported."""
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
        return None
    return tuple(None if part == "x" else int(part) for part in parts)


def moved(symbol: ChordSymbol, by: Interval) -> ChordSymbol:
    """A chord symbol moved by an interval."""
    if symbol.root is None:
        return symbol
    root = transpose_class(symbol.root, by, 1)
    bass = transpose_class(symbol.bass, by, 1) if symbol.bass else None
    return replace(symbol, root=root, bass=bass, text=f"{root}{symbol.suffix}" + (f"/{bass}" if bass else ""))
