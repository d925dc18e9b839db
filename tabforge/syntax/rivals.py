"""What a block of systems needs, and which of its lines exclude each other."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from tabforge.diagnostics import Label
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Span
from tabforge.syntax.agreement import RowRead
from tabforge.syntax.grammar import BLOCKS
from tabforge.syntax.report import Report

NEEDED: Final = {
    "riff": "rows of rhythm and of degrees, frets or notes, indented below it",
    "chords": "a row of progression, indented below it, such as: progression  I | IV | V7 | I",
}
"""Kind of a block → the rows it cannot be without."""

_RIVALS: Final = {"strum": "picking", "picking": "strum"}


def at_odds(word: str, span: Span, rows: Mapping[str, RowRead], report: Report) -> bool:
    """Whether a row excludes one that its system has already; reports it."""
    rival = rows.get(_RIVALS.get(word, ""))
    if rival is None:
        return False
    report.add(
        codes.AT_ODDS,
        span,
        f"these rows say both {rival.word} and {word}",
        expected="one of the two: a chord is strummed or picked",
        others=(Label(span=rival.span, text=f"{rival.word} stands here"),),
        help="a blank line begins the next system, which may be picked where this one is strummed",
    )
    return True


def misplaced(kind: str, word: str, span: Span, report: Report) -> None:
    """Report a setting that stands below the rows of a block, where it looks as if it held from there."""
    report.add(
        codes.WRONG_PLACE,
        span,
        f"{word} stands below the rows of this {BLOCKS[kind]}",
        expected=f"{word} above the first row: it holds for the whole block",
        help=f"a change on the way is a row of meter or tempo; for a change of anything else, begin another {BLOCKS[kind]}",
    )
