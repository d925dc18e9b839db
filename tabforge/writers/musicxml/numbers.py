"""Numbers that tell apart lines which overlap: slurs, slides, wavy lines, dashes.

The standard (``number-level``) has 1 to 16 for each kind, told apart in the order of the document within a part.
"""

from __future__ import annotations

from collections.abc import Hashable

HIGHEST = 16


class Numbers:
    """Open lines of one part. A number just closed rests until ``settle``, so that no note both ends and begins the same one."""

    def __init__(self) -> None:
        self._open: dict[tuple[str, Hashable], int] = {}
        self._taken: dict[str, set[int]] = {}
        self._closed: list[tuple[str, int]] = []

    def start(self, kind: str, key: Hashable) -> int | None:
        """Open a line and give its number, the lowest that is free; None if it is open already or all numbers are in use."""
        taken = self._taken.setdefault(kind, set())
        number = next((number for number in range(1, HIGHEST + 1) if number not in taken), None)
        if number is None or (kind, key) in self._open:
            return None
        taken.add(number)
        self._open[kind, key] = number
        return number

    def stop(self, kind: str, key: Hashable) -> int | None:
        """Close a line and give its number; None if it is not open."""
        number = self._open.pop((kind, key), None)
        if number is not None:
            self._closed.append((kind, number))
        return number

    def settle(self) -> None:
        """Let closed numbers be used again."""
        for kind, number in self._closed:
            self._taken[kind].discard(number)
        self._closed.clear()
