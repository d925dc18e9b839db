"""A study as one long picture: titles, teaching text, and its systems under one another."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.model.score import Score
from tabforge.pages.engraver import Engraver
from tabforge.pages.fonts import Fonts
from tabforge.pages.glyphs import share_glyphs
from tabforge.pages.options import MARGIN, PageOptions
from tabforge.pages.shapes import escape
from tabforge.pages.sheets import Sheet

_SIZE: Final = re.compile(r'width="[^"]*mm" height="[^"]*mm"')
_HIDDEN: Final = re.compile(r"<defs>.*?</defs>", re.S)

_TITLE: Final = 7.0
_SUBTITLE: Final = 4.2
_HEADING: Final = 4.8
_TEXT: Final = 3.9
"""Sizes of type in millimetres."""

_LEADING: Final = 1.3
_AFTER: Final = 3.0
_BETWEEN: Final = 5.0
"""Lines of text against their size; millimetres after a block of text, and between two systems."""


class _Page:
    """Elements from the top down. ``y`` is where the next one begins, in millimetres."""

    def __init__(self, width: float, fonts: Fonts, font: str) -> None:
        self.out: list[str] = []
        self.y = MARGIN
        self._width = width
        self._fonts = fonts
        self._font = font

    def words(self, text: str, size: float, *, bold: bool = False, italic: bool = False, centred: bool = False) -> None:
        """A paragraph, broken where the line is full."""
        style = (' font-weight="bold"' if bold else "") + (' font-style="italic"' if italic else "")
        x, anchor = (self._width / 2, "middle") if centred else (MARGIN, "start")
        for line in self._broken(text, size, bold, italic):
            self.y += size * _LEADING
            place = f'x="{x:.2f}" y="{self.y - 0.3 * size:.2f}" font-size="{size:g}" text-anchor="{anchor}"'
            self.out.append(f'<text {place} font-family="{escape(self._font)}"{style}>{escape(line)}</text>')

    def _broken(self, text: str, size: float, bold: bool, italic: bool) -> Iterator[str]:
        room = (self._width - 2 * MARGIN) / size / 1.03  # other types run a little wider than the one measured
        line = ""
        for word in text.split():
            longer = f"{line} {word}" if line else word
            if line and self._fonts.width(longer, bold=bold, italic=italic) > room:
                yield line
                longer = word
            line = longer
        yield line


def score_page(score: Score, sheets: Sequence[Sheet], options: PageOptions, engraver: Engraver | None = None) -> str:
    """The sheets of a score on one page as wide as their systems with margins, and as long as it takes.

    ``options`` and ``engraver`` are those of ``engrave``.
    """
    fonts = (engraver or Engraver()).fonts.of(options.font)
    page = _Page(options.width + 2 * MARGIN, fonts, options.font)
    page.words(score.title, _TITLE, bold=True, centred=True)
    for told in (score.subtitle, score.author):
        if told:
            page.words(told, _SUBTITLE, italic=told is score.author, centred=True)
    for line in score.text:
        page.words(line, _TEXT)
    signs, bare = share_glyphs([system.svg for sheet in sheets for system in sheet.systems])
    pictures = iter(bare)
    by_section = {sheet.section: sheet for sheet in sheets}
    for index, section in enumerate(score.sections):
        page.y += _BETWEEN
        if section.title:
            page.words(section.title, _HEADING, bold=True)
        for line in section.text:
            page.words(line, _TEXT)
        if section.title or section.text:
            page.y += _AFTER
        sheet = by_section.get(index)
        for system in sheet.systems if sheet else ():
            place = f'x="{MARGIN:g}" y="{page.y:.2f}" width="{system.width:g}" height="{system.height:g}"'
            page.out.append(_SIZE.sub(place, next(pictures), count=1))
            page.y += system.height + _BETWEEN
    width, height = options.width + 2 * MARGIN, page.y + MARGIN - _BETWEEN
    found = _HIDDEN.search(signs)
    ink = "currentColor" if options.flavour == "web" else "#000"
    said = escape(score.title)
    size = f'width="{width:g}mm" height="{height:.2f}mm" viewBox="0 0 {width:g} {height:.2f}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} fill="{ink}"'
    return f'{head} role="group" aria-label="{said}"><title>{said}</title>{found[0] if found else ""}{"".join(page.out)}</svg>\n'
