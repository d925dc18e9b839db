"""A cell, a parenthesis or a bar line that may be wrong: what is wrong with it, and what was probably meant."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import text as codes
from tabforge.limits import MAX_FRET, MAX_REPEAT, MAX_STRINGS, MAX_TUPLET_DEPTH, MAX_TUPLET_NUMBER
from tabforge.source import Span
from tabforge.syntax.bars import MAX_ONE_CELL, cell_fits, tuplet_fits
from tabforge.syntax.cellspelling import LONGEST, respelled_cell, rows_of
from tabforge.syntax.grammar import BAR_LINE_TEXT, POISON, TUPLET_TEXT, Row
from tabforge.syntax.report import Report, quoted
from tabforge.syntax.values import TEMPO_RANGE

_COUNT: Final = re.compile(r"[1-9][0-9]{0,2}")
_NUMBER: Final = re.compile(TUPLET_TEXT)
_BAR_LINE: Final = re.compile(BAR_LINE_TEXT)
_SIGNS: Final = ("|", "||", "|:", ":|", ":|:", ":|*3", "|[1", ":|[2", "|[1,2")
_NEAR_SIGNS: Final = {
    "||:": "|:",
    "|||:": "|:",
    "|::": "|:",
    ":||": ":|",
    ":|||": ":|",
    "::|": ":|",
    ":||:": ":|:",
    ":|:|": ":|:",
    "|:|": ":|:",
    ":||:|": ":|:",
    "|||": "||",
}


def check_sign(sign: str, span: Span, report: Report) -> str:
    """A bar line; one that is not right is reported, and taken for the nearest that is."""
    if len(sign) < LONGEST and _BAR_LINE.fullmatch(sign):
        return sign
    near = _NEAR_SIGNS.get(sign) or (nearest(sign, _SIGNS) if len(sign) < 10 else None)
    report.add(
        codes.BAD_SIGN,
        span,
        f"{quoted(sign)} is not a bar line",
        expected="| || |: :| :|: or :|*3, with an ending such as [1 where one begins",
        suggestion=near,
    )
    return "|"


@dataclass(slots=True)
class CellReader:
    """Reads the cells of one row, whatever they are. ``groups`` are those open, True for a tuplet; ``tuplets`` counts the latter."""

    row: Row
    report: Report
    groups: list[bool] = field(default_factory=list)
    tuplets: int = 0

    def read(self, text: str, at: int) -> list[str] | None:
        """A cell's tokens: itself, or the poison cell as often as it is repeated; None if its columns cannot be counted."""
        row = self.row
        if row.per_bar and len(text) > MAX_ONE_CELL:
            self.report.limit(Span(at, at + len(text)), f"a cell of a row of {row.word} has at most {MAX_ONE_CELL} characters")
            return [POISON]
        if row.plain or row.per_bar:
            return [text] if cell_fits(row, text) else self._bad(text, at, 1)
        body, star, count = text.partition("*")
        span = Span(at, at + len(text))
        if star and not _COUNT.fullmatch(count):
            self._count(count, span, body)
            return None
        if not body:
            self.report.add(
                codes.BAD_REPEAT,
                span,
                "this repeat count has nothing to repeat",
                help="it stands right behind its cell, without a space: 5*4",
            )
            return None
        if body == "%":
            return ["%"] * int(count or 1)
        return [text] if cell_fits(row, text) else self._bad(body, at, int(count or 1))

    def _bad(self, body: str, at: int, count: int) -> list[str]:
        if not self.report.full():
            word = self.row.word
            near = respelled_cell(word, body)
            self.report.add(
                codes.BAD_CELL,
                Span(at, at + len(body)),
                f"{quoted(body)} cannot stand in a row of {word}",
                expected=self.row.says,
                suggestion=near if near != body else None,
                help=_advice(word, body, near),
            )
        return [POISON] * count

    def _count(self, count: str, span: Span, body: str) -> None:
        if not count.isascii() or not count.isdecimal():
            said = f"{quoted('*' + count)} is not a repeat count"
        elif count.strip("0"):
            large = len(count.lstrip("0")) > len(str(MAX_REPEAT))
            said = f"a repeat count of {count[:12]} is beyond the limit of {MAX_REPEAT}"
            said = said if large else f"{quoted('*' + count)} begins with a zero"
        else:
            said = "a repeat count of 0 is too small"
        self.report.add(codes.BAD_REPEAT, span, said, expected=f"a whole number from 1 to {MAX_REPEAT}, such as {(body or '5')[:20]}*4")

    def opening(self, text: str, at: int) -> bool:
        """An opening parenthesis, with what stands before it; False if it is reported."""
        ratio, span = text[:-1], Span(at, at + len(text))
        rhythm = self.row.word == "rhythm"
        self.groups.append(bool(ratio) and rhythm)
        self.tuplets += self.groups[-1]
        if not ratio:
            return True
        if rhythm and _NUMBER.fullmatch(ratio):
            if not tuplet_fits(ratio):
                self.report.add(
                    codes.BAD_TUPLET,
                    span,
                    f"a tuplet of {ratio} cannot be written",
                    expected=f"from 2 to {MAX_TUPLET_NUMBER} notes in the time of 1 to {MAX_TUPLET_NUMBER}",
                )
                return False
            if self.tuplets > MAX_TUPLET_DEPTH:
                self.report.limit(span, f"tuplets stand in tuplets at most {MAX_TUPLET_DEPTH} deep")
                return False
            return True
        if ratio.replace(":", "").isdecimal():
            where = "" if rhythm else "; in the rhythm a tuplet has its number there: 3(e e e)"
            self.report.add(
                codes.BAD_TUPLET,
                span,
                f"{quoted(text)} does not begin a {'tuplet' if rhythm else f'group in a row of {self.row.word}'}",
                expected="3( or 5:4(" if rhythm else "( alone: (1 3 5)*2",
                help=f"a group that is repeated has its count behind it{where}",
            )
            return False
        if self.row.word == "chords":
            said, help_ = "a chord symbol has no parentheses", "an alteration is written right behind the symbol: C7b9"
        else:
            said, help_ = f"a space is missing before the parenthesis of {quoted(text)}", None
        self.report.add(codes.PARENTHESES, span, said, help=help_)
        return False

    def closing(self, text: str, at: int) -> bool:
        """A closing parenthesis with its repeat count; False if it is reported."""
        if self.groups:
            self.tuplets -= self.groups.pop()
        count = text[2:]
        if len(text) == 1 or _COUNT.fullmatch(count):
            return True
        self._count(count, Span(at, at + len(text)), "(1 3)")
        return False


def _advice(word: str, cell: str, near: str | None) -> str | None:
    """Further advice on a cell that does not fit its row."""
    if not cell.isprintable():
        return "it holds a character that cannot be seen; type it anew"
    if word == "rhythm" and any(char.isdigit() for char in cell):
        return "durations are letters: w whole, h half, q quarter, e eighth, s sixteenth, t thirty-second"
    if word == "notes" and cell[:1] in "Hh":
        return "the note a half step below C is B, and the one below that is Bb"
    if word == "notes" and cell.rstrip("#b") in tuple("ABCDEFG"):
        return "a pitch has its octave: C4 is middle C, E2 a guitar’s lowest string"
    if word == "tempo":
        return f"a tempo lies between {TEMPO_RANGE[0]} and {TEMPO_RANGE[1]} beats a minute"
    if word == "degrees" and cell == "0":
        return "degrees are counted from 1, the root; a rest is r"
    if word == "marks" and cell in ("b", "pb", "br"):
        return "a bend says how far in whole steps: b1/2, b1, b3/2"
    if word in ("frets", "degrees") and re.fullmatch(r"[0-9]+[a-z/\\~^]+[0-9]*", cell):
        return "techniques stand in a row of their own, marks: a hammer-on from 5 to 7 is 5 7, and below it h ."
    if word in ("frets", "degrees", "notes") and re.fullmatch(r"[0-9:@]+", cell):
        return f"strings go from 1 to {MAX_STRINGS}, frets from 0 to {MAX_FRET}" if word == "frets" or "@" in cell else None
    if near is None and len(cell) < 20:
        rows = rows_of(cell, word)
        if rows:
            return f"{quoted(cell)} would be right in a row of {' or '.join(rows)}"
    return None
