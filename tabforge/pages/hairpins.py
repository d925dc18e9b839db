"""Hairpins that keep their distance from dynamics: the engraver ends them a quarter of a space before, which looks like touching."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from tabforge.pages.cleaning import NUMBER, SVG, Scribe
from tabforge.pages.fonts import Fonts
from tabforge.pages.reading import System
from tabforge.pages.shapes import Box, around

if TYPE_CHECKING:
    from collections.abc import Sequence
    from xml.etree.ElementTree import Element

_CLEAR: Final = 100.0
"""Room between a hairpin and a dynamic."""

_LEAST: Final = 250.0
"""A hairpin is not made shorter than this."""


def clear_hairpins(fonts: Fonts, system: System) -> None:
    """Make the hairpins of a system as short as its dynamics want them, in the engraver's own elements."""
    hung = [each for measure in system.measures for each in measure.others] + system.others
    hairpins = [line for each in hung if each.get("class") == "hairpin" for line in each.iter(f"{SVG}polyline")]
    if not hairpins:
        return
    letters = []
    for each in hung:
        if each.get("class") == "dynam":
            scribe = Scribe(fonts, {})
            scribe.write(each)
            letters += [around(scribe.boxes)] if scribe.boxes else []
    for line in hairpins:
        _shorten(line, letters)


def _shorten(line: Element, letters: Sequence[Box]) -> None:
    numbers = [float(each) for each in NUMBER.findall(line.get("points", ""))]
    xs, ys = numbers[::2], numbers[1::2]
    left, right = begin, end = min(xs), max(xs)
    for box in letters:
        if box.top < max(ys) and min(ys) < box.bottom and box.left - _CLEAR < right and left < box.right + _CLEAR:
            if box.left + box.right > begin + end:
                right = min(right, box.left - _CLEAR)
            else:
                left = max(left, box.right + _CLEAR)
    if (left, right) != (begin, end) and right - left > _LEAST:
        scale = (right - left) / (end - begin)
        line.set("points", " ".join(f"{left + (x - begin) * scale:.0f},{y:.0f}" for x, y in zip(xs, ys, strict=True)))
