"""The TAB staff: its strings, broken where numbers stand, and the numbers."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.pages.shapes import THICK, THIN, Shape, line, path, together, words
from tabforge.pages.stage import Head, Spot, Stage

_CLEAR: Final = 26.0
"""Room between a number and the string it breaks."""

_LINE: Final = 13
_MIDDLE: Final = 0.33
"""Half the height of a figure, in parts of the type's size (Times: figures are 0.66 high)."""


def numeral(stage: Stage, spot: Spot, head: Head) -> Shape:
    """A note's number, its cross, and what stands around it."""
    x, y, size = spot.x, head.y, head.size
    if head.cross:
        half = 0.26 * size
        shapes = [line(x - half, y - half, x + half, y + half, THICK), line(x - half, y + half, x + half, y - half, THICK)]
    else:
        shapes = [words(stage.fonts, head.text, x, y + _MIDDLE * size, size, anchor="middle")]
    if head.around:
        shapes += [_side(x, y, head, -1), _side(x, y, head, 1)]
    return together(shapes)


def _side(x: float, y: float, head: Head, way: int) -> Shape:
    """A parenthesis or an angle bracket left (-1) or right (1) of a number."""
    outer, inner = x + way * (head.half - 10), x + way * (head.half - 0.24 * head.size)
    tall = 0.5 * head.size
    points = [(inner, y - tall), (inner, y + tall), (outer, y)]
    if head.around == "<>":
        data = f"M{inner:.0f} {y - tall:.0f}L{outer:.0f} {y:.0f}L{inner:.0f} {y + tall:.0f}"
    else:
        bow = outer + way * 20
        data = f"M{inner:.0f} {y - tall:.0f}C{bow:.0f} {y - tall * 0.5:.0f} {bow:.0f} {y + tall * 0.5:.0f} {inner:.0f} {y + tall:.0f}"
    return path(points, data, THIN + 4)


def strings(spots: Sequence[Spot], heights: Sequence[float], left: float, right: float) -> Iterator[Shape]:
    """The lines of a system's strings."""
    gaps: dict[float, list[tuple[float, float]]] = {}
    for spot in spots:
        for head in spot.heads:
            if head.text:
                gaps.setdefault(head.y, []).append((spot.x - head.half - _CLEAR, spot.x + head.half + _CLEAR))
    for y in heights:
        pieces = []
        at = left
        for begin, end in sorted(gaps.get(y, [])):
            if begin > at:
                pieces.append(f"M{at:.0f} {y:.0f}H{begin:.0f}")
            at = max(at, end)
        if right > at:
            pieces.append(f"M{at:.0f} {y:.0f}H{right:.0f}")
        yield path([(left, y), (right, y)], "".join(pieces), _LINE)
