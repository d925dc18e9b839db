"""Where the values of a TOML document stand in its text (TOML 1.0.0).

The text is known to be well-formed, for the standard library has read it; that library tells no places.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Sequence
from typing import Final

from tabforge.source import NOWHERE, Span
from tabforge.syntax.origins import Pointer

_BLANK: Final = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_STRING: Final = re.compile(r'"""(?:[^\\]|\\.)*?"""(?:"{0,2})|\'\'\'.*?\'\'\'(?:\'{0,2})|"(?:[^"\\]|\\.)*+"|\'[^\']*+\'', re.DOTALL)
_WORD: Final = re.compile(r"[^\s,\]}#]++(?:[ ][0-9:.]++[Z0-9:+-]*+)?")  # a date and a time may stand apart
_KEY: Final = re.compile(r"[A-Za-z0-9_-]++")
_DOT: Final = re.compile(r"[ \t]*+\.[ \t]*+")


class TomlOrigins:
    """The places of a document's values and keys. The text is looked through once, when a place is first asked for."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._values: dict[Pointer, Span] = {}
        self._keys: dict[Pointer, Span] = {}

    def span(self, pointer: Pointer) -> Span:
        """The place of a value, between its quotes if it is a text, or that of its nearest ancestor in the document."""
        self._scan()
        while pointer and pointer not in self._values:
            pointer = pointer[:-1]
        return self._values.get(pointer, NOWHERE)

    def key(self, pointer: Pointer) -> Span:
        """The place of the key that is the last step of ``pointer``, or of the nearest thing around it."""
        self._scan()
        return self._keys.get(pointer) or self.span(pointer)

    def starts(self, pointer: Pointer) -> Sequence[int]:
        """A manifest has no bars."""
        return ()

    def _scan(self) -> None:
        if self._values:
            return
        self._values[()] = NOWHERE
        counts: dict[Pointer, int] = {}
        table: Pointer = ()
        at = self._blank(0)
        while at < len(self._text):
            if self._text[at] == "[":
                listed = self._text.startswith("[[", at)
                table, at = self._header(at, listed, counts)
            else:
                at = self._pair(table, at)
            at = self._blank(at)

    def _header(self, at: int, listed: bool, counts: dict[Pointer, int]) -> tuple[Pointer, int]:
        names, end = self._names(self._blank(at + 1 + listed))
        pointer: Pointer = ()
        for number, (name, place) in enumerate(names):
            pointer = (*pointer, name)
            self._values.setdefault(pointer, place)
            self._keys.setdefault(pointer, place)
            if listed and number == len(names) - 1:
                counts[pointer] = counts.get(pointer, 0) + 1
            if pointer in counts:
                pointer = (*pointer, counts[pointer] - 1)
                self._values.setdefault(pointer, place)
        return pointer, self._text.index("]", end) + 1 + listed

    def _pair(self, table: Pointer, at: int) -> int:
        names, end = self._names(at)
        pointer = table
        for name, place in names:
            pointer = (*pointer, name)
            self._keys.setdefault(pointer, place)
            self._values.setdefault(pointer, place)
        return self._value(pointer, self._blank(self._text.index("=", end) + 1))

    def _value(self, pointer: Pointer, at: int) -> int:
        opening = self._text[at : at + 1]
        if opening == "[":
            self._values[pointer] = Span(at, at + 1)
            at, number = self._blank(at + 1), 0
            while self._text[at : at + 1] not in ("]", ""):
                at = self._comma(self._value((*pointer, number), at))
                number += 1
            return at + 1
        if opening == "{":
            self._values[pointer] = Span(at, at + 1)
            at = self._blank(at + 1)
            while self._text[at : at + 1] not in ("}", ""):
                at = self._comma(self._pair(pointer, at))
            return at + 1
        found = _STRING.match(self._text, at)
        if found:
            quotes = 3 if found[0][:3] in ('"""', "'''") else 1
            inside = Span(found.start() + quotes, found.end() - quotes)
            self._values[pointer] = inside if inside.start < inside.end else Span(found.start(), found.end())
            return found.end()
        word = _WORD.match(self._text, at)
        end = word.end() if word else at + 1
        self._values[pointer] = Span(at, end)
        return end

    def _names(self, at: int) -> tuple[list[tuple[str, Span]], int]:
        """The parts of a dotted key, and where it ends."""
        names: list[tuple[str, Span]] = []
        while True:
            found = _STRING.match(self._text, at) or _KEY.match(self._text, at)
            if found is None:  # not TOML
                return names, min(at + 1, len(self._text))
            name = found[0] if found[0][0] not in "\"'" else str(tomllib.loads(f"x = {found[0]}")["x"])
            names.append((name, Span(found.start(), found.end())))
            dot = _DOT.match(self._text, found.end())
            if dot is None:
                return names, found.end()
            at = dot.end()

    def _comma(self, at: int) -> int:
        at = self._blank(at)
        return self._blank(at + 1) if self._text[at : at + 1] == "," else at

    def _blank(self, at: int) -> int:
        found = _BLANK.match(self._text, at)
        return found.end() if found else at
