"""The text that came in, and places in it.

Everything inside the pipeline speaks of places as offsets; a line and a column are worked out only when a person or another
program is shown one.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass, field
from typing import NamedTuple


class Span(NamedTuple):
    """A half-open range of character offsets in a source text: ``text[start:end]``."""

    start: int
    end: int


NOWHERE = Span(0, 0)
"""The place of what stands nowhere in a source."""


class Position(NamedTuple):
    """A line and a column as a person counts them: both begin at 1; a column counts characters."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Source:
    """A named text. ``name`` is what is shown to the user (a path, or ``<stdin>``); it is never opened."""

    name: str
    text: str
    _starts: list[int] = field(default_factory=list, repr=False, compare=False)

    def _line_starts(self) -> list[int]:
        if not self._starts:
            self._starts.append(0)
            at = self.text.find("\n")
            while at >= 0:
                self._starts.append(at + 1)
                at = self.text.find("\n", at + 1)
        return self._starts

    def position(self, offset: int) -> Position:
        """Line and column of an offset; an offset past the end is the end."""
        starts = self._line_starts()
        offset = max(0, min(offset, len(self.text)))
        line = bisect_right(starts, offset)
        return Position(line, offset - starts[line - 1] + 1)

    def line(self, number: int) -> str:
        """The text of a line (1-based) without its line break; empty for a line that is not there."""
        starts = self._line_starts()
        if not 1 <= number <= len(starts):
            return ""
        end = starts[number] if number < len(starts) else len(self.text)
        return self.text[starts[number - 1] : end].rstrip("\r\n")
