"""A row that is not written well: what is wrong with it, and the best that can be made of it.

A cell that cannot be read becomes the poison cell; a bar whose columns cannot be counted any more becomes one poison cell, or is
left empty in a row that may have empty bars. So the later stages can go on and say what else is wrong.
"""

from __future__ import annotations

from array import array
from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics.catalogue import text as codes
from tabforge.limits import MAX_BARS
from tabforge.source import Span
from tabforge.syntax.badcells import CellReader, check_sign
from tabforge.syntax.bars import LONG, MAX_BAR, MAX_ROW
from tabforge.syntax.cellspelling import respelled_cell
from tabforge.syntax.grammar import POISON, Row, joined
from tabforge.syntax.pieces import Piece, pieces, unpaired
from tabforge.syntax.reading import Bars, Reading
from tabforge.syntax.report import quoted
from tabforge.syntax.textorigins import RowPlaces

_BARS: Final = f"the rows of a study have at most {MAX_BARS:,} bars together"


@dataclass(slots=True)
class Draft:
    """A bar while it is read, from ``at`` to ``end``.

    ``broken``: its columns cannot be counted. ``again``: how often it is the bar before.
    """

    at: int
    end: int = 0
    tokens: list[str] = field(default_factory=list)
    starts: list[int] = field(default_factory=list)
    broken: bool = False
    again: int = 0


def read_bad_bars(reading: Reading, row: Row, start: int, end: int) -> Bars:
    """The bars of ``text[start:end]``, with all that is wrong in them reported."""
    return _BadRow(reading, row, start, end).read()


class _BadRow:
    def __init__(self, reading: Reading, row: Row, start: int, end: int) -> None:
        self.reading, self.report, self.row = reading, reading.report, row
        self.start, self.end = start, end
        self.must = row.never_empty
        self.cells = CellReader(row, reading.report)
        self.found = Bars([], RowPlaces(array("I"), row.plain), start)
        self.alone: set[int] = set()

    def read(self) -> Bars:
        """See ``read_bad_bars``."""
        before = self.report.count
        if not self.reading.room(0):
            self.report.limit(Span(self.start, self.end), _BARS)
            self._append([POISON] if self.must else [], [self.start], self.start, self.end)
            return self.found
        alone = set() if self.row.plain else unpaired(self.reading.text, self.row, self.start, self.end, self.report)
        if alone is None:
            self._append([POISON] if self.must else [], [self.start], self.start, self.end)
            return self.found
        self.alone = alone
        draft, last = Draft(self.start), ""
        for piece in pieces(self.reading.text, self.row, self.start, self.end):
            if piece.kind == "sign":
                draft.end = piece.at
                self._close(draft, bool(last))
                self._sign(piece)
                draft = Draft(piece.at + len(piece.text))
            else:
                self._take(draft, piece, last)
            last = piece.kind
        if last and last != "sign":
            draft.end = self.end
            self._close(draft, True)
        if not self.found.bars and self.must:
            self.report.add(codes.NO_VALUE, Span(self.start, self.end), f"this row of {self.row.word} has no cells", expected=self.row.says)
            self._append([POISON], [self.start], self.start, self.end)
        if not self.reading.room(len(self.found.bars)):
            self.report.limit(Span(self.start, self.end), _BARS)
            del self.found.bars[1:], self.found.places.places[2:]
        if self.report.count == before and self.end - self.start <= LONG:
            self.report.add(
                codes.BAD_CELL, Span(self.start, self.end), f"this row of {self.row.word} cannot be read", expected=self.row.says
            )
        return self.found

    def _take(self, draft: Draft, piece: Piece, last: str) -> None:
        kind = piece.kind
        texts: list[str] | None = [piece.text]
        if piece.at in self.alone:
            texts = None
        elif piece.after in ("cell", "word", "close") and kind != "close":
            self._say(piece, f"a space is missing before {quoted(piece.text)}")
            texts = None
        elif kind == "open":
            texts = texts if self.cells.opening(piece.text, piece.at) else None
        elif kind == "close":
            if last == "open":
                self._say(piece, "there is nothing in these parentheses", "the cells of a group before it")
                draft.broken = True
            texts = texts if self.cells.closing(piece.text, piece.at) else None
        elif kind == "unclosed":
            self.report.add(
                codes.UNCLOSED_QUOTE,
                piece.span,
                f"the quotes of {quoted(piece.text)} are not closed",
                expected="a quotation mark at their end",
            )
            texts = None
        elif self.row.word == "key":
            pass  # its words belong together: they are looked at when the bar ends
        else:
            texts = self.cells.read(piece.text, piece.at)
            if texts and texts[0] == "%" and not self.row.plain:
                draft.again = len(texts)
                del texts[1:]
        if texts is None:
            draft.broken = True
        elif len(draft.tokens) + len(texts) <= MAX_BAR:
            draft.tokens += texts
            draft.starts += [piece.at] * len(texts)
        else:
            draft.broken = True
            self.report.limit(piece.span, f"a bar has at most {MAX_BAR:,} characters")

    def _say(self, piece: Piece, headline: str, expected: str | None = None) -> None:
        code = codes.BAD_CELL if self.row.plain else codes.PARENTHESES
        self.report.add(code, Span(piece.at, piece.at + 1), headline, expected=expected)

    def _sign(self, piece: Piece) -> None:
        sign = check_sign(piece.text, piece.span, self.report)
        if sign != "|" and len(self.found.signs) < MAX_ROW:
            self.found.signs.append((len(self.found.bars), sign, piece.at))

    def _close(self, draft: Draft, counts: bool) -> None:
        """End a bar; a bar line before anything else ends none (then ``counts`` is False)."""
        raw = self.reading.text[draft.at : draft.end]
        start = draft.at + len(raw) - len(raw.lstrip())
        end = draft.at + len(raw.rstrip())
        blank = [POISON] if self.must else ["."] if self.row.per_bar else []
        if draft.again and len(draft.tokens) != 1 and not draft.broken:
            self.report.add(
                codes.REPEATED_BAR,
                Span(start, end),
                "% stands for a whole bar, so nothing else can stand in it",
                expected="% or %*3 alone between bar lines",
            )
            draft.broken = True
        if draft.broken:
            self._append([POISON] if self.must or self.row.per_bar else [], [start], start, end)
        elif not draft.tokens:
            if not counts:
                self.found.leading = True
                return
            if self.must:
                self._empty(draft)
            self._append(blank, [draft.at], draft.at, draft.at)
        elif draft.again:
            self.found.bars += ["%"] * draft.again
            self.found.places.places.extend([start, end] * draft.again)
        elif self.row.word == "key" and len(draft.tokens) == 1:
            self._append(self.cells.read(draft.tokens[0], start) or [POISON], draft.starts, start, end)
        elif self.row.per_bar and len(draft.tokens) > 1:
            said = f"a bar of a {self.row.word} row has one cell; this one has {len(draft.tokens)}"
            near = respelled_cell("key", "-".join(draft.tokens)) if self.row.word == "key" else None
            self.report.add(codes.BAD_CELL, Span(start, end), said, expected=self.row.says, suggestion=near)
            self._append([POISON], draft.starts[:1], start, end)
        elif POISON not in draft.tokens and len(joined(draft.tokens)) > MAX_BAR:
            self.report.limit(Span(start, end), f"a bar has at most {MAX_BAR:,} characters")
            self._append(blank, [start], start, end)
        else:
            self._append(draft.tokens, draft.starts, start, end)
        if len(self.found.bars) > MAX_ROW:
            self.report.limit(Span(start, max(start, end)), f"a row has at most {MAX_ROW:,} bars, repeated bars counted")
            del self.found.bars[MAX_ROW:], self.found.places.places[2 * MAX_ROW :]

    def _empty(self, draft: Draft) -> None:
        self.report.add(
            codes.EMPTY_BAR,
            Span(max(self.start, draft.at - 1), min(self.end, draft.end + 1)),
            f"there is an empty bar in this row of {self.row.word}",
            expected=self.row.says,
            help="a double bar line is written without a space: ||, and the end of one repeat at the beginning of another :|:",
        )

    def _append(self, tokens: list[str], starts: list[int], start: int, end: int) -> None:
        found = self.found
        if POISON in tokens or (start >= end) is bool(tokens):  # else its tokens are found again as they are written
            found.places.odd[len(found.bars)] = array("I", starts[: len(tokens)])
        found.bars.append(" ".join(tokens) if self.row.plain else joined(tokens))
        found.places.places.extend((start, max(start, end)))
