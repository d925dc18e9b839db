"""A row in pieces, whatever is in it: cells, parentheses and bar lines, right or wrong; and which parentheses belong together."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tabforge.diagnostics import Label
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.grammar import Row
from tabforge.syntax.report import Report

MAX_OPEN: Final = 20_000
"""Parentheses that are kept in mind: more than a bar has characters."""

_SIGN: Final = r"\s*(?:(?P<sign>[:|]*\|[|:]*(?:\*[^\s|]*)?(?:\[[^\s|]*)?)|"
_PIECE: Final = re.compile(rf"{_SIGN}(?P<open>[^\s()|]*\()|(?P<close>\)(?:\*[^\s()|]*)?)|(?P<cell>[^\s()|]+))")
_PHRASE: Final = re.compile(rf'{_SIGN}(?P<cell>"[^"]*")|(?P<unclosed>"[^"]*)|(?P<word>[^\s|"]+))')
# No group in them is repeated, since each repetition would take memory.


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece: ``kind`` is sign, open, close, cell, word (of a row of words) or unclosed (quotes).

    ``after`` is the kind of the piece that it touches, with no space between; empty if there is a space.
    """

    kind: str
    text: str
    at: int
    after: str

    @property
    def span(self) -> Span:
        """Its place."""
        return Span(self.at, self.at + len(self.text))


def pieces(text: str, row: Row, start: int, end: int) -> Iterator[Piece]:
    """The pieces of ``text[start:end]``, which ends with no space, in order. Every character that is not space is in one of them."""
    before, at = "", start
    match = (_PHRASE if row.plain else _PIECE).match
    while at < end:
        found = match(text, at, end)
        assert found is not None  # any character begins a piece
        kind = found.lastgroup or ""
        piece, first, last = found[kind], found.start(kind), found.end()
        if kind in ("cell", "word") and piece[-1] == ":" and text[last : last + 1] == "|" and last < end:
            piece = piece.rstrip(":")  # the colons belong to the bar line behind them
            last = first + len(piece)
        yield Piece(kind, piece, first, before if first == at else "")
        before, at = kind, last


def unpaired(text: str, row: Row, start: int, end: int, report: Report) -> set[int] | None:
    """The offsets of the parentheses that have no partner in their own bar, each reported; None if there are too many of them."""
    opened: list[tuple[Piece, int]] = []
    alone: set[int] = set()
    bar, line = 0, Span(start, start)
    for piece in pieces(text, row, start, end):
        if piece.kind == "sign":
            bar, line = bar + 1, piece.span
        elif piece.kind == "open":
            opened.append((piece, bar))
        elif piece.kind == "close" and opened:
            first, first_bar = opened.pop()
            if first_bar != bar:
                alone |= {first.at, piece.at}
                _crossed(first, line, piece, report)
        elif piece.kind == "close":
            alone.add(piece.at)
            report.add(codes.PARENTHESES, piece.span, "this parenthesis closes nothing", expected="an opening parenthesis before it")
        if len(opened) > MAX_OPEN or len(alone) > MAX_OPEN:
            report.add(
                codes.PARENTHESES,
                Span(start, end),
                f"this row of {row.word} is lost in its parentheses",
                expected="groups such as (1 3 5)*2",
            )
            return None
    for piece, _ in opened:
        alone.add(piece.at)
        report.add(
            codes.PARENTHESES, piece.span, "this parenthesis is not closed", expected="a closing parenthesis at the end of its group"
        )
    return alone


def _crossed(first: Piece, line: Span, last: Piece, report: Report) -> None:
    report.add(
        codes.BAR_IN_GROUP,
        line,
        "a bar line stands inside a group",
        expected="the group closed before the bar line, and another opened after it",
        others=(Label(span=first.span, text="the group begins here"), Label(span=last.span, text="and ends here")),
    )
