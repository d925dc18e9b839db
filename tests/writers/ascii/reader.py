"""A small reader of ASCII tab, written from the documented format alone; it shares nothing with the writer.

The format it relies on: a system is one line a string beginning with its name and ``|`` (``>`` where a bar goes on). Every event is one
column: its letter in the rhythm line next to the strings, and the first character of its fret, ``x`` or ``=``, stand in that column. Bar
lines are ``|`` in the same columns on all strings. Tuplets are brackets ``[-3-]`` on the lines next to the rhythm. Bars of rest may be
written as one with their number on one string: ``-- 4 bars rest --``. Dynamics stand in a row of their own, ``mf`` in the column of its
event; a hairpin is ``<---`` or ``>---`` and covers the columns of the events it lasts for, beginning after the dynamic of its first
one. Extents (``PM``, ``LR``, ``BIII``, ``hBV``) likewise cover the columns of their events and end with ``|``; a name alone is
for one event.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from fractions import Fraction

STRING_LINE = re.compile(r"([A-Ga-g](?:#{1,3}|b{1,3})?) *[|>][-|:>]")
RHYTHM = re.compile(r"(?P<grace>g[whqst]?!?)|(?P<kind>[+r]?)(?P<value>[whqest])(?P<dots>\.{0,2})")
BRACKET_LINE = re.compile(r"[\[\]\-0-9: ]*\[[\[\]\-0-9: ]*")
BRACKET = re.compile(r"\[-*(\d+)(?::(\d+))?-*\]")
CELL = re.compile(
    r"(?P<before>[/\\]*[(<]*)(?P<core>\d+|x|=)(?P<after>(?:[)>]|\[\d+\]|tr\d+|p?b\([\d/+full]+\)r?|b=|~|[/\\](?![\d(</\\x=]))*)(?P<lead>[hp/\\]*)"
)
RESTS = re.compile(r"-+ (\d+) bars rest -+")
DYNAMIC = re.compile(r"pppp|ppp|pp|pf|p|mp|mf|ffff|fff|ff|fp|fz|f|sffz|sfz|sfp|sf|rfz|rf")
LOUDNESS = re.compile(rf"(?: |[<>]-|-|(?:{DYNAMIC.pattern})(?![a-z]))+")
EXTENT = re.compile(r"(?P<sign>PM|LR|h?B[IVX]+|)-*\|?")
EXTENTS = re.compile(r"(?: |(?:PM|LR|h?B[IVX]+)\|?|-\|?)+")
LENGTHS = {"w": 4, "h": 2, "q": 1, "e": Fraction(1, 2), "s": Fraction(1, 4), "t": Fraction(1, 8)}


@dataclass
class Column:
    """``notes``: string → what stands there. ``upper``, ``lower``: letters of the rhythm lines; ``lengths`` in quarter notes.

    ``loudness``: for each voice the dynamic that stands here and the hairpin that covers it. ``extents``: the signs that cover it.
    """

    notes: dict[int, str] = field(default_factory=dict)
    upper: str = ""
    lower: str = ""
    lengths: dict[str, Fraction] = field(default_factory=dict)
    loudness: dict[str, tuple[str, str]] = field(default_factory=dict)
    extents: dict[str, set[str]] = field(default_factory=dict)


@dataclass
class System:
    names: list[str]
    above: list[str]
    strings: list[str]
    below: list[str]


def systems(text: str) -> list[System]:
    lines = text.split("\n")
    found = []
    at = 0
    while at < len(lines):
        if not STRING_LINE.match(lines[at]):
            at += 1
            continue
        end = at
        while end < len(lines) and STRING_LINE.match(lines[end]):
            end += 1
        top = at
        while top and lines[top - 1]:
            top -= 1
        bottom = end
        while bottom < len(lines) and lines[bottom]:
            bottom += 1
        strings = lines[at:end]
        names = [STRING_LINE.match(line)[1] for line in strings]  # type: ignore[index]
        found.append(System(names, lines[top:at], strings, lines[end:bottom]))
        at = bottom
    return found


def bars(text: str) -> list[list[Column]]:
    """The columns of every bar of a text, from left to right, bars broken over two lines put together again."""
    result: list[list[Column]] = []
    unfinished = False
    for system in systems(text):
        assert len({len(line) for line in system.strings}) == 1, "strings of different lengths"
        groups, continues, goes_on = _bars_of(system)
        assert continues == unfinished
        if continues:
            result[-1].extend(groups.pop(0))
        result.extend(groups)
        unfinished = goes_on
    assert not unfinished
    return result


def _bars_of(system: System) -> tuple[list[list[Column]], bool, bool]:
    margin = max(len(name) for name in system.names)
    lines = [line[margin:] for line in system.strings]
    edges = {line[0] for line in lines}, {line[-1] for line in lines}
    assert edges[0] in ({"|"}, {">"}), edges
    assert edges[1] in ({"|"}, {">"}), edges
    walls = [[at for at, char in enumerate(line) if char == "|"] for line in lines]
    assert all(each == walls[0] for each in walls), "bar lines in different columns"
    spans = []
    start = 1 if lines[0][0] == ">" else None
    for wall in walls[0]:
        if start is not None and wall > start:
            spans.append((start, wall))
        start = wall + 1
    if lines[0][-1] == ">":
        assert start is not None
        spans.append((start, len(lines[0]) - 1))
    upper = _rhythm(system.above[::-1], margin)
    lower = _rhythm(system.below, margin)
    columns: dict[int, Column] = {}
    for side, found in (("upper", upper), ("lower", lower)):
        for at, (label, length) in found.items():
            column = columns.setdefault(at, Column())
            setattr(column, side, label)
            column.lengths[side] = length
    silent = _rests(lines, spans)
    for string, line in enumerate(lines, start=1):
        for at, core in _cells(line).items():
            assert at in columns, f"{core!r} on string {string} stands under no rhythm letter"
            columns[at].notes[string] = core
    for side, rows in (("upper", system.above), ("lower" if lower else "upper", system.below)):
        for row in rows:
            _loudness(row, margin, side, columns)
    for side, rows in (("upper", system.above), ("lower", system.below)):
        for row in rows:
            _extents(row, margin, side, columns)
    grouped: list[list[Column]] = []
    for (begin, end), bars_of_rest in zip(spans, silent, strict=True):
        inside = [columns[at] for at in sorted(columns) if begin <= at < end]
        assert not (inside and bars_of_rest), "notes in bars of rest"
        grouped.extend([inside] if not bars_of_rest else [[] for _ in range(bars_of_rest)])
    assert sum(map(len, grouped)) == len(columns), "a column outside every bar"
    return grouped, lines[0][0] == ">", lines[0][-1] == ">"


def _rests(lines: list[str], spans: list[tuple[int, int]]) -> list[int]:
    """For each bar of a system the number of bars of rest it stands for, or 0. The words are taken out of the lines."""
    counts = []
    for begin, end in spans:
        found = [(at, RESTS.fullmatch(line[begin:end].strip(":"))) for at, line in enumerate(lines) if "rest" in line[begin:end]]
        assert len(found) < 2, "bars of rest on two strings"
        count = 0
        for at, words in found:
            assert words, "bars of rest are not understood"
            count = int(words[1])
            assert count > 1
            lines[at] = lines[at][:begin] + "-" * (end - begin) + lines[at][end:]
            assert all(set(line[begin:end].strip(":")) == {"-"} for line in lines), "notes beside bars of rest"
        counts.append(count)
    return counts


def _loudness(row: str, margin: int, side: str, columns: dict[int, Column]) -> None:
    """Reads a row of dynamics and hairpins, if it is one."""
    if not row.strip() or not LOUDNESS.fullmatch(row):
        return
    row = row.ljust(margin + max(columns, default=0) + 8)
    kinds = []
    for char in row:
        kinds.append(char if char in "<>" else kinds[-1] if char == "-" and kinds else "")
    for at, column in columns.items():
        x = at + margin
        word = DYNAMIC.match(row, x) if not row[x - 1].isalpha() else None
        text = word[0] if word else ""
        column.loudness[side] = (text, kinds[x + len(text)])


def _extents(row: str, margin: int, side: str, columns: dict[int, Column]) -> None:
    """Reads a row of extents, if it is one."""
    if not row.strip() or not EXTENTS.fullmatch(row):
        return
    for found in EXTENT.finditer(row):
        for at, column in columns.items():
            end = found.start() + 1 if found[0] and found[0] == found["sign"] else found.end()
            if found.start() <= at + margin < end:
                column.extents.setdefault(side, set()).add(found["sign"])


def _cells(line: str) -> dict[int, str]:
    """Column → fret, ``x`` or ``=``. Every character of a cell must be understood."""
    found = {}
    inner = line[1:-1]
    for run in re.finditer(r"[^-|:]+", inner):
        at = 0
        while at < len(run[0]):
            cell = CELL.match(run[0], at)
            assert cell, f"{run[0][at:]!r} is not understood"
            found[1 + run.start() + cell.start("core")] = cell["core"]
            at = cell.end()
    return found


def _rhythm(rows: list[str], margin: int) -> dict[int, tuple[str, Fraction]]:
    """Column → letter and length, of the rhythm line (the first of the rows) and the tuplets on the rows after it."""
    if not rows or not all(RHYTHM.fullmatch(word) for word in rows[0].split()):
        return {}
    found = {}
    for word in re.finditer(r"\S+", rows[0]):
        label = RHYTHM.fullmatch(word[0])
        assert label
        length = Fraction(0)
        if not label["grace"]:
            length = LENGTHS[label["value"]] * (2 - Fraction(1, 2 ** len(label["dots"])))
        found[word.start() - margin] = (word[0], length)
    for row in rows[1:]:
        if not BRACKET_LINE.fullmatch(row):
            break
        for bracket in BRACKET.finditer(row):
            actual = int(bracket[1])
            normal = int(bracket[2]) if bracket[2] else max(2**k for k in range(6) if 2**k < actual)
            for at, (label, length) in found.items():
                if bracket.start() - margin <= at < bracket.end() - margin:
                    found[at] = (label, length * normal / actual)
    return found
