"""Why a text is not the JSON a study may be. Slower than ``json`` and stricter: for texts in which something is wrong."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics import Diagnostic
from tabforge.limits import MAX_JSON_DEPTH
from tabforge.readers import json_words as words
from tabforge.readers.json_numbers import NUMBER, number

_BLANK: Final = re.compile(r"[ \t\n\r]*+")
_TEXT: Final = re.compile(r'"(?:[^"\\\x00-\x1f]++|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*+')
"""A text in quotes up to its closing quote, or to where it goes wrong."""
_WORD: Final = re.compile(r"""[^\s,:\[\]{}"]+|.""", re.DOTALL)
_CONSTANTS: Final = frozenset({"true", "false", "null"})
_NO_NUMBERS: Final = frozenset({"NaN", "Infinity", "-Infinity"})


@dataclass(slots=True)
class _Open:
    """An array or object not yet closed: its opening bracket, and where its keys were first written."""

    at: int
    closing: str
    keys: dict[str, int] = field(default_factory=dict)


class _Stop(Exception):  # noqa: N818  # carries the finding out of the walk
    def __init__(self, finding: Diagnostic) -> None:
        self.finding = finding


def problems(text: str) -> Iterator[Diagnostic]:
    """What is wrong, in the order of the text, up to the first error of syntax.

    Nothing if ``json.loads`` takes the text and the limits hold.
    """
    walk = _Walk(text)
    try:
        yield from walk.document()
    except _Stop as stop:
        yield stop.finding


class _Walk:
    """One walk over a text; ``at`` is how far it has come."""

    def __init__(self, text: str) -> None:
        self._text = text
        self._at = 0
        self._open: list[_Open] = []

    def document(self) -> Iterator[Diagnostic]:
        """Walk over the whole text."""
        yield from self._value(comma=None)
        while self._open:
            yield from self._member()
        if self._peek():
            raise _Stop(words.too_much(self._at, self._word_end()))

    def _member(self) -> Iterator[Diagnostic]:
        """The next entry of the innermost array or object, with the comma before it; or its end."""
        inner = self._open[-1]
        first, comma = self._at == inner.at + 1, None
        char = self._peek()
        if char == inner.closing:
            self._at += 1
            self._open.pop()
            return
        if not char:
            raise _Stop(words.no_end(self._text, inner.at))
        if not first:
            if char != ",":
                raise _Stop(words.no_comma(self._text, self._at, self._word_end(), inner.at))
            comma = self._at
            self._at += 1
        if inner.closing == "}":
            yield from self._key(inner, comma)
        yield from self._value(comma if inner.closing == "]" else None)

    def _key(self, inner: _Open, comma: int | None) -> Iterator[Diagnostic]:
        if self._peek() != '"':
            self._refuse(comma, key=True)
        start = self._at
        key = self._quoted()
        found = words.unseen(key, start, self._at)
        if found:
            yield found
        if key in inner.keys:
            yield words.twice(key, inner.keys[key], start, self._at)
        inner.keys.setdefault(key, start)
        if self._peek() != ":":
            raise _Stop(words.no_colon(self._at, self._word_end(), key))
        self._at += 1

    def _value(self, comma: int | None) -> Iterator[Diagnostic]:
        char = self._peek()
        start = self._at
        if char in ("{", "["):
            if len(self._open) == MAX_JSON_DEPTH:
                raise _Stop(words.too_deep(start))
            self._open.append(_Open(start, "}" if char == "{" else "]"))
            self._at += 1
        elif char == '"':
            found = words.unseen(self._quoted(), start, self._at)
            if found:
                yield found
        else:
            end = self._word_end()
            word = self._text[start:end]
            if NUMBER.fullmatch(word) or word in _NO_NUMBERS:
                if word in _NO_NUMBERS or number(word) is None:
                    yield words.bad_number(self._text, start, end)
            elif word not in _CONSTANTS:
                self._refuse(comma, key=False)
            self._at = end

    def _refuse(self, comma: int | None, key: bool) -> None:
        if not self._peek():
            raise _Stop(words.no_end(self._text, self._open[-1].at if self._open else None))
        raise _Stop(words.no_value(self._text, self._at, self._word_end(), comma, key))

    def _quoted(self) -> str:
        start = self._at
        found = _TEXT.match(self._text, start)
        end = found.end() if found else start + 1
        if self._text[end : end + 1] != '"':
            raise _Stop(words.bad_text(self._text, start, end))
        self._at = end + 1
        return str(json.loads(self._text[start : self._at]))

    def _peek(self) -> str:
        """The next character that is not blank; the empty text at the end."""
        found = _BLANK.match(self._text, self._at)
        self._at = found.end() if found else self._at
        return self._text[self._at : self._at + 1]

    def _word_end(self) -> int:
        found = _WORD.match(self._text, self._at)
        return found.end() if found else self._at
