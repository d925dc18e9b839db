"""Collecting findings while a pass goes on: the one mutable thing the passes share, made for each compilation."""

from __future__ import annotations

from dataclasses import dataclass, field

from tabforge.diagnostics import Code, Diagnostic, Label
from tabforge.diagnostics.catalogue.music import TOO_MUCH
from tabforge.diagnostics.catalogue.text import LIMIT
from tabforge.limits import MAX_DIAGNOSTICS, MAX_EVENTS
from tabforge.source import Span
from tabforge.syntax.origins import Origins, Pointer, written


@dataclass(slots=True)
class Report:
    """Diagnostics of one compilation, with the origins that turn pointers into spans.

    ``overflow`` counts what came after the limit; ``columns`` those written out so far. Forks are used to try a key without keeping its
    findings, and count anew.
    """

    origins: Origins
    found: list[Diagnostic] = field(default_factory=list)
    overflow: int = 0
    columns: int = 0

    def add(
        self,
        code: Code,
        headline: str,
        pointer: Pointer,
        *,
        span: Span | None = None,
        label: str = "",
        expected: str | None = None,
        suggestion: str | None = None,
        help: str | None = None,  # the diagnostic's own word
        others: tuple[Label, ...] = (),
    ) -> None:
        """Add a finding at a place of the document, or at a narrower span inside it."""
        if len(self.found) >= MAX_DIAGNOSTICS:
            self.overflow += 1
            return
        self.found.append(
            Diagnostic(
                code=code,
                headline=headline,
                span=span if span is not None else self.origins.span(pointer),
                label=label,
                expected=expected,
                suggestion=suggestion,
                help=help,
                others=others,
                pointer=written(pointer),
            )
        )

    @property
    def exhausted(self) -> bool:
        """Whether more was written out than a study may have: what is left is not looked at."""
        return self.columns > MAX_EVENTS

    def room_for(self, columns: int, pointer: Pointer) -> bool:
        """Count columns that are written out at a place. False beyond the limit, which is reported once."""
        told = self.exhausted
        self.columns += columns
        if self.exhausted and not told:
            headline = f"written out, this study has more than {MAX_EVENTS:,} notes and rests"
            self.add(TOO_MUCH, headline, pointer, help="split it into several files")
        return not self.exhausted

    def fork(self) -> Report:
        """An empty report on the same source."""
        return Report(self.origins)

    def absorb(self, fork: Report) -> None:
        """Take over what a fork has found."""
        room = MAX_DIAGNOSTICS - len(self.found)
        self.found += fork.found[:room]
        self.overflow += fork.overflow + len(fork.found[room:])
        self.columns = max(self.columns, fork.columns)

    def finish(self) -> tuple[Diagnostic, ...]:
        """All that was found; beyond the limit the last one kept gives way to one that says how much more there is."""
        if not self.overflow:
            return tuple(self.found)
        last = self.found[-1]
        headline = f"{self.overflow + 1:,} more findings are not shown: at most {MAX_DIAGNOSTICS} are"
        return (*self.found[:-1], Diagnostic(code=LIMIT, headline=headline, span=last.span, pointer=last.pointer))

    def errors(self) -> int:
        """How many findings keep the study from being exported."""
        return sum(each.is_error for each in self.found)
