"""Whether the rows of a system agree: in what sounds, in the number of their bars and in their bar lines."""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from dataclasses import dataclass

from tabforge.diagnostics import Label
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.grammar import POISON, ROWS, SOUNDING
from tabforge.syntax.reading import Bars, begin_empty
from tabforge.syntax.report import Report, listed
from tabforge.syntax.textorigins import RowPlaces


@dataclass(frozen=True, slots=True)
class RowRead:
    """A row of a system: its word, where that stands, and its bars."""

    word: str
    span: Span
    bars: Bars

    @property
    def count(self) -> int:
        """How many bars it has."""
        return len(self.bars.bars)

    @property
    def cells(self) -> Span:
        """The place of all its cells."""
        places = self.bars.places.places
        return Span(places[0], max(places[0], places[-1])) if places else self.span

    def cut(self, count: int) -> None:
        """Leave out what is beyond a number of bars."""
        del self.bars.bars[count:], self.bars.places.places[2 * count :]

    def fill(self, count: int) -> None:
        """Add bars of poison up to a number of bars."""
        places = self.bars.places
        end = places.places[-1] if places.places else self.span.end
        for index in range(self.count, count):
            places.odd[index] = array("I", [end])
            places.places.extend((end, end))
            self.bars.bars.append(POISON)


def sounding(rows: dict[str, RowRead]) -> RowRead | None:
    """The row of a voice that sounds."""
    return next((rows[word] for word in SOUNDING if word in rows), None)


def silent(kind: str, rows: dict[str, RowRead], span: Span, counts: Sequence[int], report: Report | None) -> None:
    """Report a voice in which nothing sounds, and give it a row of poison.

    ``kind`` is its block's; ``counts`` are the bars of the voice before it.
    """
    words = [word for word in SOUNDING if kind in ROWS[word].where]
    if report is not None:
        voice = "voice 2" if counts else "this system"
        has = f": only {' and '.join(rows)}" if rows else ""
        advice = "rows that belong together stand together; a blank line, or a row that is there already, begins the next system"
        report.add(
            codes.NO_ROW_SOUNDS,
            span,
            f"{voice} has no row of {listed(words)}{has}",
            expected="one row that says what sounds",
            help=None if counts else advice,
        )
    count = counts[0] if counts else max((row.count for row in rows.values()), default=0) or 1
    rows[words[0]] = nothing(words[0], Span(span.end, span.end), count)


def nothing(word: str, span: Span, count: int) -> RowRead:
    """A row of poison, in whose stead nothing more is said."""
    row = RowRead(word, span, Bars([], RowPlaces(array("I")), span.start))
    row.fill(count)
    return row


def same_bars(rows: dict[str, RowRead], first: RowRead | None, report: Report) -> int:
    """Bring the rows of a voice to the bars of its row that sounds, and those of a second voice to the ``first``; how many these are."""
    sounds = sounding(rows)
    assert sounds is not None  # ``silent`` has seen to it
    leading = sounds.bars.leading or ("rhythm" in rows and rows["rhythm"].bars.leading)
    for row in rows.values():
        if row.bars.leading and not leading and row.count < sounds.count:
            begin_empty(ROWS[row.word], row.bars)
    long = [row for row in rows.values() if row.count > sounds.count]
    if long:
        _uneven(sounds, long, report)
    if first is not None and first.count != sounds.count:
        report.add(
            codes.BARS_DISAGREE,
            sounds.span,
            f"voice 2 has {_bars(sounds.count)} where voice 1 has {_bars(first.count)}",
            label=_bars(sounds.count),
            others=(Label(span=first.span, text=_bars(first.count)),),
            help="voice 2 has the same bars as voice 1; where it is silent it has rests",
        )
        sounds.fill(first.count)
        sounds.cut(first.count)
    for row in rows.values():
        row.cut(sounds.count)
    return sounds.count


def _uneven(sounds: RowRead, long: list[RowRead], report: Report) -> None:
    row = long[0]
    if len(long) == 1:
        said = f"the row of {row.word} has {_bars(row.count)}, the row of {sounds.word} has {_bars(sounds.count)}"
    else:
        counts = ", ".join(f"{each.word} {each.count}" for each in long)
        said = f"the rows of this system differ in their bars: {sounds.word} {sounds.count}, {counts}"
    report.add(
        codes.BARS_DISAGREE,
        row.bars.places.span(sounds.count),
        said,
        label=f"bar {sounds.count + 1} of {row.word}",
        others=(Label(span=sounds.span, text=_bars(sounds.count)), *(Label(span=each.span, text=_bars(each.count)) for each in long[1:])),
        help=f"a bar line is missing in the row of {sounds.word}, or there is one too many in the other",
    )


Signs = dict[int, tuple[str, Span]]
"""Bar lines that are not plain, with their places, by the number of bars before them."""


def bar_lines(voices: Sequence[dict[str, RowRead]], count: int, report: Report) -> Signs:
    """The bar lines of a system that are not plain, from whatever row they stand in; signs at odds are reported."""
    signs: Signs = {}
    ends: list[tuple[RowRead, int, str, Span]] = []
    for rows in voices:
        first = sounding(rows)
        for row in sorted(rows.values(), key=lambda row: row is not first):
            for before, sign, offset in row.bars.signs:
                span = Span(offset, offset + len(sign))
                if before == row.count < count:
                    ends.append((row, before, sign, span))
                elif before <= count and signs.setdefault(before, (sign, span))[0] != sign:
                    other, place = signs[before]
                    _at_odds(before, sign, span, other, place, report)
    for row, before, sign, span in ends:
        if before in signs and signs[before][0] != sign:
            _at_odds(before, sign, span, *signs[before], report)
        elif before not in signs:
            report.add(
                codes.SIGNS_DISAGREE,
                span,
                f"the row of {row.word} ends with {sign} after {_bars(before)}, but the system goes on",
                expected="a plain bar line, or nothing, at the end of a row that is shorter than the others",
                help=f"{sign} stands in the row that sounds, where the passage ends",
            )
    return signs


def _at_odds(before: int, sign: str, span: Span, other: str, place: Span, report: Report) -> None:
    where = f"after bar {before}" if before else "at the beginning"
    report.add(
        codes.SIGNS_DISAGREE,
        span,
        f"one row has {sign} {where} where another has {other}",
        expected=f"{other} in both, or | in one of them",
        others=(Label(span=place, text=other),),
    )


def _bars(count: int) -> str:
    return "1 bar" if count == 1 else f"{count:,} bars"
