"""Chord shapes as small charts over their symbols: strings upright, the nut or the first fret's number, dots, barre, open and unplayed."""

from __future__ import annotations

from typing import Final

from tabforge.diagrams.frames import Shape as Grip
from tabforge.diagrams.frames import barre_of, frets_of
from tabforge.pages.fonts import Fonts
from tabforge.pages.shapes import Box, Shape, line, together, words

_STRING: Final = 115.0
_FRET: Final = 145.0
_DOT: Final = 46.0
_SIGN: Final = 34.0
_ROOM: Final = 130.0
_NUMBER: Final = 250.0
"""Distances of strings and frets, radius of a dot, half the size of a sign over the nut, room for those, size of the fret's number."""


def fret_box(fonts: Fonts, grip: Grip, middle: float, foot: float, *, left_handed: bool) -> Shape:
    """The chart of a grip (a fret for each string from the lowest) about ``middle``, with its foot at a height."""
    first, last = frets_of(grip)
    count, rows = len(grip), last - first + 1
    width, top = (count - 1) * _STRING, foot - rows * _FRET
    left = middle - width / 2

    def across(place: int) -> float:
        return left + (count - 1 - place if left_handed else place) * _STRING

    shapes = [line(across(place), top, across(place), foot, 13) for place in range(count)]
    for row in range(rows + 1):
        y, nut = top + row * _FRET, row == 0 and first == 1
        shapes.append(line(left, y, left + width, y, 44 if nut else 13))
    barre = barre_of(grip)
    if barre is not None:
        y = top + (barre.fret - first + 0.5) * _FRET
        ends = sorted((across(count - barre.low), across(count - barre.high)))
        shapes.append(line(ends[0], y, ends[1], y, 62))
    for place, fret in enumerate(grip):
        x = across(place)
        if fret:
            shapes.append(_circle(x, top + (fret - first + 0.5) * _FRET, _DOT, ""))
        elif fret == 0:
            shapes.append(_circle(x, top - _ROOM / 2 - 8, _SIGN, ' fill="none" stroke="currentColor" stroke-width="12"'))
        else:
            y = top - _ROOM / 2 - 8
            shapes += [line(x - _SIGN, y - _SIGN, x + _SIGN, y + _SIGN, 13), line(x - _SIGN, y + _SIGN, x + _SIGN, y - _SIGN, 13)]
    if first > 1:
        x, anchor = (left - 55, "end") if not left_handed else (left + width + 55, "start")
        shapes.append(words(fonts, str(first), x, top + 0.5 * _FRET + 0.33 * _NUMBER, _NUMBER, anchor=anchor))
    drawn = together(shapes)
    return drawn._replace(box=Box(drawn.box.left, top - _ROOM, drawn.box.right, foot))


def _circle(x: float, y: float, radius: float, paint: str) -> Shape:
    svg = f'<circle cx="{x:.0f}" cy="{y:.0f}" r="{radius:.0f}"{paint}/>'
    return Shape(svg, Box(x - radius, y - radius, x + radius, y + radius))
