"""Numbers that tell apart lines which overlap: slurs, slides, wavy lines, dashes.

The standard (``number-level``) has 1 to 16 for each kind, told apart in the order of the document within a part.
"""

from __future__ import annotations

from collections.abc import Hashable

from tabforge.source import Span
from tabforge.writers.loss import Loss

HIGHEST = 16


class Numbers:
    """Open lines of one part. A number just closed rests until ``settle``, so that no note both ends and begins the same one."""

    def __init__(self) -> None:
        self._open: dict[tuple[str, Hashable], tuple[int, str, Span]] = {}
        self._taken: dict[str, set[int]] = {}
        self._closed: list[tuple[str, int]] = []

    def start(self, kind: str, key: Hashable, what: str, span: Span) -> int | None:
        """Open a line and give its number, the lowest that is free; None if it is open already or all numbers are in use.

        ``what`` and ``span`` say what is lost should it never be closed.
        """
        taken = self._taken.setdefault(kind, set())
        number = 1
        while number in taken:
            number += 1
        if number > HIGHEST or (kind, key) in self._open:
            return None
        taken.add(number)
        self._open[kind, key] = number, what, span
        return number

    def stop(self, kind: str, key: Hashable) -> int | None:
        """Close a line and give its number; None if it is not open."""
        found = self._open.pop((kind, key), None)
        if found is None:
            return None
        self._closed.append((kind, found[0]))
        return found[0]

    def settle(self) -> None:
        """Let closed numbers be used again."""
        for kind, number in self._closed:
            self._taken[kind].discard(number)
        self._closed.clear()

    def abandon(self) -> list[Loss]:
        """Forget every line that is still open, as at the end of a section, and say which they were."""
        left = [Loss(span=span, what=what, how="its line begins and does not end") for _, what, span in self._open.values()]
        self._open.clear()
        self._taken.clear()
        return left
