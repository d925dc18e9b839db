"""Elements of SVG 1.1 as text: lines, words and the marks of notes. Numbers are written with at most two decimals."""

from __future__ import annotations

from math import cos, pi, sin
from typing import Final

from tabforge.diagrams.marks import Mark

RADIUS: Final = 11
"""Half the height of a note's mark, in the picture's units (pixels as most programs show it)."""

_SIZES: Final = {0: 12, 1: 12, 2: 12, 3: 10}
"""Font size of a label by its length; longer ones are smaller still."""
_SMALLEST: Final = 8.5

_SIGNS: Final = str.maketrans({"#": "♯", "b": "♭"})


def number(value: float) -> str:
    """A coordinate."""
    return f"{value:.2f}".rstrip("0").rstrip(".")


def escape(text: str) -> str:
    """A text as character data or an attribute of XML; what cannot be seen is left out."""
    seen = "".join(char for char in text if char.isprintable())
    return seen.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def line(x1: float, y1: float, x2: float, y2: float, width: float) -> str:
    """A line in the text's own colour."""
    ends = f'x1="{number(x1)}" y1="{number(y1)}" x2="{number(x2)}" y2="{number(y2)}"'
    return f'<line {ends} stroke="currentColor" stroke-width="{number(width)}"/>'


def words(text: str, x: float, y: float, size: float, *, anchor: str = "middle", bold: bool = False, fill: str = "currentColor") -> str:
    """A line of words on its base line."""
    weight = ' font-weight="bold"' if bold else ""
    place = f'x="{number(x)}" y="{number(y)}" font-size="{number(size)}" text-anchor="{anchor}"'
    return f'<text {place}{weight} fill="{fill}">{escape(text)}</text>'


def label_text(label: str) -> str:
    """A degree or a note with the signs that music has for sharp and flat."""
    if len(label) > 1 and (label[0] in "ABCDEFG" or label[-1].isdigit()):
        return label[0].translate(_SIGNS if label[0] in "#b" else {}) + label[1:].translate(_SIGNS)
    return label


def note(mark: Mark, label: str, x: float, y: float, hollow: bool = False) -> str:
    """A note's mark with its label. ``hollow``: an open string."""
    paint = f'fill="none" stroke="{mark.colour}" stroke-width="2.5"' if hollow else f'fill="{mark.colour}"'
    drawn = _outline(mark.shape, x, y, paint)
    if not label:
        return drawn
    size = _SIZES.get(len(label), _SMALLEST)
    return drawn + words(label_text(label), x, y + 0.36 * size, size, bold=True, fill="currentColor" if hollow else mark.ink)


def _outline(shape: str, x: float, y: float, paint: str) -> str:
    if shape == "circle":
        return f'<circle cx="{number(x)}" cy="{number(y)}" r="{RADIUS}" {paint}/>'
    if shape == "square":
        half = RADIUS - 1
        return f'<rect x="{number(x - half)}" y="{number(y - half)}" width="{2 * half}" height="{2 * half}" {paint}/>'
    corners, radius, turn = {"diamond": (4, RADIUS + 3, 0.0), "hexagon": (6, RADIUS + 1, pi / 6)}[shape]
    angles = [turn + 2 * pi * corner / corners for corner in range(corners)]
    points = " ".join(f"{number(x + radius * cos(angle))},{number(y + radius * sin(angle))}" for angle in angles)
    return f'<polygon points="{points}" {paint}/>'


def cross(x: float, y: float) -> str:
    """A string that is not played."""
    half = RADIUS / 2
    return line(x - half, y - half, x + half, y + half, 2) + line(x - half, y + half, x + half, y - half, 2)
