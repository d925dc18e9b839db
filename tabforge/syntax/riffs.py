"""A riff or a chord block while it is read: its settings, then its systems of rows."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics import Label
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.agreement import RowRead, sounding
from tabforge.syntax.bars import row_bars
from tabforge.syntax.grammar import BLOCKS, ROWS, SETTINGS
from tabforge.syntax.lines import Line
from tabforge.syntax.origins import Pointer
from tabforge.syntax.reading import Reading
from tabforge.syntax.rivals import NEEDED, at_odds, misplaced
from tabforge.syntax.settings import Settings
from tabforge.syntax.systems import VOICE2, SystemRead
from tabforge.syntax.words import VOICE

MAX_SYSTEMS: Final = 20_000
"""Systems of one riff; see the document's schema."""

BOTH: Final = tuple(word for word in ROWS if word in SETTINGS and "riff" in SETTINGS[word].where)
"""Words that are a setting of a riff and a row of it."""


@dataclass(slots=True)
class Anchors:
    """The places in the document that a line's comments belong to: those before it and those beside it."""

    before: Pointer
    beside: Pointer


@dataclass(slots=True)
class Riff:
    """A riff while it is read, or a chord block: ``kind`` says which.

    ``open`` is the system that the next row joins, if any; ``last`` the one that has not been checked yet. ``doubt``: a line could
    not be understood that may have been a row of the next system. ``below``: settings of a chord block below its rows, where they may
    stand as long as no more rows come.
    """

    reading: Reading
    pointer: Pointer
    span: Span
    settings: Settings
    kind: str = "riff"
    systems: list[dict[str, object]] = field(default_factory=list)
    open: SystemRead | None = None
    last: SystemRead | None = None
    doubt: bool = False
    below: list[tuple[str, Span]] = field(default_factory=list)

    def line(self, word: str, line: Line) -> Anchors:
        """Read a line that begins with a word of a riff."""
        if word == VOICE:
            return self._voice(line)
        if word not in ROWS or self.kind not in ROWS[word].where or self._is_setting(word, line):
            return self._setting(word, line)
        return self._row(word, line)

    def _is_setting(self, word: str, line: Line) -> bool:
        """Whether a line of meter or tempo is the riff's setting: above all rows, without a bar line."""
        if word not in BOTH or self.last is not None:
            return False
        text = self.reading.text[line.value : line.end]
        return text != "." and ("|" not in text or text.startswith('"'))

    def _setting(self, word: str, line: Line) -> Anchors:
        if self.last is not None and not SETTINGS[word].many:
            span = Span(line.at, line.at + len(line.word))
            if self.kind == "chords":
                self.below.append((word, span))
            else:
                misplaced(self.kind, word, span, self.reading.report)
        pointer = self.settings.read(word, line)
        return Anchors(pointer, pointer)

    def blank(self) -> Pointer | None:
        """A blank line comes; the system that it ends."""
        ended, self.open = self.open, None
        return ended.pointer if ended else None

    def unclear(self) -> None:
        """A line could not be understood, which may have been a row."""
        if self.open is None:
            self.doubt = True
        else:
            self.open.doubtful = True

    def _begin(self, start: int) -> SystemRead:
        self._finish()
        for word, span in self.below:
            misplaced(self.kind, word, span, self.reading.report)
        self.below.clear()
        self.open = self.last = SystemRead((*self.pointer, "systems", len(self.systems)), start, start, self.kind, doubtful=self.doubt)
        self.doubt = False
        return self.open

    def _finish(self) -> None:
        """End the last system, if there is one that has not been ended."""
        if self.last is None:
            return
        if len(self.systems) < MAX_SYSTEMS:
            self.systems.append(self.last.finished(self.reading))
        else:
            self.reading.report.limit(Span(self.last.start, self.last.end), f"a {BLOCKS[self.kind]} has at most {MAX_SYSTEMS:,} systems")
        self.open = self.last = None

    def _row(self, word: str, line: Line) -> Anchors:
        span = Span(line.at, line.at + len(line.word))
        row, report = ROWS[word], self.reading.report
        system, fresh = self.open, False
        misplaced = system is not None and len(system.voices) > 1 and not row.voice2 and word not in system.voices[0]
        if misplaced and system is not None:
            report.add(
                codes.BAD_VOICE,
                span,
                f"a row of {word} cannot stand in voice 2",
                expected=f"{word} above the line voice 2",
                help="if it begins the next system, put a blank line before it",
            )
        elif system is None or word in system.rows or (not row.voice2 and word in system.voices[0]):
            system, fresh = self._begin(line.at), True
        assert system is not None  # begun if there was none
        number = 0 if misplaced else len(system.voices) - 1
        pointer = (*system.pointer, VOICE2, word) if number else (*system.pointer, word)
        anchors = Anchors(system.pointer if fresh else pointer, pointer)
        other = sounding(system.voices[number]) if row.sounds else None
        if other is not None:
            report.add(
                codes.TWO_ROWS_SOUND,
                span,
                f"this system has both {other.word} and {word}",
                expected="one row that says what sounds",
                others=(Label(span=other.span, text=f"{other.word} stands here"),),
                help="a second voice begins with the line voice 2; a blank line begins the next system",
            )
            return anchors
        if at_odds(word, span, system.voices[number], report):
            return anchors
        bars = row_bars(self.reading, row, line.value, line.end)
        system.voices[number][word] = RowRead(word, span, bars)
        system.end = max(system.end, line.end)
        return anchors

    def _voice(self, line: Line) -> Anchors:
        span = Span(line.at, max(line.end, line.at + len(VOICE)))
        report = self.reading.report
        number = self.reading.text[line.value : line.end]
        system = self.open or (self.last if self.last is not None and len(self.last.voices) == 1 else None)
        if number != "2":
            report.add(
                codes.BAD_VOICE,
                span,
                "a riff has two voices, and only the second is announced",
                expected="voice 2",
                suggestion="voice 2",
                help="the rows of the first voice stand above it, without a line of their own",
            )
            if number == "1":
                return Anchors(self.pointer, self.pointer)
        if system is None:
            report.add(codes.BAD_VOICE, span, "voice 2 has no first voice above it", expected="the rows of the first voice, then voice 2")
            system = self._begin(line.at)
            system.doubtful = True
        elif self.open is None:
            report.add(
                codes.BAD_VOICE,
                span,
                "a blank line parts voice 2 from the first voice",
                expected="voice 2 directly below the rows of its system",
            )
            self.open = system
        elif len(system.voices) > 1:
            report.add(
                codes.BAD_VOICE,
                span,
                "this system has a voice 2 already",
                expected="two voices",
                others=(Label(span=system.voice_span or span, text="it begins here"),),
            )
            return Anchors(system.pointer, system.pointer)
        system.second(span)
        pointer = (*system.pointer, VOICE2)
        return Anchors(pointer, pointer)

    def close(self) -> dict[str, object]:
        """The riff ends: the document's systems."""
        self._finish()
        if not self.systems and not self.doubt:
            self.reading.report.add(
                codes.NO_ROWS,
                self.span,
                f"this {BLOCKS[self.kind]} has no rows",
                expected=NEEDED[self.kind],
            )
        return {**self.settings.values, "systems": self.systems}
