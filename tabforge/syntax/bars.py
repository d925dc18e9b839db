"""A row's cells as bars: one pass over a row that is written well.

A bar that is not goes, with its whole row, to ``badbars``, which takes its time and says what is wrong.
"""

from __future__ import annotations

import re
from array import array
from functools import cache
from typing import Final

from tabforge.limits import MAX_TUPLET_DEPTH, MAX_TUPLET_NUMBER
from tabforge.syntax.grammar import BAR_LINE_TEXT, QUOTED_TEXT, REPEAT_TEXT, Row, bar_pattern, cell_regex, tokens
from tabforge.syntax.reading import Bars, Reading
from tabforge.syntax.textorigins import RowPlaces
from tabforge.syntax.values import TEMPO_RANGE

MAX_BAR: Final = 20_000
"""Characters of one bar, MAX_ONE_CELL of a row with one cell a bar, and MAX_ROW bars of one row; see the document's schema."""

MAX_ONE_CELL: Final = 60
MAX_ROW: Final = 100_000

LONG: Final = 100_000
"""Characters of a row above which it is read piece by piece: matching it whole would take too much memory."""

BAD: Final = "\n"
"""Stands for a bar that is not written well; no bar holds a line break."""

KEPT: Final = 4096
"""Different bars of a kind that are remembered, so that equal bars are judged, and stored, once."""

_SIGN: Final = re.compile(rf"({BAR_LINE_TEXT})\s*")
_SIGN_OR_QUOTE: Final = re.compile(rf"{QUOTED_TEXT}|({BAR_LINE_TEXT})\s*")
_AGAIN: Final = re.compile(rf"%{REPEAT_TEXT}")


def row_bars(reading: Reading, row: Row, start: int, end: int) -> Bars:
    """The bars of ``text[start:end]``, which begins and ends with no space; whatever is wrong with them is reported."""
    found = read_bars(reading, row, start, end)
    if found is None:
        from tabforge.syntax.badbars import read_bad_bars  # noqa: PLC0415  # only a mistake pays for the import

        found = read_bad_bars(reading, row, start, end)
    return found


def read_bars(reading: Reading, row: Row, start: int, end: int) -> Bars | None:
    """The bars of ``text[start:end]``, which begins and ends with no space; None if they are not written well, or very long."""
    if end - start > LONG:
        return None
    text = reading.text
    known = reading.known.setdefault(row.word, {})
    good = reading.good.setdefault(row.word, set())
    if len(known) > KEPT:
        known.clear()
    must = row.never_empty
    bars: list[str] = []
    places = array("I")
    found = Bars(bars, RowPlaces(places, row.plain), start)
    at, before = start, -1
    for line in (_SIGN_OR_QUOTE if row.plain else _SIGN).finditer(text, start, end):
        sign = line[1]
        if sign is None:
            continue  # words in quotes
        first = line.start()
        raw = text[at:first].rstrip()
        if raw:
            bar = known.get(raw) or known.setdefault(raw, canonical(row, raw, good))
            if bar == BAD:
                return None
            if bar[:2] == "%*" and not row.plain:
                again = int(bar[2:])
                bars += ["%"] * again
                places.extend([at, at + len(raw)] * again)
            else:
                bars.append(bar)
                places.append(at)
                places.append(at + len(raw))
        elif before < 0:
            found.leading = True
        elif must or before == first:
            return None  # an empty bar where none may be, or a sign that is none
        else:
            bars.append("." if row.per_bar else "")
            places.extend((at, at))
        if len(bars) > MAX_ROW:
            return None
        before, at = line.end(1), line.end()
        if before == at < end and (text[at] in ":|*[" or sign[-1].isdigit()):
            return None  # the sign goes on, or its number runs into a cell
        if sign != "|":
            found.signs.append((len(bars), sign, first))
    if at < end:
        bar = known.get(text[at:end]) or canonical(row, text[at:end], good)
        if bar == BAD:
            return None
        again = int(bar[2:]) if bar[:2] == "%*" and not row.plain else 0
        bars += ["%"] * again or [bar]
        places.extend([at, end] * (again or 1))
    if row.per_bar:
        _mark_blanks(found)
    return found if (bars or not must) and len(bars) <= MAX_ROW and reading.room(len(bars)) else None


def _mark_blanks(found: Bars) -> None:
    """An empty bar of a row with one cell a bar is a dot in the document, whose place must be given by hand."""
    places = found.places
    for index, bar in enumerate(found.bars):
        at = places.places[2 * index]
        if bar == "." and at == places.places[2 * index + 1]:
            places.odd[index] = array("I", [at])


@cache
def _pattern(word: str) -> re.Pattern[str]:
    return re.compile(bar_pattern(word))


def canonical(row: Row, raw: str, good: set[str]) -> str:
    """A bar with single spaces, as the document has it, or a bar repeated a number of times (``%*3``); BAD if it is neither.

    ``good`` are cells of such rows that are known to be right: looking them up takes a fraction of the time of matching them.
    """
    cells = tokens(raw, plain=True) if row.plain else raw.split()
    bar = " ".join(cells)
    if '"' in raw and row.plain and raw.split() != bar.split():
        return BAD  # quotes that touch a word
    if len(bar) > MAX_BAR:
        return BAD
    if not row.plain and ("(" in bar or ")" in bar):
        bar = bar.replace("( ", "(").replace(" )", ")")
        return bar if _pattern(row.word).match(bar) and _groups_fit(bar) else BAD
    if row.per_bar:
        return bar if len(cells) == 1 and cell_fits(row, bar) else BAD
    if good.issuperset(cells):
        return bar
    fits = cell_regex(row.word).fullmatch
    fresh = [cell for cell in cells if cell not in good]
    if all(map(fits, fresh)):
        if len(good) < KEPT:
            good.update(fresh)
        return bar
    return bar if not row.plain and (bar == "%" or _AGAIN.fullmatch(bar)) else BAD


def cell_fits(row: Row, cell: str) -> bool:
    """Whether a cell is one of its row; a tempo must also be playable."""
    if len(cell) > (MAX_ONE_CELL if row.per_bar else MAX_BAR) or not cell_regex(row.word).fullmatch(cell):
        return False
    beats = cell.rpartition("=")[2]
    return row.word != "tempo" or not beats[0].isdigit() or TEMPO_RANGE[0] <= float(beats) <= TEMPO_RANGE[1]


def _groups_fit(bar: str) -> bool:
    """Whether every parenthesis has its partner, and tuplets are within their limits."""
    stack: list[bool] = []
    tuplets = 0
    for token in tokens(bar):
        if token[-1] == "(":
            tuplet = token != "("
            if tuplet:
                tuplets += 1
                if tuplets > MAX_TUPLET_DEPTH or not tuplet_fits(token[:-1]):
                    return False
            stack.append(tuplet)
        elif token[0] == ")":
            if not stack:
                return False
            tuplets -= stack.pop()
    return not stack


def tuplet_fits(ratio: str) -> bool:
    """Whether a tuplet's numbers are within their limits: 3, or 3:2."""
    actual, _, normal = ratio.partition(":")
    return 2 <= int(actual) <= MAX_TUPLET_NUMBER and (not normal or 1 <= int(normal) <= MAX_TUPLET_NUMBER)
