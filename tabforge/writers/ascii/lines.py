"""Bar lines: what stands between two bars, at the start of a system and at its end."""

from __future__ import annotations

from functools import cache
from typing import Final, NamedTuple

from tabforge.model.score import BarLine

CONTINUED: Final = "continued"
"""The edge of a piece of a bar that is too wide for one line: there is no bar line here."""
OPEN_SIGN: Final = ">"


class Line(NamedTuple):
    """The characters of a bar line: on most strings, and on the two that carry the dots of a repeat sign."""

    plain: str
    dotted: str


def edge(line: BarLine) -> str:
    """The kind of a bar's edge."""
    return line.repeat or ("regular" if line.style == "regular" else "double")


@cache
def between(right: str | None, left: str | None) -> Line:
    """The line between a bar's right edge and the next one's left edge; None at the start or the end of a system."""
    if CONTINUED in (right, left):
        return Line(OPEN_SIGN, OPEN_SIGN)
    ends, begins = right == "backward", left == "forward"
    thick = ends or begins or "double" in (right, left)
    bars = "||" if thick else "|"
    plain = ("-" if ends else "") + bars + ("-" if begins else "")
    dotted = (":" if ends else "") + bars + (":" if begins else "")
    return Line(plain, dotted)


def dotted_strings(count: int) -> frozenset[int]:
    """The strings (1-based) that carry a repeat sign's dots: on either side of the middle, as on a TAB staff."""
    half = count // 2
    return frozenset((half, half + 1)) if count % 2 == 0 else frozenset((half, half + 2))
