"""Bars whose groups, repeats or tuplets do not work out: what is said of them."""

from __future__ import annotations

from tabforge.compile.cells import Cells
from tabforge.compile.durations import RhythmBar
from tabforge.compile.report import Report
from tabforge.diagnostics import Code
from tabforge.diagnostics.catalogue import music
from tabforge.source import Span
from tabforge.syntax.origins import Pointer


def tell_troubles(sounding: Cells, at: Pointer, rhythm: RhythmBar, rhythm_at: Pointer, report: Report) -> None:
    """Reports what is wrong with the cells of a bar's sounding row and of its rhythm."""
    if sounding.trouble:
        _tell(sounding.trouble, at, None, "", report)
    for kind, token, detail in rhythm.troubles:
        if kind != "unknown":
            _tell(kind, rhythm_at, token, detail, report)


def _tell(kind: str, at: Pointer, token: int | None, detail: str, report: Report) -> None:
    codes: dict[str, tuple[Code, str]] = {
        "unbalanced": (music.UNBALANCED, "the parentheses of this bar do not match"),
        "too many": (music.TOO_MUCH, "this bar is repeated into more than 250,000 columns"),
        "tuplet": (music.TUPLET_NOT_FILLED, "this tuplet is not filled"),
        "number": (music.TUPLET_TOO_MUCH, f"a tuplet of {detail} is beyond the limit of 32"),
        "depth": (music.TUPLET_TOO_MUCH, "tuplets are nested three deep at most"),
    }
    code, headline = codes[kind]
    report.add(code, headline, at, span=_token(report, at, token), expected=detail if kind == "tuplet" else None)


def _token(report: Report, at: Pointer, token: int | None) -> Span | None:
    starts = report.origins.starts(at)
    if token is None or token >= len(starts):
        return None
    return Span(starts[token], starts[token] + 1)
