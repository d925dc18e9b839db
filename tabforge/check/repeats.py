"""Repeated passages and first endings from which nothing leads back."""

from __future__ import annotations

from collections.abc import Iterator

from tabforge.check.view import View
from tabforge.diagnostics.catalogue.advice import REPEAT_OPEN
from tabforge.diagnostics.core import Diagnostic
from tabforge.model.score import Bar, Section
from tabforge.source import Span


def repeats_left_open(view: View) -> Iterator[Diagnostic]:
    """Repeat signs that open a passage which no sign closes, and first endings without a repeat sign at their end."""
    said: set[Span] = set()
    for section in view.score.sections:
        for bar, headline in _open(section):
            if bar.span not in said:
                said.add(bar.span)
                yield Diagnostic(code=REPEAT_OPEN, headline=headline, span=bar.span, expected=":| where the player goes back")


def _open(section: Section) -> Iterator[tuple[Bar, str]]:
    begun: Bar | None = None
    first: Bar | None = None
    for bar in section.bars:
        if bar.left.repeat == "forward":
            if begun is not None:
                yield begun, "a repeated passage begins with this bar, and another begins before it is closed"
            begun = bar
        if 1 in bar.left.endings:
            first = bar
        if bar.right.repeat == "backward":
            begun = first = None
        elif first is not None and 1 in bar.right.endings:
            yield first, "a first ending begins with this bar, but no repeat sign at its end leads back"
            begun = first = None
    if begun is not None:
        yield begun, "a repeated passage begins with this bar, but no repeat sign closes it"
