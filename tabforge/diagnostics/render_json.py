"""Diagnostics for another program, as the JSON document that ``schemas/report.schema.json`` describes."""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from typing import Any, Final

from tabforge.diagnostics.core import Diagnostic, Severity
from tabforge.source import Source, Span

VERSION: Final = 1
"""Of the report's format: a change that could break a reader raises it."""


def _place(source: Source, span: Span) -> dict[str, Any]:
    start, end = source.position(span.start), source.position(span.end)
    return {
        "start": {"line": start.line, "column": start.column, "offset": span.start},
        "end": {"line": end.line, "column": end.column, "offset": span.end},
    }


def _finding(diagnostic: Diagnostic, source: Source) -> dict[str, Any]:
    found: dict[str, Any] = {
        "code": diagnostic.code.id,
        "severity": diagnostic.code.severity.value,
        "title": diagnostic.code.title,
        "headline": diagnostic.headline,
        **_place(source, diagnostic.span),
    }
    for name in ("label", "expected", "suggestion", "help", "pointer"):
        value = getattr(diagnostic, name)
        if value or (name == "pointer" and value is not None):
            found[name] = value
    if diagnostic.others:
        found["others"] = [{"text": other.text, **_place(source, other.span)} for other in diagnostic.others]
    return found


def report(checked: Iterable[tuple[Source, Sequence[Diagnostic], int]], version: str) -> dict[str, Any]:
    """The report as plain data. A source comes with its diagnostics and the number of those left out."""
    files: list[dict[str, Any]] = []
    for source, diagnostics, unshown in checked:
        errors = sum(each.code.severity is Severity.ERROR for each in diagnostics)
        entry: dict[str, Any] = {"name": source.name, "errors": errors, "advice": len(diagnostics) - errors}
        if unshown:
            entry["unshown"] = unshown
        entry["findings"] = [_finding(each, source) for each in diagnostics]
        files.append(entry)
    return {
        "report": VERSION,
        "tool": {"name": "tabforge", "version": version},
        "errors": sum(entry["errors"] for entry in files),
        "advice": sum(entry["advice"] for entry in files),
        "files": files,
    }


def render(checked: Iterable[tuple[Source, Sequence[Diagnostic], int]], version: str) -> str:
    """The report as JSON text (RFC 8259) with a closing line break.

    It is ASCII only, so that even a lone surrogate of the input survives.
    """
    return json.dumps(report(checked, version), indent=2) + "\n"
