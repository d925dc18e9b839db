"""Finding values in the text of a JSON document that is known to be well-formed (RFC 8259).

Only what is asked for is looked at: each call reads one array or object and passes over what is inside its values at the speed of
the regular expression engine. On other texts the results mean nothing, but there is no exception and no endless loop.
"""

from __future__ import annotations

import json
import re
from array import array
from typing import Final, NamedTuple

_STRING: Final = r'"(?:[^"\\]++|\\.)*+"?'
_BLANK: Final = re.compile(r"[ \t\n\r]*+")
_SCALAR: Final = re.compile(rf"{_STRING}|[^ \t\n\r,\]}}]++", re.DOTALL)
_TO_BRACKET: Final = re.compile(rf'(?:[^"\[\]{{}}]++|{_STRING})*+', re.DOTALL)
_TO_NEXT: Final = re.compile(r"[ \t\n\r]*+[,:]?[ \t\n\r]*+")


class Members(NamedTuple):
    """The values of one array or object: where each begins.

    Of an object, ``keys`` is where its keys begin, and ``names`` the number of each; of one that stands twice, the last.
    """

    values: array[int]
    keys: array[int]
    names: dict[str, int]


def root(text: str) -> int:
    """Where the document's value begins."""
    found = _BLANK.match(text)
    return found.end() if found else 0


def scalar_end(text: str, at: int) -> int:
    """The end of the text in quotes, number or word that begins at ``at``."""
    found = _SCALAR.match(text, at)
    return found.end() if found else min(at + 1, len(text))


def members(text: str, at: int) -> Members:
    """The values of the array or object that begins at ``at``; none if another value does."""
    found = Members(array("I"), array("I"), {})
    opening = text[at : at + 1]
    if opening not in ("{", "["):
        return found
    at = _next(text, at + 1)
    while at < len(text) and text[at] not in "]}":
        if opening == "{":
            end = scalar_end(text, at)
            found.names[decoded(text[at:end])] = len(found.values)
            found.keys.append(at)
            at = _next(text, end)
        found.values.append(at)
        at = _next(text, _value_end(text, at))
    return found


def _next(text: str, at: int) -> int:
    found = _TO_NEXT.match(text, at)
    return found.end() if found else at


def _value_end(text: str, at: int) -> int:
    if text[at : at + 1] not in ("{", "["):
        return scalar_end(text, at)
    depth = 0
    while at < len(text):
        depth += 1 if text[at] in "[{" else -1
        at += 1
        if depth == 0:
            break
        found = _TO_BRACKET.match(text, at)
        at = found.end() if found else at
    return at


def decoded(literal: str) -> str:
    """What a text in quotes says."""
    if "\\" not in literal:
        return literal[1:-1]
    try:
        return str(json.loads(literal))
    except ValueError:
        return literal


def depth(text: str) -> int:
    """How many arrays and objects stand inside one another at the deepest place."""
    deepest = now = 0
    if text.count("{") + text.count("[") <= 1:
        return 1
    at = 0
    while (found := _TO_BRACKET.match(text, at)) and found.end() < len(text):
        at = found.end() + 1
        now += 1 if text[at - 1] in "[{" else -1
        deepest = max(deepest, now)
    return deepest


_ESCAPE: Final = re.compile(r"\\u[dD][89abAB][0-9a-fA-F]{2}\\u[dD][c-fC-F][0-9a-fA-F]{2}|\\u[0-9a-fA-F]{4}|\\.|.", re.DOTALL)
"""One character of a text in quotes as it is written; a pair of surrogates is one (RFC 8259, section 7)."""


def character_starts(text: str, start: int, end: int) -> array[int]:
    """Where each character that ``text[start:end]``, the inside of a text in quotes, stands for begins; and ``end`` at last."""
    return array("I", [*(found.start() for found in _ESCAPE.finditer(text, start, end)), end])
