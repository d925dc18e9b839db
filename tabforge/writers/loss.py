"""What a format could not carry. A writer reports it; it never drops anything in silence."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss:
    """One thing of the score that the written file does not hold, or holds only in part.

    ``span`` is the place in the source of what is lost, ``what`` names it in the trade's words ("trill of 3 frets"), ``how`` says what
    stands in the file instead ("written as a trill of a whole step, with its fret in words").
    """

    span: Span
    what: str
    how: str
