"""The guard: no document is compiled that does not fit its schema."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import islice
from typing import TYPE_CHECKING, Any

from tabforge.diagnostics import Diagnostic
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.schema.compiled import Compiled
from tabforge.schema.keywords import Unsupported
from tabforge.schema.store import load
from tabforge.schema.values import Check
from tabforge.source import Span
from tabforge.syntax.origins import KeyOrigins, Origins, written

if TYPE_CHECKING:
    from tabforge.schema.finding import Finding


def guard(document: object, origins: Origins, name: str = "study") -> tuple[Diagnostic, ...]:
    """What keeps a document from being a valid ``name``, in document order, at most MAX_DIAGNOSTICS; empty if it is one.

    ``document`` is JSON as Python holds it, nested no deeper than MAX_JSON_DEPTH as the readers see to. Raises KeyError if there is no
    schema of that name. A valid document is passed by the compiled schema; whenever that says no, ``jsonschema`` decides.
    """
    schema, check = _schema(name)
    if check is not None and check(document):
        return ()
    from tabforge.schema.alternatives import told  # noqa: PLC0415  # with what follows, only a mistake pays for it
    from tabforge.schema.findings import findings  # noqa: PLC0415
    from tabforge.schema.verdict import errors  # noqa: PLC0415

    found = (finding for error in errors(schema, document) for inner in told(error) for finding in findings(schema, inner))
    return tuple(_diagnostic(each, origins) for each in islice(_once(found), MAX_DIAGNOSTICS))


def _once(found: Iterator[Finding]) -> Iterator[Finding]:
    seen: set[Finding] = set()
    for each in found:
        if each not in seen:
            seen.add(each)
            yield each


@cache
def _schema(name: str) -> tuple[dict[str, Any], Check | None]:
    schema = load(name)
    try:
        return schema, Compiled(schema).check
    except Unsupported:
        return schema, None


def _diagnostic(finding: Finding, origins: Origins) -> Diagnostic:
    return Diagnostic(
        code=finding.code,
        headline=finding.headline,
        span=_span(finding, origins),
        expected=finding.expected,
        suggestion=finding.suggestion,
        help=finding.help,
        pointer=written(finding.pointer),
    )


def _span(finding: Finding, origins: Origins) -> Span:
    if finding.key and isinstance(origins, KeyOrigins):
        return origins.key(finding.pointer)
    whole = origins.span(finding.pointer)
    if finding.token is not None:
        starts = origins.starts(finding.pointer)
        if finding.token < len(starts):
            start = starts[finding.token]
            return Span(start, min(start + finding.length, whole.end))
    return whole
