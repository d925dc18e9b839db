"""Pictures as they stand in a page: in the colour of the text, music signs kept once, and nothing in them that only other programs need."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil
from typing import TYPE_CHECKING, Final

from tabforge.book.html.markup import Markup, attributes
from tabforge.pages.glyphs import share_glyphs

if TYPE_CHECKING:
    from tabforge.book.model import Picture
    from tabforge.pages import System

PIXELS: Final = 96 / 25.4
"""CSS pixels of a millimetre (CSS Values and Units Level 4, 6.2)."""

_HEAD: Final = re.compile(r'<svg [^>]*?viewBox="([^"]*)"[^>]*>')
_SAID: Final = re.compile(r"<(title|desc)>.*?</\1>\n?", re.S)
_DEFS: Final = re.compile(r"<defs>.*?</defs>", re.S)
_KNOWN: Final = re.compile(r' (?:data-[a-z]+|class|aria-hidden|xmlns)="[^"]*"')
_LONE: Final = re.compile(r"<g>((?:<(?:use|path|polygon|ellipse|rect|line)[^>]*/>|<text[^>]*>[^<]*</text>)*)</g>")
"""A group that says nothing of what is in it."""

_FAMILY: Final = re.compile(r' font-family="[^"]*"')


@dataclass(slots=True)
class Gallery:
    """Takes pictures up for a page and remembers the music signs they use."""

    _signs: dict[str, None] = field(default_factory=dict)

    def system(self, system: System) -> Markup:
        """One line of music without the empty paper after it, in tenths of the page's width; the style sheet sizes it."""
        tenths = min(10, ceil(system.inked / system.width * 10))
        return self._shown(system.svg, system.label, f"system tenths-{tenths}", system.width, system.height, tenths / 10)

    def shape(self, picture: Picture) -> Markup:
        """A diagram in its own size, or as wide as there is room."""
        return self._shown(picture.svg, picture.label, "shape", picture.width, picture.height)

    def small(self, system: System) -> Markup:
        """A line of music in its own size."""
        return self._shown(system.svg, system.label, "system small", system.width, system.height)

    def signs(self) -> Markup:
        """The music signs of every picture taken up, as one hidden picture that must stand in the page before them."""
        shared, _ = share_glyphs(list(self._signs))
        found = _DEFS.search(shared)
        assert found is not None  # share_glyphs gives a picture of definitions
        return Markup(f'<svg class="signs" width="0" height="0" aria-hidden="true" focusable="false">{found[0]}</svg>')

    def _shown(self, svg: str, label: str, kind: str, width: float, height: float, part: float = 1.0) -> Markup:
        defs = _DEFS.search(svg)
        if defs is not None:
            self._signs[defs[0]] = None
        head = _HEAD.search(svg)
        assert head is not None  # every picture of ours says what it shows
        body = svg[head.end() : svg.rindex("</svg>")]
        body = _KNOWN.sub("", _FAMILY.sub("", _SAID.sub("", _DEFS.sub("", body)))).replace("\n", "")
        body = _LONE.sub(r"\1", body)
        left, top, wide, high = map(float, head[1].split())
        view = f"{left:g} {top:g} {wide * part:g} {high:g}"
        size = {"width": f"{width * part * PIXELS:.0f}", "height": f"{height * PIXELS:.0f}"}
        said = attributes(class_=kind, viewBox=view, **size, role="img", aria_label=label)
        return Markup(f'<svg{said}><g aria-hidden="true">{body}</g></svg>')


def height_of(pictures: Sequence[System | Picture]) -> float:
    """CSS pixels that pictures take under one another."""
    return sum(each.height for each in pictures) * PIXELS
