"""Chord charts: every grip of a section, drawn above its first system.

A chart is the neck held upright: strings are columns, string 1 at the right (at the left for a left-handed player); each line is a fret.
``x`` over a string that is not played, ``o`` over an open one, ``*`` where a finger lies. Below the nut ``===`` the first line is
fret 1; a chart that lies higher has ``---`` instead, and its first fret's number at the right. All this is common practice of chord
charts, no source.
"""

from __future__ import annotations

from collections import Counter
from typing import Final

from tabforge.diagrams.frames import Shape, frets_of
from tabforge.model.events import NOTHING_ATTACHED
from tabforge.model.harmony import ChordSymbol
from tabforge.model.score import Section
from tabforge.source import Span
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.plain import cut, width_of
from tabforge.writers.loss import Loss

GAP: Final = 3
NOT_PLAYED: Final = "x"
_TOP: Final = 1
"""The line of a chart that has what stands over its strings."""


def compact(shape: Shape) -> str:
    """A grip on one line, string 1 last: ``x32010``, or ``x-10-12-12-11-10`` where a fret has two digits."""
    frets = [NOT_PLAYED if fret is None else str(fret) for fret in shape]
    return ("-" if max(map(len, frets)) > 1 else "").join(frets)


def grips(section: Section) -> dict[tuple[str, Shape], Span]:
    """The section's grips by name and shape, in the order they come, each with the place it comes first."""
    found: dict[tuple[str, Shape], Span] = {}
    for bar in section.bars:
        for events in bar.voices:
            for event in events:
                if event.attached is not NOTHING_ATTACHED:
                    chord = event.attached.chord
                    if chord is not None and chord.shape:
                        found.setdefault((chord.text, chord.shape), event.span)
    return found


def ambiguous(found: dict[tuple[str, Shape], Span]) -> frozenset[str]:
    """Names that stand for more than one grip."""
    counts = Counter(name for name, _ in found)
    return frozenset(name for name, count in counts.items() if count > 1)


def symbol(chord: ChordSymbol, names: frozenset[str]) -> str:
    """What stands over a bar for a chord: its name, with its grip if the name alone does not tell which."""
    return f"{chord.text} {compact(chord.shape)}" if chord.shape and chord.text in names else chord.text


def charts(section: Section, found: dict[tuple[str, Shape], Span], left_handed: bool, context: Context) -> list[str]:
    """The charts side by side, as many in a line as fit; a blank line between lines of charts."""
    lines: list[str] = []
    line: list[list[str]] = []
    room = context.options.width
    nuts = [section.tuning.nut(string) - section.capo for string in range(len(section.tuning), 0, -1)]
    for (name, shape), span in found.items():
        chart = [_title(name, shape, span, context), *_drawn(shape, nuts, left_handed, context)]
        width = max(map(width_of, chart))
        if line and room < width:
            lines += [*_abreast(line), ""]
            line, room = [], context.options.width
        line.append(chart)
        room -= width + GAP
    if line:
        context.used.update(("chart", "chart left" if left_handed else "chart right"))
        lines += _abreast(line)
    return lines


def _title(name: str, shape: Shape, span: Span, context: Context) -> str:
    grip = compact(shape)
    words = context.words(name, "chord symbol", span, symbol=True)
    kept = cut(words, context.options.width - len(grip) - 1)
    if kept != words:
        context.losses.append(Loss(span=span, what="the end of a long chord symbol", how=f"cut to the width of the line: “{kept}”"))
    return f"{kept} {grip}"


def _drawn(shape: Shape, nuts: list[int], left_handed: bool, context: Context) -> list[str]:
    """A grip's chart without its title. ``nuts``: the fret at which each string begins, from the lowest; there is no string above it."""
    first, last = frets_of(shape)
    turn = -1 if left_handed else 1
    top = [NOT_PLAYED if fret is None else "o" if fret == 0 else " " for fret in shape]
    lines = [" ".join(top[::turn]), ("=" if first == 1 else "-") * (2 * len(shape) - 1)]
    for fret in range(first, last + 1):
        signs = ["*" if at == fret else " " if fret <= nut else "|" for at, nut in zip(shape, nuts, strict=False)]
        lines.append(" ".join(signs[::turn]))
    context.used.add("chart fret" if first > 1 else "chart nut")
    if first > 1:
        lines[2] += f" {first}fr"
    return lines


def _abreast(line: list[list[str]]) -> list[str]:
    height = max(map(len, line))
    lines = [""] * height
    for place, chart in enumerate(line):
        width = max(map(width_of, chart)) + GAP
        for at in range(height):
            text = chart[at] if at < len(chart) else ""
            lines[at] += text if place == len(line) - 1 else text + " " * (width - width_of(text))
    # Where every string is fretted nothing stands on top: an empty line would part the names from their charts.
    return [each.rstrip() for at, each in enumerate(lines) if at != _TOP or each.strip()]
