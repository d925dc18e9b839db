"""A small reader of ASCII tab, written from the documented format alone; it shares nothing with the writer.

The format it relies on: a system is one line a string beginning with its name and ``|`` (``>`` where a bar goes on). Every event is one
column: its letter in the rhythm line next to the strings, and the first character of its fret, ``x`` or ``=``, stand in that column. Bar
lines are ``|`` in the same columns on all strings. Tuplets are brackets ``[-3-]`` on the lines next to the rhythm.
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
LENGTHS = {"w": 4, "h": 2, "q": 1, "e": Fraction(1, 2), "s": Fraction(1, 4), "t": Fraction(1, 8)}


@dataclass
class Column:
    """``notes``: string → what stands there. ``upper``, ``lower``: letters of the rhythm lines; ``lengths`` in quarter notes."""

    notes: dict[int, str] = field(default_factory=dict)
    upper: str = ""
    lower: str = ""
    lengths: dict[str, Fraction] = field(default_factory=dict)


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
    for string, line in enumerate(lines, start=1):
        for at, core in _cells(line).items():
            assert at in columns, f"{core!r} on string {string} stands under no rhythm letter"
            columns[at].notes[string] = core
    grouped = [[columns[at] for at in sorted(columns) if begin <= at < end] for begin, end in spans]
    assert sum(map(len, grouped)) == len(columns), "a column outside every bar"
    return grouped, lines[0][0] == ">", lines[0][-1] == ">"


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
