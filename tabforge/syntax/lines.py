"""A text as lines: a word at the head, the rest of the line, and a comment at its end."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final, NamedTuple

BOM: Final = "\ufeff"
"""A byte order mark, which some editors write at the start of a file."""


class Line(NamedTuple):
    """One line. All numbers are offsets in the text.

    ``word`` is the line's first word, which begins at ``at``; the rest, without the spaces around it, is ``text[value:end]``
    (empty, right behind the word, if there is no more). A blank line has no word. ``comment`` is the place of the comment's two
    slashes, -1 if there is none; ``stop`` the end of the whole line.
    """

    indented: bool
    word: str
    at: int
    value: int
    end: int
    comment: int
    stop: int


_HEAD: Final = re.compile(r"\s*(\S*)\s*")
_QUOTE_OR_COMMENT: Final = re.compile(r'"[^"\n]*"|//')


def comment_start(text: str, start: int, stop: int) -> int:
    """Where the comment of ``text[start:stop]`` begins: at two slashes at the start or after a space, and not in quotes; or -1."""
    for found in _QUOTE_OR_COMMENT.finditer(text, start, stop):
        at = found.start()
        if text[at] == "/" and (at == start or text[at - 1].isspace()):
            return at
    return -1


def lines(text: str) -> Iterator[Line]:
    """The lines of a text in order. A line ends with a line feed; a carriage return before it is space."""
    at = len(BOM) if text.startswith(BOM) else 0
    size = len(text)
    while at < size:
        stop = text.find("\n", at)
        if stop < 0:
            stop = size
        comment = comment_start(text, at, stop) if text.find("//", at, stop) >= 0 else -1
        head = _HEAD.match(text, at, comment if comment >= 0 else stop)
        assert head is not None  # it matches the empty text
        word, value = head[1], head.end()
        end = value + len(text[value : comment if comment >= 0 else stop].rstrip())
        if end == value:
            value = end = head.end(1)
        yield Line(head.start(1) > at, word, head.start(1), value, end, comment, stop)
        at = stop + 1
