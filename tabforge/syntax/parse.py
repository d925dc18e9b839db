"""Reading a text of the riff language: a document, the places of its values, and all that is wrong with it, in one pass."""

from __future__ import annotations

import re
from typing import Final, cast

from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import text as codes
from tabforge.limits import MAX_LINES, MAX_SOURCE_BYTES
from tabforge.source import Source, Span
from tabforge.syntax.blocks import MAX_BLOCKS, Run, Text, is_name, quoted_notes, read_name
from tabforge.syntax.comments import Comments, settle
from tabforge.syntax.document import Study
from tabforge.syntax.grammar import BLOCKS, ROWS, SETTINGS, UNSEEN_TEXT
from tabforge.syntax.lines import BOM, Line, lines
from tabforge.syntax.origins import Origins, Pointer
from tabforge.syntax.reading import Reading
from tabforge.syntax.report import Report
from tabforge.syntax.riffs import Anchors, Riff
from tabforge.syntax.settings import Settings
from tabforge.syntax.textorigins import TextOrigins
from tabforge.syntax.words import known, understood

_UNSEEN: Final = re.compile(rf"[{UNSEEN_TEXT}]")
_OLD_BREAK: Final = re.compile(r"\r(?!\n)")


def parse(source: Source) -> tuple[Study, Origins, tuple[Diagnostic, ...]]:
    """Read a text.

    The document holds all that could be understood; without errors among the diagnostics it is valid against the study schema.
    With errors it may hold poison cells (``grammar.POISON``). The origins tell where in the text each of its values stands.
    """
    report = Report()
    text = _readable(source.text, report)
    if text is None:
        return {"study": 1, "blocks": []}, TextOrigins(source.text), report.finish()
    reader = _Reader(Reading(text, report, TextOrigins(text)))
    study = reader.read()
    return study, reader.reading.origins, report.finish()


def _readable(text: str, report: Report) -> str | None:
    """The text with a space for every unseen character, which readers speak of, and its lines broken alike; None if it is too large."""
    whole = Span(0, 0)
    if "\r" in text:
        text = _OLD_BREAK.sub("\n", text)
    if len(text) > MAX_SOURCE_BYTES or len(text.encode("utf-8", "surrogatepass")) > MAX_SOURCE_BYTES:
        report.limit(whole, f"this text is larger than {MAX_SOURCE_BYTES // 1024**2} MiB", "a study may be split into several files")
        return None
    if text.count("\n") > MAX_LINES:
        report.limit(whole, f"this text has more than {MAX_LINES:,} lines", "a study may be split into several files")
        return None
    start = len(BOM) if text.startswith(BOM) else 0
    return text[:start] + _UNSEEN.sub(" ", text[start:]) if _UNSEEN.search(text, start) else text


class _Reader:
    """Reads a text line by line. ``block`` is the block that is open, None in the header."""

    def __init__(self, reading: Reading) -> None:
        self.reading, self.report = reading, reading.report
        self.header = Settings(reading, ())
        self.comments = Comments(reading.text, reading.report)
        self.blocks: list[dict[str, object]] = []
        self.block: Run | Riff | Text | None = None
        self.head: dict[str, object] = {}
        self.pointer: Pointer = ()
        self.at_margin = False
        self.full = False

    def read(self) -> Study:
        """The whole document."""
        comments = self.comments
        for line in lines(self.reading.text):
            if line.word:
                anchors = self._line(line)
                if self.full:
                    break
                comments.before(anchors.before)
                if line.comment >= 0:
                    comments.beside(line, anchors.beside)
            elif line.comment >= 0:
                comments.hold(line)
            elif self.block is not None:
                ended = self.block.blank()
                if ended is not None:
                    comments.parted(ended)
        self._close()
        comments.text_ends()
        study: dict[str, object] = {"study": 1, **_in_order(self.header.values), "blocks": self.blocks}
        if comments.found:
            settle(comments.found, self.blocks)
            study["comments"] = comments.found
        return cast(Study, study)

    def _line(self, line: Line) -> Anchors:
        if isinstance(self.block, Text) and not self.blocks and self.block.was_a_setting(line) and not self._opens(line.word, line):
            quoted_notes(str(self.head.get("name", "")), self.pointer, self.header, self.reading)
            self.block, self.head, self.pointer = None, {}, ()
        block, here = self.block, Anchors(self.pointer, self.pointer)
        if isinstance(block, Text) and (line.indented or self._belongs(line)):
            return block.line(line.word, line)
        place = self.head.get("kind", "header")
        span = Span(line.at, line.at + len(line.word))
        word = understood(line.word, str(place), span, self.report, self._is_row(line.word, line))
        as_row = word is not None and self._is_row(word, line)
        if word is None or (as_row and place not in ROWS[word].where):
            if block is not None and line.word in SETTINGS and SETTINGS[line.word].where == {"header"}:
                self.header.read(line.word, line)
            elif block is not None:
                block.unclear()
            return here
        if not as_row and self._opens(word, line):
            return self._open(word, line)
        if block is None:
            pointer = self.header.read(word, line)
            return Anchors(pointer, pointer)
        if not line.indented and not self.at_margin:
            self.at_margin = True
            self.report.add(
                codes.AT_MARGIN,
                span,
                f"the lines of a {BLOCKS[str(place)]} are indented, and {line.word} stands at the left margin",
                expected="two spaces before each line of the block",
                help="what holds for the whole study stands above the first block"
                if word in SETTINGS and "header" in SETTINGS[word].where
                else None,
            )
        if not line.indented and word in SETTINGS and word not in ROWS and not isinstance(block, Text):
            pointer = block.settings.read(word, line)
            return Anchors(pointer, pointer)
        return block.line(word, line)

    def _belongs(self, line: Line) -> bool:
        """Whether a line at the margin below a text is a line of that text, only not indented; reports it."""
        if self._opens(line.word, line) if line.word == "text" else known(line.word) or line.word.casefold() in BLOCKS:
            return False
        if not self.at_margin:
            self.at_margin = True
            self.report.add(
                codes.AT_MARGIN,
                Span(line.at, line.end),
                "the lines of a text are indented, and this one stands at the left margin",
                expected="two spaces before each line of the text",
            )
        return True

    def _is_row(self, word: str, line: Line) -> bool:
        """Whether a word that is both the kind of a block and a row of a riff is the row: its block has its name in quotes, or none."""
        if word not in ROWS or word not in BLOCKS:
            return False
        value = self.reading.text[line.value : line.end]
        in_riff = self.head.get("kind") == "riff"
        return (line.indented or (in_riff and value != "")) and value[:1] not in ('"', "“", "„") and (in_riff or value != "")

    def _opens(self, word: str, line: Line) -> bool:
        """Whether a line opens a block."""
        if word not in BLOCKS:
            return False
        value = self.reading.text[line.value : line.end]
        if word in SETTINGS:
            return not line.indented and (is_name(value) or (self.block is not None and value[:1] in '"“„'))
        if line.indented:
            self.report.add(
                codes.AT_MARGIN,
                Span(line.at, line.at + len(line.word)),
                f"a block begins at the left margin, and this {word} is indented",
                expected=f"{word} without spaces before it",
            )
        return True

    def _open(self, kind: str, line: Line) -> Anchors:
        self._close()
        if len(self.blocks) >= MAX_BLOCKS:
            self.full = True
            self.report.limit(Span(line.at, line.end), f"a study has at most {MAX_BLOCKS:,} blocks")
        pointer = self.pointer = ("blocks", len(self.blocks))
        self.at_margin = False
        self.head = {"kind": kind}
        self.reading.origins.put(pointer, line.at, line.end)
        name = read_name(kind, line, pointer, self.reading)
        if name is not None:
            self.head["name"] = name
        settings = Settings(self.reading, pointer)
        if kind in ("riff", "chords"):
            self.block = Riff(self.reading, pointer, Span(line.at, line.end), settings, kind)
        else:
            self.block = Run(settings) if kind == "run" else Text(self.reading, pointer)
        return Anchors(pointer, pointer)

    def _close(self) -> None:
        if self.block is not None and not self.full:
            self.comments.block_ends(self.pointer)
            self.blocks.append({**self.head, **_in_order(self.block.close())})
        self.block = None


def _in_order(values: dict[str, object]) -> dict[str, object]:
    ordered = {word: values[word] for word in SETTINGS if word in values}
    return {**ordered, **values}
