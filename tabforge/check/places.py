"""From an event back to the cells that stand under it in the source.

An event knows the cell it sounds from. The marks, fingers and strokes of the same column are found in the document, and only once there is
something to say about them.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, field

from tabforge.compile.cells import cells
from tabforge.model.techniques import parse_mark
from tabforge.source import Span
from tabforge.syntax.document import Study, System, Voice
from tabforge.syntax.grammar import SOUNDING
from tabforge.syntax.origins import Origins, Pointer

_SIDES = ("marks", "dynamics", "fingers", "picks", "chords")
_AGAIN = ("marks", "fingers", "picks")
"""Rows that a bar ``%`` of the row that sounds repeats with it."""


@dataclass(slots=True)
class _Bar:
    """A bar of a row that sounds, and what stands under it: a text and its pointer each. ``signs`` is its cell of the signs row."""

    text: str
    at: Pointer
    sides: dict[str, tuple[str, Pointer]] = field(default_factory=dict)
    signs: tuple[str, Pointer] | None = None


class Places:
    """The bars of a document's riffs by where they are written."""

    def __init__(self, document: Study, origins: Origins) -> None:
        """Walks through the bars of all riffs once."""
        self._origins = origins
        self._bars: dict[int, list[_Bar]] = {}
        for number, block in enumerate(document.get("blocks", ())):
            systems: Sequence[System] = block.get("systems", ())
            at: Pointer = ("blocks", number, "systems")
            self._walk([(system, (*at, index)) for index, system in enumerate(systems)])
            self._walk([(system["voice2"], (*at, index, "voice2")) for index, system in enumerate(systems) if "voice2" in system])
        self._starts = sorted(self._bars)

    def _walk(self, systems: Sequence[tuple[Voice | System, Pointer]]) -> None:
        """Takes in one voice of a block. A bar ``%`` is the bar before."""
        before: dict[str, tuple[str, Pointer]] = {}
        for system, at in systems:
            kind = next((word for word in SOUNDING if word in system), None)
            for index, text in enumerate(system[kind] if kind else ()):  # type: ignore[literal-required]  # one of the three
                again = text == "%"
                found = _Bar(*_fetch(before, kind or "", text, (*at, kind or "", index)))
                for word in _SIDES:
                    row: Sequence[str] = system.get(word, ())  # type: ignore[assignment]  # a row
                    side = row[index] if index < len(row) else ""
                    if not side and again and word in _AGAIN and word in before:
                        side = "%"
                    if side:
                        found.sides[word] = _fetch(before, word, side, (*at, word, index))
                    else:
                        before.pop(word, None)
                signs: Sequence[str] = system.get("signs", ())  # type: ignore[assignment]  # a row of systems alone
                if index < len(signs):
                    found.signs = (signs[index], (*at, "signs", index))
                self._bars.setdefault(self._origins.span(found.at).start, []).append(found)

    def cell(self, sounding: Span, row: str, wanted: Collection[str]) -> tuple[Span, Pointer | None]:
        """The place of a row's cell under a sounding cell, or its part that is wanted; the sounding cell's own if there is none."""
        fallback: tuple[Span, Pointer | None] | None = None
        for text, at, column in self._under(sounding, row):
            found = cells(text)
            if column >= len(found.texts) or found.texts[column] in (".", "?"):
                continue
            starts = self._origins.starts(at)
            place = starts[found.places[column]] if starts else None
            offset = _part(found.texts[column], row, wanted)
            if place is None:
                fallback = fallback or (self._origins.span(at), at)
            elif offset is not None:
                return Span(place + offset[0], place + offset[1]), at
            else:
                fallback = fallback or (Span(place, place + len(found.texts[column])), at)
        return fallback or (sounding, None)

    def texts(self, sounding: Span, row: str) -> Iterator[str]:
        """What a row says under a sounding cell: once for each column that was written with it."""
        for text, _, column in self._under(sounding, row):
            found = cells(text)
            if column < len(found.texts):
                yield found.texts[column]

    def bare(self, sounding: Span) -> bool:
        """Whether a sounding cell is a dead note that takes its string from the note before: one sign in a row of degrees or notes."""
        near = bisect_right(self._starts, sounding.start)
        bars = self._bars[self._starts[near - 1]] if near else ()
        return any(bar.at[-2] != "frets" and "x" in cells(bar.text).texts for bar in bars) and sounding.end - sounding.start == 1

    def sign(self, bar: Span, sign: str) -> tuple[Span, Pointer | None]:
        """The place of a sign's cell over a bar, or the bar's own."""
        for found in self._bars.get(bar.start, ()):
            if found.signs and sign in found.signs[0].split("+"):
                return self._origins.span(found.signs[1]), found.signs[1]
        return bar, None

    def _under(self, sounding: Span, row: str) -> Iterator[tuple[str, Pointer, int]]:
        """A row's bar and a column in it for each column that sounds from this cell."""
        near = bisect_right(self._starts, sounding.start)
        for bar in self._bars[self._starts[near - 1]] if near else ():
            if row not in bar.sides:
                continue
            starts = self._origins.starts(bar.at)
            for column, place in enumerate(cells(bar.text).places):
                if starts and starts[place] == sounding.start:
                    yield (*bar.sides[row], column)


def _fetch(before: dict[str, tuple[str, Pointer]], row: str, text: str, at: Pointer) -> tuple[str, Pointer]:
    if text == "%":
        return before.get(row, (text, at))
    before[row] = (text, at)
    return text, at


def _part(text: str, row: str, wanted: Collection[str]) -> tuple[int, int] | None:
    """Where in a cell the wanted technique or text stands, as offsets; None if it does not."""
    start = 0
    for part in text.split("+"):
        mark = parse_mark(part) if row == "marks" else None
        if (mark.technique.name if mark else part) in wanted:
            return start, start + len(part)
        start += len(part) + 1
    return None
