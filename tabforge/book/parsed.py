"""A manifest's text as a document with places: TOML or JSON, and nothing of what it means."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from tabforge.book.toml_origins import TomlOrigins
from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import book as codes
from tabforge.diagnostics.core import only_errors
from tabforge.readers import READERS, decode
from tabforge.schema import guard
from tabforge.source import NOWHERE, Source, Span
from tabforge.syntax.origins import Origins

_WHERE: Final = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_DEEPEST: Final = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Parsed:
    """One manifest as it was read. ``document`` is None unless it fits its schema."""

    source: Source
    document: Mapping[str, Any] | None
    origins: Origins
    diagnostics: tuple[Diagnostic, ...]


def parse(name: str, data: bytes) -> Parsed:
    """Read a manifest, JSON if its name ends in .json or it begins with a brace, TOML else, and hold it against ``book.schema.json``."""
    source, found = decode(name, data)
    origins: Origins = TomlOrigins("")
    if only_errors(found):
        return Parsed(source=source, document=None, origins=origins, diagnostics=found)
    if name.lower().endswith(".json") or source.text.lstrip()[:1] == "{":
        reading = READERS["json"](source)
        document: Any = reading.document
        origins, found = reading.origins, (*found, *reading.diagnostics)
    else:
        document, wrong = _toml(source)
        origins = TomlOrigins(source.text)
        found = (*found, *wrong)
    if document is None or only_errors(found):
        return Parsed(source=source, document=None, origins=origins, diagnostics=found)
    found = (*found, *guard(document, origins, "book"))
    return Parsed(source=source, document=None if only_errors(found) else document, origins=origins, diagnostics=found)


def _toml(source: Source) -> tuple[Any, tuple[Diagnostic, ...]]:
    try:
        return _plain(tomllib.loads(source.text)), ()
    except tomllib.TOMLDecodeError as error:
        return None, (_not_toml(source, str(error)),)
    except RecursionError:
        return None, (Diagnostic(code=codes.NOT_TOML, headline="brackets stand inside one another too deeply", span=NOWHERE),)


def _not_toml(source: Source, message: str) -> Diagnostic:
    found = _WHERE.search(message)
    at = len(source.text)
    if found and found[1]:
        line, column = int(found[1]), int(found[2])
        start = 0
        for _ in range(line - 1):
            start = source.text.index("\n", start) + 1
        at = min(start + column - 1, len(source.text))
    said = _WHERE.sub("", message)
    return Diagnostic(
        code=codes.NOT_TOML,
        headline=f"this is not TOML: {said[:1].lower()}{said[1:]}",
        span=Span(at, min(at + 1, len(source.text))),
        help="a text stands in double quotes" if said == "Invalid value" else None,
    )


def _plain(value: Any, depth: int = 0) -> Any:
    """A TOML value as JSON has it: dates and times as texts, what is no number as a text."""
    if depth > _DEEPEST:
        raise RecursionError
    if isinstance(value, dict):
        return {key: _plain(each, depth + 1) for key, each in value.items()}
    if isinstance(value, list):
        return [_plain(each, depth + 1) for each in value]
    if hasattr(value, "isoformat"):
        return str(value.isoformat())
    if isinstance(value, float) and (value != value or abs(value) == float("inf")):
        return str(value)
    return value
