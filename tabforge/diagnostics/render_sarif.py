"""Diagnostics in the Static Analysis Results Interchange Format, SARIF 2.1.0 (OASIS Standard, 27 March 2020).

The names are the standard's. In its ``region``, lines and columns count from 1 and the end column is the one
after the last character; ``columnKind`` says that a column is a Unicode code point. In message strings a brace
stands doubled.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any, Final

from tabforge.diagnostics.catalogue import CODES
from tabforge.diagnostics.core import Code, Diagnostic, Severity
from tabforge.source import Source, Span

SCHEMA: Final = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json"
"""Where the standard's schema is published; nothing here opens it."""

ROOT: Final = "STUDIES"
"""The base that relative addresses are told against: the folder the command ran in."""

_LEVELS: Final = {Severity.ERROR: "error", Severity.ADVICE: "note"}


def _location_of(name: str) -> dict[str, Any]:
    """An ``artifactLocation``: relative to the base if the path is and lies inside it."""
    from urllib.parse import quote  # noqa: PLC0415  # only this report needs it

    path = name.replace("\\", "/")
    if name.startswith("<"):
        return {"uri": quote(name.strip("<>")), "description": _text("standard input")}
    if path.startswith("/"):
        return {"uri": "file://" + quote(path)}
    if path[1:3] == ":/":
        return {"uri": "file:///" + path[:2] + quote(path[2:])}
    if path.startswith("../"):
        return {"uri": quote(path)}  # outside the base, so not told against it
    return {"uri": quote(path.removeprefix("./")), "uriBaseId": ROOT}


def _text(words: str) -> dict[str, str]:
    """A message string: plain text in which braces, the marks of a placeholder, are doubled."""
    return {"text": words.replace("{", "{{").replace("}", "}}")}


def _physical(source: Source, span: Span) -> dict[str, Any]:
    start, end = source.position(span.start), source.position(span.end)
    return {
        "artifactLocation": _location_of(source.name),
        "region": {
            "startLine": start.line,
            "startColumn": start.column,
            "endLine": end.line,
            "endColumn": end.column,
        },
    }


def _message(diagnostic: Diagnostic) -> str:
    parts = [diagnostic.headline]
    if diagnostic.expected:
        parts.append(f"Expected: {diagnostic.expected}")
    if diagnostic.suggestion:
        parts.append(f"Did you mean {diagnostic.suggestion}?")
    if diagnostic.help:
        parts.append(diagnostic.help)
    return "\n".join(parts)


def _result(diagnostic: Diagnostic, source: Source, index: int) -> dict[str, Any]:
    location: dict[str, Any] = {"physicalLocation": _physical(source, diagnostic.span)}
    if diagnostic.label:
        location["message"] = _text(diagnostic.label)
    if diagnostic.pointer:
        location["logicalLocations"] = [{"fullyQualifiedName": diagnostic.pointer}]
    result: dict[str, Any] = {
        "ruleId": diagnostic.code.id,
        "ruleIndex": index,
        "level": _LEVELS[diagnostic.code.severity],
        "message": _text(_message(diagnostic)),
        "locations": [location],
    }
    if diagnostic.others:
        result["relatedLocations"] = [
            {"id": number, "message": _text(other.text), "physicalLocation": _physical(source, other.span)}
            for number, other in enumerate(diagnostic.others, 1)
        ]
    return result


def _rule(code: Code) -> dict[str, Any]:
    return {
        "id": code.id,
        "shortDescription": _text(code.title),
        "fullDescription": _text(code.explanation),
        "defaultConfiguration": {"level": _LEVELS[code.severity]},
        "help": _text(f"{code.explanation}\n\nFor example:\n\n{code.wrong}\n\nMended:\n\n{code.right}"),
    }


def log(checked: Iterable[tuple[Source, Sequence[Diagnostic], int]], version: str) -> dict[str, Any]:
    """The log as plain data. Every code of the catalogue is a rule, whether it was earned or not."""
    indices = {code: index for index, code in enumerate(CODES)}
    results = [
        _result(each, source, indices[each.code.id])
        for source, diagnostics, _ in checked
        for each in diagnostics
    ]
    driver = {"name": "tabforge", "version": version, "rules": [_rule(code) for code in CODES.values()]}
    run = {
        "tool": {"driver": driver},
        "invocations": [{"executionSuccessful": True}],
        "originalUriBaseIds": {ROOT: {"description": _text("the folder the command ran in")}},
        "columnKind": "unicodeCodePoints",
        "results": results,
    }
    return {"$schema": SCHEMA, "version": "2.1.0", "runs": [run]}


def render(checked: Iterable[tuple[Source, Sequence[Diagnostic], int]], version: str) -> str:
    """The log as JSON text with a closing line break."""
    return json.dumps(log(checked, version), indent=2) + "\n"
