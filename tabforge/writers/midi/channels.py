"""Which channel each string has.

A wheel bends a whole channel, so each string has one, string 1 the first; channel 10 is for percussion. Second parts have a channel a
string too while there is room; where there is not, a part has one channel, and does not bend.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from tabforge.writers.midi.chunks import PERCUSSION

_ROOM: Final = tuple(channel for channel in range(16) if channel != PERCUSSION)


@dataclass(frozen=True, slots=True)
class Channels:
    """A part's channels. ``shared``: all its strings have the same one."""

    numbers: tuple[int, ...]
    shared: bool = False

    def of(self, string: int) -> int:
        """The channel of a string, counted from 1."""
        return self.numbers[0] if self.shared else self.numbers[string - 1]


def assigned(parts: Sequence[str], strings: int) -> dict[str, Channels]:
    """Channels for parts on an instrument of so many strings; the first part is the one that must have its own."""
    found: dict[str, Channels] = {}
    at = 0
    for place, part in enumerate(parts):
        waiting = len(parts) - place - 1
        own = at + strings + waiting <= len(_ROOM)
        count = strings if own else 1
        found[part] = Channels(_ROOM[at : at + count], shared=not own)
        at += count
    return found
