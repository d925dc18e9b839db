"""The reader of the document as JSON."""

from __future__ import annotations

import json
import re
from itertools import islice
from typing import Any, Final

from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import document as codes
from tabforge.limits import MAX_DIAGNOSTICS, MAX_JSON_DEPTH, MAX_SOURCE_BYTES
from tabforge.readers.characters import cleaned
from tabforge.readers.decoding import too_large
from tabforge.readers.json_numbers import number
from tabforge.readers.json_origins import JsonOrigins
from tabforge.readers.json_scan import depth
from tabforge.readers.reading import Reading
from tabforge.source import Source, Span

_DUBIOUS: Final = re.compile(r"\\(?:[bf]|u(?:00[0189]|007[fF]|[dD][89a-fA-F]|202[89]|[fF][eE][fF][fF]|[fF]{3}[eEfF]))")
"""An escape that may stand for an unseen character."""


def read(source: Source) -> Reading:
    """Read a document in JSON (RFC 8259).

    Beyond what JSON itself forbids, these are errors: the same key twice, NaN and Infinity, numbers that cannot be held exactly, unseen
    characters written as escapes, more than MAX_JSON_DEPTH arrays and objects inside one another, more than MAX_SOURCE_BYTES.
    """
    text, advice = cleaned(source)
    if len(text.text) > MAX_SOURCE_BYTES:
        return Reading(document=None, origins=JsonOrigins(""), diagnostics=(too_large(),))
    document, dubious = _loaded(text.text)
    found = _problems(text.text) if dubious else ()
    if any(each.code is not codes.DUPLICATE_KEY for each in found):
        document = None
    elif document is None:
        found = (_nothing(text.text),)
    return Reading(document=document, origins=JsonOrigins(text.text), diagnostics=(*advice, *found))


def _loaded(text: str) -> tuple[Any, bool]:
    """The document, None if it is not JSON; and whether something may be wrong with the text."""
    dubious = depth(text) > MAX_JSON_DEPTH
    if dubious:
        return None, True
    dubious = _DUBIOUS.search(text) is not None

    def members(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        nonlocal dubious
        made = dict(pairs)
        dubious = dubious or len(made) < len(pairs)
        return made

    def held(written: str) -> int | float:
        nonlocal dubious
        value = number(written)
        dubious = dubious or value is None
        return value or 0

    def constant(written: str) -> None:
        nonlocal dubious
        dubious = True

    try:
        document = json.loads(text, object_pairs_hook=members, parse_int=held, parse_float=held, parse_constant=constant)
    except ValueError:
        return None, True
    return document, dubious


def _problems(text: str) -> tuple[Diagnostic, ...]:
    from tabforge.readers.json_problems import problems  # noqa: PLC0415  # only a mistake pays for it

    return tuple(islice(problems(text), MAX_DIAGNOSTICS))


def _nothing(text: str) -> Diagnostic:
    start = len(text) - len(text.lstrip())
    span = Span(start, len(text.rstrip()))
    if text.strip() == "null":
        headline = "the study must be an object { … }, not null"
        return Diagnostic(code=codes.WRONG_KIND, headline=headline, span=span, pointer="")
    return Diagnostic(code=codes.JSON_SYNTAX, headline="this is not JSON", span=span)
