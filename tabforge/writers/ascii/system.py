"""A system: bars side by side, one line a string, with the rows above and below."""

from __future__ import annotations

from typing import Final

from tabforge.writers.ascii.lines import CONTINUED, between, dotted_strings
from tabforge.writers.ascii.plain import width_of
from tabforge.writers.ascii.rows import ENDINGS, MARGINS, STRINGS
from tabforge.writers.ascii.slots import Ending, Piece, Reach, Style

_DASHES: Final = tuple("-" * count for count in range(300))
_CLOSED_BEFORE: Final = 2
"""Words at the end of a bar end over the last but one character of a repeat sign, so that a space keeps them from the next bar's words."""


class Row:
    """A line that is being written from left to right."""

    __slots__ = ("at", "parts")

    def __init__(self, margin: str = "") -> None:
        self.parts = [margin]
        self.at = len(margin)

    def put(self, x: int, text: str, width: int) -> None:
        """Write at column ``x``; whatever stands before it must be finished."""
        assert x >= self.at, f"{text!r} would overwrite what stands before it"
        self.parts.append(" " * (x - self.at) + text)
        self.at = x + width


class System:
    """Collects pieces until no more fit, then gives its lines."""

    def __init__(self, names: tuple[str, ...], width: int) -> None:
        self.width = width
        self.margin = len(names[0])
        self.empty = True
        self._right: str | None = None
        self._at = self.margin
        self._dotted = dotted_strings(len(names))
        self._strings = [[name] for name in names]
        self._cursors = [self.margin] * len(names)
        self._rows: dict[int, Row] = {}

    def fits(self, piece: Piece) -> bool:
        """Whether a piece can stand here, closing bar line included."""
        if (piece.breaks or piece.left == CONTINUED) and not self.empty:
            return False
        opening = len(between(self._right, piece.left).plain)
        return self._at + opening + piece.width + len(between(piece.right, None).plain) <= self.width

    def add(self, piece: Piece) -> None:
        """Write a piece, with the bar line before it."""
        self._line(self._right, piece.left)
        offset = self._at
        self._slots(piece, offset)
        if piece.rest:
            self._rest(piece.rest, offset + (piece.width - len(piece.rest)) // 2)
        ends = offset + piece.width
        for reach in piece.reaches:
            self._reach(reach, piece, offset)
        for number, over in piece.over.items():
            for text, at in ((over.start, offset), (over.end, ends + _CLOSED_BEFORE * (piece.right == "backward") - width_of(over.end))):
                if text:
                    self._row(number).put(at, text, width_of(text))
        if piece.ending:
            self._ending(piece.ending, offset, ends + between(piece.right, None).plain.index("|") if piece.ending.hooked else ends)
        self._at = ends
        self._right = piece.right
        self.empty = False

    def _slots(self, piece: Piece, offset: int) -> None:
        strings, cursors, rows = self._strings, self._cursors, self._rows
        for slot in piece.slots:
            x = offset + slot.x
            for string, text, before in slot.cells:
                begin = x - before
                parts = strings[string - 1]
                parts.append("-" * (begin - cursors[string - 1]))
                parts.append(text)
                cursors[string - 1] = begin + len(text)
            for row, text, width in slot.labels:
                if text:
                    (rows.get(row) or self._row(row)).put(x, text, width)

    def _rest(self, text: str, x: int) -> None:
        """Words on a string in the middle."""
        string = (len(self._strings) - 1) // 2
        self._strings[string] += ["-" * (x - self._cursors[string]), text]
        self._cursors[string] = x + len(text)

    def _reach(self, reach: Reach, piece: Piece, offset: int) -> None:
        row = self._row(reach.row)
        start = offset + piece.slots[reach.first].x + reach.skip if reach.first is not None else None
        if reach.style is Style.WORD:
            text = reach.text
        elif reach.style is Style.HAIRPIN:
            end = _end_of_hairpin(reach, piece, offset)
            fresh = start is not None or not row.at
            start = max(row.at, self.margin) if start is None else start
            text = (reach.text * fresh + "-" * (end - start - fresh)) if end > start else ""
        else:
            end = offset + (piece.slots[reach.last].x + 1 if reach.last is not None else piece.width)
            if reach.style is Style.BRACKET:
                start = max(row.at, self.margin) if start is None else start
                text = _bracket(reach, end - start)
            else:
                # Carried on: from the bar before without a gap, or from the left margin with its name again if there is room for it.
                named = start is not None or (not row.at and end > len(reach.text))
                start = row.at if start is None else start
                text = reach.text * named
                text += "-" * (end - start - len(text))
                if reach.last is not None and reach.first != reach.last:
                    text = text[:-1] + "|"
                elif reach.last is None and text == reach.text:
                    text += "-"  # its name alone would say that it ends where it begins
        if text:
            assert start is not None
            row.put(start, text, len(text))

    def _ending(self, ending: Ending, offset: int, end: int) -> None:
        """A bracket up to column ``end``, or with its hook in it; one carried on begins where the row stands, or at the margin."""
        row = self._row(ENDINGS)
        text = ending.text or ""
        start = offset if text else max(row.at, self.margin)
        text += "_" * (end - start - len(text)) + "|" * ending.hooked
        row.put(start, text, len(text))

    def _row(self, number: int) -> Row:
        found = self._rows.get(number)
        if found is None:
            found = self._rows[number] = Row(MARGINS.get(number, ""))
        return found

    def _line(self, right: str | None, left: str | None) -> None:
        line = between(right, left)
        at = self._at
        for index, parts in enumerate(self._strings):
            parts.append("-" * (at - self._cursors[index]))
            parts.append(line.dotted if index + 1 in self._dotted else line.plain)
        self._at = at + len(line.plain)
        self._cursors = [self._at] * len(self._strings)

    def lines(self) -> list[str]:
        """The finished lines, from top to bottom."""
        self._line(self._right, None)
        above = [self._rows[number] for number in sorted(self._rows) if number < STRINGS]
        below = [self._rows[number] for number in sorted(self._rows) if number > STRINGS]
        texts = ["".join(row.parts).rstrip() for row in above]
        texts.extend("".join(parts) for parts in self._strings)
        texts.extend("".join(row.parts).rstrip() for row in below)
        return texts


def _bracket(reach: Reach, width: int) -> str:
    """A tuplet's bracket: ``[-3-]``; open where it was cut."""
    left, right = "[" * (reach.first is not None), "]" * (reach.last is not None)
    number = reach.text if reach.first is not None else ""
    inner = max(width - len(left) - len(right), len(number))
    before = (inner - len(number)) // 2
    return left + "-" * before + number + "-" * (inner - len(number) - before) + right


def _end_of_hairpin(reach: Reach, piece: Piece, offset: int) -> int:
    """The column after a hairpin's last: where its last event begins, or a space before what comes after that event."""
    last, slots = reach.last, piece.slots
    if last is None or (reach.through and last + 1 == len(slots)):
        return offset + piece.width
    return offset + (slots[last + 1].x - 1 if reach.through else slots[last].x)
