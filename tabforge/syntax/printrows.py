"""Rows of a system as text: columns and bar lines under one another."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Final, NamedTuple

from tabforge.syntax.document import System
from tabforge.syntax.grammar import ROWS, SOUNDING, tokens
from tabforge.syntax.riffs import BOTH

Rows = dict[str, Sequence[str]]
"""Rows of one voice by their words, each a list of bars."""


class _Piece(NamedTuple):
    """A cell with the parentheses around it: it begins at one column and lasts up to another."""

    start: int
    end: int
    text: str


def rows_of(part: object) -> Rows:
    """The rows of a system or of its second voice, in the order they are printed in."""
    assert isinstance(part, dict)  # of a document that is valid
    return {word: part[word] for word in ROWS if word in part}


def system_lines(system: System, first: bool) -> list[tuple[bool, str, str]]:
    """The rows as lines: whether each is of the second voice, its word, and its cells. ``first``: it is its riff's first system."""
    voices = [rows_of(system), rows_of(system.get("voice2", {}))]
    count = max((len(rows[word]) for rows in voices for word in SOUNDING if word in rows), default=0)
    count = count or max((len(row) for rows in voices for row in rows.values()), default=0)
    laid = [_laid(rows, count) for rows in voices]
    widths = [max((len(row[bar]) for rows in laid for row in rows.values() if bar < len(row)), default=0) for bar in range(count)]
    signs = {int(before): sign for before, sign in system.get("barlines", {}).items()}
    return [
        (bool(number), word, _line(bars, widths, signs, must_have_line=first and word in BOTH))
        for number, rows in enumerate(laid)
        for word, bars in rows.items()
    ]


def _laid(rows: Rows, count: int) -> dict[str, list[str]]:
    """Every bar of every row of a voice with its cells at their columns' places."""
    laid: dict[str, list[str]] = {word: [] for word in rows}
    for bar in range(count):
        pieces = {word: _pieces(row[bar], word) for word, row in rows.items() if bar < len(row)}
        places = _places(each for word, each in pieces.items() if not (ROWS[word].per_bar or ROWS[word].shares))
        for word, each in pieces.items():
            text = ""
            own = _places([each]) if ROWS[word].shares else places
            for piece in each:
                at = own.get(piece.start, 0)
                text = f"{text:<{at}}{piece.text}"
            laid[word].append(text)
    return laid


def _pieces(bar: str, word: str) -> list[_Piece]:
    """The cells of a bar with the columns they take."""
    plain = ROWS[word].plain
    if ROWS[word].per_bar or (bar == "%" and not plain):
        return [_Piece(0, 0, bar)]
    pieces: list[_Piece] = []
    groups: list[int] = []
    column, opening = 0, ""
    for token in tokens(bar, plain):
        if plain:
            pieces.append(_Piece(column, column + 1, token))
            column += 1
        elif token.endswith("("):
            groups.append(column)
            opening += token
        elif token.startswith(")"):
            begun = groups.pop() if groups else column
            column = begun + (column - begun) * int(token[2:] or 1)
            if pieces:
                last = pieces[-1]
                pieces[-1] = _Piece(last.start, column, last.text + token)
        else:
            end = column + int(token.partition("*")[2] or 1)
            pieces.append(_Piece(column, end, opening + token))
            column, opening = end, ""
    return pieces


def _places(rows: Iterable[Sequence[_Piece]]) -> dict[int, int]:
    """The offset of every column at which a cell begins: each cell has room for itself and a space."""
    ends: dict[int, list[_Piece]] = {}
    columns: set[int] = {0}
    for row in rows:
        for piece in row:
            if piece.end > piece.start:
                columns.update((piece.start, piece.end))
                ends.setdefault(piece.end, []).append(piece)
    places: dict[int, int] = {}
    at = 0
    for column in sorted(columns):
        at = max((at, *(places[piece.start] + len(piece.text) + 1 for piece in ends.get(column, ()))))
        places[column] = at
    return places


PLAIN: Final = "|"


def _line(bars: Sequence[str], widths: Sequence[int], signs: dict[int, str], must_have_line: bool) -> str:
    """A row's bars with the bar lines between them."""
    whole = len(bars) == len(widths)
    parts: list[str] = []

    def sign(before: int) -> str:
        special = signs.get(before, PLAIN)
        return special if whole else f"{PLAIN:<{len(special)}}"

    if 0 in signs and bars:
        parts.append(sign(0))
    for index, bar in enumerate(bars):
        parts.append(f"{bar:<{widths[index]}}")
        last = index == len(bars) - 1
        if not last or (whole and index + 1 in signs) or not bar:
            parts.append(sign(index + 1))
    line = " ".join(parts).rstrip()
    return f"{line} {PLAIN}" if must_have_line and PLAIN not in line and line not in (".", "") else line
