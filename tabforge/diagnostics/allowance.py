"""Advice that a study does not want to hear."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from tabforge.diagnostics.core import Diagnostic


@dataclass(frozen=True, slots=True)
class Allowance:
    """Codes allowed everywhere, and in each block that allows more: its first place in the source, where the next begins, its codes."""

    everywhere: frozenset[str] = frozenset()
    blocks: tuple[tuple[int, float, frozenset[str]], ...] = ()

    def _covers(self, found: Diagnostic) -> bool:
        code, at = found.code.id, found.span.start
        return code in self.everywhere or any(start <= at < end and code in codes for start, end, codes in self.blocks)

    def wanted(self, diagnostics: Iterable[Diagnostic]) -> list[Diagnostic]:
        """The findings without the advice that is allowed where they stand. Errors always stay."""
        if not self.everywhere and not self.blocks:
            return list(diagnostics)
        return [found for found in diagnostics if found.is_error or not self._covers(found)]


NOTHING_ALLOWED: Final = Allowance()
"""Of a study that wants to hear everything."""
