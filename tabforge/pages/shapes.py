"""Shapes as SVG elements with their boxes. Coordinates are a drawing's units, whole numbers in the text.

Lines are drawn in ``currentColor``, letters in the fill they are given from outside; the flavour of the picture settles both.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from tabforge.pages.fonts import ASCENT, DESCENT, Fonts

THIN: Final = 16
THICK: Final = 26
"""Widths of lines."""


class Box(NamedTuple):
    """What a shape covers; down is positive."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Whether two boxes share more than an edge."""
        return self.left < other.right and other.left < self.right and self.top < other.bottom and other.top < self.bottom


class Shape(NamedTuple):
    """An element, or several, and what they cover."""

    svg: str
    box: Box


def around(boxes: Sequence[Box]) -> Box:
    """The box that holds all of some boxes."""
    lefts, tops, rights, bottoms = zip(*boxes, strict=True)
    return Box(min(lefts), min(tops), max(rights), max(bottoms))


def together(shapes: Sequence[Shape]) -> Shape:
    """Several shapes as one."""
    if len(shapes) == 1:
        return shapes[0]
    return Shape("".join(each.svg for each in shapes), around([each.box for each in shapes]))


def escape(text: str) -> str:
    """A text as character data or an attribute of XML; what cannot be seen is left out."""
    seen = text if text.isprintable() else "".join(char for char in text if char.isprintable())
    return seen if seen.isalnum() else seen.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def words(
    fonts: Fonts, text: str, x: float, y: float, size: float, *, anchor: str = "start", bold: bool = False, italic: bool = False
) -> Shape:
    """A line of words on its base line ``y``. ``anchor``: what of it ``x`` is, "start", "middle" or "end"."""
    width = fonts.width(text, bold=bold, italic=italic) * size
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    style = (' font-weight="bold"' if bold else "") + (' font-style="italic"' if italic else "")
    style += f' text-anchor="{anchor}"' if anchor != "start" else ""
    svg = f'<text x="{x:.0f}" y="{y:.0f}" font-size="{size:.0f}"{style}>{escape(text)}</text>'
    return Shape(svg, Box(left, y - ASCENT * size, left + width, y + DESCENT * size))


def path(points: Sequence[tuple[float, float]], data: str, width: float = THIN, *, more: str = "") -> Shape:
    """An open line. ``points`` are those that bound it, ``data`` its path."""
    half = width / 2
    xs, ys = [x for x, _ in points], [y for _, y in points]
    box = Box(min(xs) - half, min(ys) - half, max(xs) + half, max(ys) + half)
    return Shape(f'<path d="{data}" fill="none" stroke="currentColor" stroke-width="{width:.0f}"{more}/>', box)


def line(x1: float, y1: float, x2: float, y2: float, width: float = THIN, *, dashed: bool = False) -> Shape:
    """A straight line."""
    more = ' stroke-dasharray="90 70"' if dashed else ""
    return path([(x1, y1), (x2, y2)], f"M{x1:.0f} {y1:.0f}L{x2:.0f} {y2:.0f}", width, more=more)


def filled(points: Sequence[tuple[float, float]]) -> Shape:
    """A filled polygon."""
    corners = " ".join(f"{x:.0f},{y:.0f}" for x, y in points)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Shape(f'<polygon points="{corners}"/>', Box(min(xs), min(ys), max(xs), max(ys)))


def arrow_head(x: float, y: float, *, down: bool = False, half: float = 48) -> Shape:
    """The head of an arrow that points up, or down, with its tip at the place given."""
    back = y - 2.2 * half if down else y + 2.2 * half
    return filled([(x, y), (x - half, back), (x + half, back)])


def arc(x1: float, x2: float, y: float, height: float) -> Shape:
    """A slur from one place to another at the same height; a positive height rises. Thicker in its middle."""
    reach = min((x2 - x1) * 0.25, 220)
    outer, inner = y - height * 1.33, y - height * 1.33 + (34 if height > 0 else -34)
    data = (
        f"M{x1:.0f} {y:.0f}C{x1 + reach:.0f} {outer:.0f} {x2 - reach:.0f} {outer:.0f} {x2:.0f} {y:.0f}"
        f"C{x2 - reach:.0f} {inner:.0f} {x1 + reach:.0f} {inner:.0f} {x1:.0f} {y:.0f}Z"
    )
    peak = y - height
    svg = f'<path d="{data}" stroke="currentColor" stroke-width="8" stroke-linejoin="round"/>'
    return Shape(svg, Box(x1, min(y, peak) - 4, x2, max(y, peak) + 4))


def wave(x1: float, x2: float, y: float, height: float, length: float) -> Shape:
    """A wavy line about the height ``y``, of whole waves."""
    count = max(2, round((x2 - x1) / length))
    half = length / 2
    data = f"M{x1:.0f} {y:.0f}q{half / 2:.0f} {-height:.0f} {half:.0f} 0" + f"t{half:.0f} 0" * (2 * count - 1)
    end = x1 + count * length
    more = ' stroke-linecap="round"'
    return path([(x1, y - height / 2), (end, y + height / 2)], data, 30, more=more)
