"""Origins of a document that was read from a text.

A study has far more cells than anyone asks for at once, so only the places of bars are kept, eight bytes each; a bar's cells are
looked for again in its piece of the text when they are asked for.
"""

from __future__ import annotations

from array import array
from collections.abc import Sequence
from dataclasses import dataclass, field

from tabforge.source import Span
from tabforge.syntax.grammar import token_starts
from tabforge.syntax.origins import Pointer


@dataclass(slots=True)
class RowPlaces:
    """Where a row's bars stand: ``places`` holds the start and the end of each in turn.

    ``odd`` has the starts of the tokens of those bars that are not in the document as they are in the text.
    """

    places: array[int]
    plain: bool = False
    odd: dict[int, array[int]] = field(default_factory=dict)

    def span(self, bar: int) -> Span:
        """The place of a bar; that of the last one for a number beyond."""
        last = len(self.places) - 2
        if last < 0:
            return Span(0, 0)
        at = min(2 * bar, last)
        return Span(self.places[at], self.places[at + 1])


@dataclass(slots=True)
class TextOrigins:
    """The places of a document's values in the text it was read from."""

    text: str
    spans: dict[Pointer, tuple[int, int]] = field(default_factory=dict)
    rows: dict[Pointer, RowPlaces] = field(default_factory=dict)

    def put(self, pointer: Pointer, start: int, end: int) -> None:
        """Note the place of a value."""
        self.spans[pointer] = (start, end)

    def span(self, pointer: Pointer) -> Span:
        """The place of a value, or that of its nearest ancestor with a place; for a bar, from its first cell to its last."""
        while pointer:
            place = self.spans.get(pointer)
            if place is not None:
                return Span(*place)
            row = self.rows.get(pointer[:-1])
            last = pointer[-1]
            if row is not None and row.places and isinstance(last, int):
                return row.span(last)
            pointer = pointer[:-1]
        return Span(0, len(self.text))

    def starts(self, pointer: Pointer) -> Sequence[int]:
        """The offsets of the tokens of a bar of a row, or of a run's one bar; empty if there are none."""
        row, bar = self.rows.get(pointer[:-1]), pointer[-1] if pointer else 0
        if row is None:
            row, bar = self.rows.get(pointer), 0
        if row is None or not isinstance(bar, int) or not 0 <= 2 * bar < len(row.places):
            return ()
        odd = row.odd.get(bar)
        if odd is not None:
            return odd
        return token_starts(self.text, row.places[2 * bar], row.places[2 * bar + 1], row.plain)
