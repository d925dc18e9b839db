"""Where the values of a JSON document stand in its text."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from tabforge.readers import json_scan as scan
from tabforge.source import Span
from tabforge.syntax.grammar import ROWS, token_starts
from tabforge.syntax.origins import Pointer

_PLAIN: Final = frozenset(row.word for row in ROWS.values() if row.plain)


class _Found(NamedTuple):
    """How many steps of a pointer are in the document; where the value they lead to begins; and where its key does, if it has one."""

    depth: int
    at: int
    key: int | None


class JsonOrigins:
    """The places of a document's values; a piece of the text is scanned when something in it is first asked for.

    A text's place is what stands between its quotes; an array's or object's is its opening bracket, with its key before it if it has one.
    """

    def __init__(self, text: str) -> None:
        self._text = text
        self._root = scan.root(text)
        self._known: dict[Pointer, scan.Members] = {}

    def span(self, pointer: Pointer) -> Span:
        """The place of a value, or that of its nearest ancestor in the document."""
        found = self._find(pointer)
        if self._text[found.at : found.at + 1] in ("{", "["):
            return Span(found.at if found.key is None else found.key, found.at + 1)
        return self._scalar(found.at)

    def key(self, pointer: Pointer) -> Span:
        """The place of the key that is the last step of ``pointer``, or of the nearest thing around it."""
        found = self._find(pointer)
        return self.span(pointer) if found.key is None or found.depth < len(pointer) else self._scalar(found.key)

    def starts(self, pointer: Pointer) -> Sequence[int]:
        """The offsets of the tokens of a bar; empty if there is no text at ``pointer``."""
        depth, at, _ = self._find(pointer)
        if depth < len(pointer) or self._text[at : at + 1] != '"':
            return ()
        start, end = at + 1, scan.scalar_end(self._text, at) - 1
        plain = any(step in _PLAIN for step in pointer[-2:])
        if self._text.find("\\", start, end) < 0:
            return token_starts(self._text, start, end, plain)
        places = scan.character_starts(self._text, start, end)
        decoded = scan.decoded(self._text[at : end + 1])
        if len(decoded) >= len(places):  # it could not be decoded
            return ()
        return [places[index] for index in token_starts(decoded, 0, len(decoded), plain)]

    def _find(self, pointer: Pointer) -> _Found:
        around = self._known.get(pointer[:-1]) if pointer else None
        if around is not None:  # what lies side by side is mostly asked for in a row
            number = _number(around, pointer[-1])
            if number is not None:
                return _Found(len(pointer), around.values[number], _key(around, number))
        at: int = self._root
        key: int | None = None
        for depth, step in enumerate(pointer):
            inside = self._inside(pointer[:depth], at)
            number = _number(inside, step)
            if number is None:
                return _Found(depth, at, key)
            at, key = inside.values[number], _key(inside, number)
        return _Found(len(pointer), at, key)

    def _inside(self, pointer: Pointer, at: int) -> scan.Members:
        if pointer not in self._known:
            self._known[pointer] = scan.members(self._text, at)
        return self._known[pointer]

    def _scalar(self, at: int) -> Span:
        """The place of a text, between its quotes if anything is there, or of a number or word."""
        end = max(at, min(scan.scalar_end(self._text, at), len(self._text)))
        return Span(at + 1, end - 1) if self._text[at : at + 1] == '"' and end - at > 2 else Span(at, end)


def _number(inside: scan.Members, step: str | int) -> int | None:
    if isinstance(step, str):
        return inside.names.get(step)
    return step if not inside.keys and 0 <= step < len(inside.values) else None


def _key(inside: scan.Members, number: int) -> int | None:
    return inside.keys[number] if inside.keys else None
