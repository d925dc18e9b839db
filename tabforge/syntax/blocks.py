"""Blocks: the line that opens one, and runs and texts while they are read."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.field import MAX_LINE, plain_signs
from tabforge.syntax.grammar import BLOCKS, SETTINGS
from tabforge.syntax.lines import Line
from tabforge.syntax.origins import Pointer
from tabforge.syntax.reading import Reading
from tabforge.syntax.report import quoted
from tabforge.syntax.riffs import Anchors
from tabforge.syntax.settings import MAX_LINES, Settings

MAX_NAME: Final = 200
"""Characters of a block's name, and MAX_BLOCKS of a study; see the document's schema."""

MAX_BLOCKS: Final = 5000

_NAME: Final = re.compile(r'"([^"]*)"')


def is_name(text: str) -> bool:
    """Whether a text is a block's name in quotes, or no name at all."""
    return not text or _NAME.fullmatch(text) is not None


def read_name(kind: str, line: Line, pointer: Pointer, reading: Reading) -> str | None:
    """The name of the block that a line opens; None if it has none."""
    text = reading.text[line.value : line.end]
    span = Span(line.value, line.end)
    if not text:
        return None
    found = _NAME.fullmatch(text)
    name = found[1] if found else _mended(kind, text, span, reading)
    if len(name) > MAX_NAME:
        reading.report.limit(span, f"the name of a block has at most {MAX_NAME} characters")
        return None
    reading.origins.put((*pointer, "name"), line.value, line.end)
    return name


def _mended(kind: str, text: str, span: Span, reading: Reading) -> str:
    report = reading.report
    plain = plain_signs(text)
    begun = re.match(r'"([^"]*)"\s*', plain)
    if begun and begun.end() < len(plain):
        rest = Span(span.start + begun.end(), span.end)
        report.add(
            codes.BLOCK_NAME,
            rest,
            f"nothing stands behind the name of a {BLOCKS[kind]}",
            expected="the end of the line",
            help="settings and rows have lines of their own below",
        )
        return begun[1]
    name = plain.replace('"', "").strip("'").strip()
    right = f'"{name[:MAX_NAME]}"'
    if begun:
        report.add(
            codes.BLOCK_NAME,
            span,
            f"the name of a {BLOCKS[kind]} stands in straight quotes",
            expected='quotes such as those of "Undertow"',
            suggestion=right,
        )
        return name
    if plain.startswith('"'):
        report.add(
            codes.UNCLOSED_QUOTE,
            span,
            f"the quotes of {quoted(text)} are not closed",
            expected="a quotation mark at their end",
            suggestion=right,
        )
    else:
        report.add(
            codes.BLOCK_NAME,
            span,
            f"the name of a {BLOCKS[kind]} stands in quotes",
            expected='a name in quotes such as "Undertow"',
            suggestion=right,
        )
    return name


@dataclass(slots=True)
class Run:
    """A run while it is read."""

    settings: Settings

    def line(self, word: str, line: Line) -> Anchors:
        """Read a line that begins with a word of a run."""
        pointer = self.settings.read(word, line)
        return Anchors(pointer, pointer)

    def blank(self) -> Pointer | None:
        """A blank line means nothing in a run."""
        return None

    def unclear(self) -> None:
        """A line could not be understood."""

    def close(self) -> dict[str, object]:
        """The run ends: what the document says of it."""
        return dict(self.settings.values)


@dataclass(slots=True)
class Text:
    """A text block while it is read. ``gap`` counts blank lines since the last line."""

    reading: Reading
    pointer: Pointer
    lines: list[str] = field(default_factory=list)
    gap: int = 0

    def line(self, word: str, line: Line) -> Anchors:
        """Read a line of text: all of it, ``word`` included."""
        report = self.reading.report
        text = self.reading.text[line.at : line.end]
        if self.lines:
            self.lines += [""] * self.gap
        self.gap = 0
        pointer = (*self.pointer, "lines", len(self.lines))
        if len(text) > MAX_LINE:
            report.limit(Span(line.at, line.end), f"a line of words has at most {MAX_LINE:,} characters")
        else:
            self.lines.append(text)
            self.reading.origins.put(pointer, line.at, line.end)
        if len(self.lines) > MAX_LINES:
            report.limit(Span(line.at, line.end), f"a text has at most {MAX_LINES:,} lines")
            del self.lines[MAX_LINES:]
        return Anchors(pointer, pointer)

    def was_a_setting(self, line: Line) -> bool:
        """Whether the header goes on at a line below, so that what looked like a text's name was a line of teaching notes."""
        goes_on = not line.indented and line.word in SETTINGS and "header" in SETTINGS[line.word].where
        return goes_on and not self.lines

    def blank(self) -> Pointer | None:
        """A blank line parts paragraphs."""
        self.gap += 1
        return None

    def unclear(self) -> None:
        """A line could not be understood."""

    def close(self) -> dict[str, object]:
        """The text ends: what the document says of it."""
        return {"lines": self.lines}


def quoted_notes(name: str, pointer: Pointer, header: Settings, reading: Reading) -> None:
    """Report the quotes of teaching notes in the header that looked like a text block, and put the notes where they belong."""
    span = reading.origins.span((*pointer, "name"))
    reading.report.add(
        codes.WRONG_PLACE,
        span,
        "words in quotes behind text begin a text block, but the header goes on below them",
        expected="a line of teaching notes without quotes, or the block below the last setting",
        suggestion=name or None,
    )
    if name:
        notes = header.values.setdefault("text", [])
        assert isinstance(notes, list)
        reading.origins.put(("text", len(notes)), span.start, span.end)
        notes.append(name)
