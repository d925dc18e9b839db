"""Where the engraver has put things: its drawing cut into systems, staves and notes.

A system has for each bar a notation staff, a TAB staff and what hangs on them. Coordinates are the drawing's.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final, NamedTuple

from tabforge.pages.cleaning import HREF, NUMBER, SVG, placed
from tabforge.pages.fonts import Fonts

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_G: Final = f"{SVG}g"
_PATH: Final = f"{SVG}path"
_TEXT: Final = f"{SVG}text"
_USE: Final = f"{SVG}use"

ASIDE: Final = 34.0
"""A TAB number of the engraver's stands so far left of the middle of its note head (measured, verovio 6.4)."""


class Measure(NamedTuple):
    """A bar on paper: its staves, everything else that is drawn with it, and from where to where it goes."""

    staff: Element
    tab: Element
    others: list[Element]
    left: float
    right: float
    inner: float
    """Where the bar line at its end begins, its dots included."""


class System(NamedTuple):
    """A line of music as it was engraved. ``staff`` and ``strings`` are the heights of the lines from the top."""

    measures: list[Measure]
    others: list[Element]
    staff: list[float]
    strings: list[float]

    @property
    def gap(self) -> float:
        """The distance of two strings."""
        return self.strings[1] - self.strings[0]


def systems(page: str) -> Iterator[System]:
    """The systems of a page."""
    from xml.etree import ElementTree  # noqa: PLC0415

    for group in ElementTree.fromstring(page).iter(_G):
        if group.get("class") == "system":
            yield _system(group)


def _system(group: Element) -> System:
    measures: list[Measure] = []
    others: list[Element] = []
    staff: list[float] = []
    strings: list[float] = []
    for child in group:
        if child.get("class") != "measure":
            others.append(child)
            continue
        found = [each for each in child if each.get("class") == "staff"]
        left, right, upper = _lines(found[0])
        if not measures:
            staff, strings = upper, _lines(found[1])[2]
        rest = [each for each in child if each.get("class") != "staff"]
        measures.append(Measure(found[0], found[1], rest, left, right, _inner(rest, left, right)))
    return System(measures, others, staff, strings)


def _inner(others: list[Element], left: float, right: float) -> float:
    """Where the last bar line of a bar begins."""
    xs = []
    for group in others:
        if group.get("class") == "barLine":
            for path in group.iter(_PATH):
                xs.append(float(NUMBER.findall(path.get("d", ""))[0]))
            for sign in group.iter(f"{SVG}ellipse"):
                xs.append(float(sign.get("cx", 0)) - float(sign.get("rx", 0)))
    return min((x for x in xs if x > (left + right) / 2), default=right)


def _lines(staff: Element) -> tuple[float, float, list[float]]:
    """From where to where the lines of a staff go, and their heights. A TAB line is broken where numbers stand."""
    xs: set[float] = set()
    ys: set[float] = set()
    for path in staff.findall(_PATH):
        x1, y1, x2, _ = map(float, NUMBER.findall(path.get("d", "")))
        xs |= {x1, x2}
        ys.add(y1)
    return min(xs), max(xs), sorted(ys)


def positions(measure: Measure, fonts: Fonts) -> Iterator[tuple[str, float]]:
    """The id of every note and rest of a bar, with the middle of its head or number."""
    for group in measure.tab.iter(_G):
        if group.get("class") == "note":
            text = group.find(_TEXT)
            if text is not None:
                yield group.get("id", ""), float(text.get("x", 0)) + ASIDE
    for group in measure.staff.iter(_G):
        if group.get("class") in {"note", "rest", "mRest"}:
            sign = next(group.iter(_USE), None)
            if sign is not None:
                x, _, scale = placed(sign)
                glyph = fonts.glyph(sign.get(HREF, "")[1:5])
                yield group.get("id", ""), x + (glyph.left + glyph.right) / 2 * scale * 1000


def chord_symbols(measure: Measure) -> list[Element]:
    """The chord symbols of a bar in order."""
    return [each for each in measure.others if each.get("class") == "harm"]
