"""Rows that stand together, gathered line by line, and what the document says of them."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

from tabforge.source import Span
from tabforge.syntax.agreement import RowRead, bar_lines, nothing, same_bars, silent, sounding
from tabforge.syntax.grammar import ROWS
from tabforge.syntax.origins import Pointer
from tabforge.syntax.reading import MAX_SIGNS, Reading

VOICE2: Final = "voice2"


@dataclass(slots=True)
class SystemRead:
    """A system while it is read. ``kind``: its block's. ``voices``: the rows of the first and of the second voice.

    ``voice_span``: where ``voice 2`` stands. ``doubtful``: a line in it could not be understood, so that a row may be missing
    that the user wrote.
    """

    pointer: Pointer
    start: int
    end: int
    kind: str = "riff"
    voices: list[dict[str, RowRead]] = field(default_factory=lambda: [{}])
    voice_span: Span | None = None
    doubtful: bool = False

    @property
    def rows(self) -> dict[str, RowRead]:
        """The rows of the voice that is being written."""
        return self.voices[-1]

    def second(self, span: Span) -> None:
        """Begin the second voice."""
        self.voices.append({})
        self.voice_span, self.end = span, span.end

    def finished(self, reading: Reading) -> dict[str, object]:
        """The system as the document has it: its rows checked against one another, and their places noted."""
        document: dict[str, object] = {}
        counts: list[int] = []
        for number, rows in enumerate(self.voices):
            quiet = sounding(rows) is None
            if quiet:
                span = next((row.span for row in rows.values()), self.voice_span if number else None)
                silent(self.kind, rows, span or Span(self.start, self.end), counts, None if self.doubtful else reading.report)
            if (quiet or self.doubtful) and self.kind == "riff" and "rhythm" not in rows and (number or self.pointer[-1] == 0):
                rows["rhythm"] = nothing("rhythm", Span(self.end, self.end), 1)
            counts.append(same_bars(rows, sounding(self.voices[0]) if number else None, reading.report))
        signs = bar_lines(self.voices, counts[0], reading.report)
        if signs and not reading.sign_room(len(signs)):
            reading.report.limit(Span(self.start, self.end), f"a study has at most {MAX_SIGNS:,} bar lines that are not plain")
            signs = {}
        for number, rows in enumerate(self.voices):
            pointer = (*self.pointer, VOICE2) if number else self.pointer
            voice = {word: rows[word].bars.bars for word in ROWS if word in rows}
            for word, row in rows.items():
                reading.origins.rows[(*pointer, word)] = row.bars.places
                reading.origins.put((*pointer, word), *row.cells)
            if not number:
                document.update(voice)
                if signs:
                    document["barlines"] = {str(before): sign for before, (sign, _) in sorted(signs.items())}
            else:
                document[VOICE2] = voice
                if self.voice_span is not None:
                    reading.origins.put(pointer, self.voice_span.start, self.voice_span.end)
        for before, (_, row_span) in signs.items():
            reading.origins.put((*self.pointer, "barlines", str(before)), *row_span)
        reading.origins.put(self.pointer, self.start, self.end)
        return document
