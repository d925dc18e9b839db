"""The settings of the header or of a block, line by line."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics import Label
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax import allowvalue, backingvalues, chordvalues, neckvalues, runvalues, values
from tabforge.syntax.bars import row_bars
from tabforge.syntax.field import MAX_LINE, Field
from tabforge.syntax.grammar import ROWS, SETTINGS
from tabforge.syntax.lines import Line
from tabforge.syntax.origins import Pointer
from tabforge.syntax.reading import Reading
from tabforge.syntax.scalevalue import scale

MAX_LINES: Final = 5000
"""Lines of teaching notes in one place; see the document's schema."""

_READERS: Final[dict[str, Callable[[Field], object]]] = {
    "title": values.line,
    "subtitle": values.line,
    "author": values.line,
    "instrument": values.phrase,
    "tuning": neckvalues.tuning,
    "fretting": neckvalues.fretting,
    "capo": neckvalues.capo,
    "hand": neckvalues.hand,
    "scale": scale,
    "meter": values.meter,
    "tempo": values.tempo,
    "pickup": values.pickup,
    "player": neckvalues.player,
    "fingering": neckvalues.fingering,
    "strokes": neckvalues.strokes,
    "swing": values.swing,
    "drone": backingvalues.drone,
    "backing": backingvalues.backing,
    "click": backingvalues.click,
    "count-in": backingvalues.count_in,
    "allow": allowvalue.allow,
    "keys": values.keys,
    "layout": runvalues.layout,
    "path": runvalues.path,
    "order": runvalues.order,
    "tones": runvalues.tones,
    "from": runvalues.degree,
    "to": runvalues.degree,
    "octaves": runvalues.octaves,
    "finish": runvalues.finish,
    "voicing": chordvalues.voicing,
    "diagrams": chordvalues.diagrams,
}
"""Every setting but ``text``, of which there may be several, ``vamp`` and the rows of a run."""

_RIVALS: Final = {"to": "octaves", "octaves": "to"}


@dataclass(slots=True)
class Settings:
    """The settings of one place. ``values`` are the document's; ``given`` has the place of each that was written, right or wrong."""

    reading: Reading
    pointer: Pointer
    values: dict[str, object] = field(default_factory=dict)
    given: dict[str, Span] = field(default_factory=dict)

    def read(self, word: str, line: Line) -> Pointer:
        """Read a setting's line; the place in the document that it has, or would have."""
        report = self.reading.report
        span = Span(line.at, line.at + len(line.word))
        pointer: Pointer = (*self.pointer, word)
        if SETTINGS[word].many:
            return self._more(word, line)
        if word in self.given:
            report.add(
                codes.TWICE,
                span,
                f"{word} is given twice here",
                label="the second",
                expected=f"one line of {word}",
                others=(Label(span=self.given[word], text="the first"),),
            )
            return pointer
        self.given[word] = span
        if line.value == line.end:
            report.add(codes.NO_VALUE, span, f"{word} has no value", expected=SETTINGS[word].says)
            return pointer
        rival = _RIVALS.get(word, "")
        if rival in self.given:
            report.add(
                codes.AT_ODDS,
                span,
                f"this run says both {rival} and {word}",
                expected="one of the two",
                others=(Label(span=self.given[rival], text=f"{rival} stands here"),),
            )
            return pointer
        text = self.reading.text[line.value : line.end]
        reader = _READERS.get(word)
        if (reader or word == "vamp") and len(text) > MAX_LINE:
            report.limit(Span(line.value, line.end), f"the value of a setting has at most {MAX_LINE:,} characters")
            return pointer
        entry = Field(word, text, line.value, pointer, report, self.reading.origins)
        value = reader(entry) if reader else backingvalues.vamp(entry, self.reading) if word == "vamp" else self._row(word, entry)
        if value is not None:
            self.values[word] = value
            self.reading.origins.put(pointer, line.value, line.end)
        return pointer

    def _more(self, word: str, line: Line) -> Pointer:
        text = self.reading.text[line.value : line.end]
        notes = self.values.setdefault(word, [])
        assert isinstance(notes, list)
        pointer = (*self.pointer, word, len(notes))
        if len(notes) >= MAX_LINES:
            self.reading.report.limit(Span(line.at, line.end), f"there are at most {MAX_LINES:,} lines of {word} in one place")
        elif len(text) > MAX_LINE:
            self.reading.report.limit(Span(line.value, line.end), f"a line of words has at most {MAX_LINE:,} characters")
        else:
            notes.append(text)
            self.reading.origins.put(pointer, line.value if text else line.at, line.end)
        return pointer

    def _row(self, word: str, entry: Field) -> str | None:
        """The one bar of a run's row."""
        if "|" in entry.text:
            at = entry.at + entry.text.index("|")
            self.reading.report.add(
                codes.BAD_VALUE,
                Span(at, at + 1),
                f"the {word} of a run has no bar lines",
                expected=entry.says,
                help="it is begun again until the run ends, and the bars make themselves",
            )
            return None
        if "%" in entry.text:
            at = entry.at + entry.text.index("%")
            self.reading.report.add(codes.REPEATED_BAR, Span(at, at + 1), "a run has no bar before to repeat", expected=entry.says)
            return None
        start, end = entry.at, entry.at + len(entry.text)
        row = ROWS[word]
        bars = row_bars(self.reading, row, start, end)
        self.reading.origins.rows[entry.pointer] = bars.places
        return bars.bars[0] or None
