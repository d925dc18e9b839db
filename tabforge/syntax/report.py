"""Collecting what is found while a text is read: the one mutable thing its readers share, made anew for each text."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from tabforge.diagnostics import Code, Diagnostic, Label
from tabforge.diagnostics.catalogue import text as codes
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.source import Span

LONGEST_QUOTE: Final = 40
"""Characters of the user's text that a headline repeats."""


def quoted(text: str) -> str:
    """What the user wrote, in typographic quotes and cut to a readable length."""
    return f"“{text}”" if len(text) <= LONGEST_QUOTE else f"“{text[:LONGEST_QUOTE]}…”"


def listed(words: Sequence[str]) -> str:
    """Words as a sentence lists them: ``a, b or c``."""
    return f"{', '.join(words[:-1])} or {words[-1]}" if len(words) > 1 else words[0]


@dataclass(slots=True)
class Report:
    """Findings of one text. Beyond ``MAX_DIAGNOSTICS`` they are only counted.

    ``limits`` are those already spoken of, ``again`` counts how often they were met again.
    """

    found: list[Diagnostic] = field(default_factory=list)
    hidden: int = 0
    limits: set[str] = field(default_factory=set)
    again: int = 0

    @property
    def count(self) -> int:
        """How many findings there are, kept or not."""
        return len(self.found) + self.hidden + self.again

    def full(self) -> bool:
        """Whether one more finding would not be kept; it is then counted, so that its message need not be made."""
        if len(self.found) < MAX_DIAGNOSTICS:
            return False
        self.hidden += 1
        return True

    def add(
        self,
        code: Code,
        span: Span,
        headline: str,
        *,
        label: str = "",
        expected: str | None = None,
        suggestion: str | None = None,
        help: str | None = None,  # the diagnostic's own word
        others: tuple[Label, ...] = (),
    ) -> None:
        """Add a finding."""
        if not self.full():
            self.found.append(
                Diagnostic(
                    code=code,
                    headline=headline,
                    span=span,
                    label=label,
                    expected=expected,
                    suggestion=suggestion,
                    help=help,
                    others=others,
                )
            )

    def limit(self, span: Span, headline: str, help: str | None = None) -> None:
        """Say once that a limit was met; the headline states it."""
        if headline in self.limits:
            self.again += 1
        else:
            self.limits.add(headline)
            self.add(codes.LIMIT, span, headline, help=help)

    def finish(self) -> tuple[Diagnostic, ...]:
        """All that was found; beyond ``MAX_DIAGNOSTICS`` the last one kept gives way to one that says how much more there is."""
        if not self.hidden:
            return tuple(self.found)
        more = self.hidden + 1
        last = Diagnostic(
            code=codes.LIMIT,
            headline=f"{more:,} more errors are not shown: at most {MAX_DIAGNOSTICS} findings are",
            span=self.found[-1].span,
            help="mend the first ones; others may go with them",
        )
        return (*self.found[:-1], last)
