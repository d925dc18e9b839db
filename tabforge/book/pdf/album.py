"""The pictures of a book: files for the typesetter, each once, in the book's type, sized to the page."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from tabforge.book.pdf.layout import Layout
from tabforge.book.pdf.lightening import lighter
from tabforge.book.pdf.script import Code, call, millimetres
from tabforge.pages.shapes import escape

if TYPE_CHECKING:
    from tabforge.book.model import Picture
    from tabforge.pages import System

_FAMILY: Final = re.compile(r"""font-family=(?:"[^"]*"|'[^']*')""")


@dataclass(slots=True)
class Album:
    """Takes pictures up and gives the calls that show them. ``family`` is the type of all words in pictures."""

    layout: Layout
    family: str
    files: dict[str, bytes] = field(default_factory=dict)
    _known: dict[str, str] = field(default_factory=dict)

    def system(self, system: System) -> Code:
        """One line of music, as wide as the page if it is as wide as that, and never more than the page holds."""
        scale = min(1.0, self.layout.width / system.width, self.layout.height / system.height)
        return call("system", self._file(system.svg), millimetres(system.width * scale), system.label)

    def picture(self, picture: Picture | System, within: float | None = None) -> Code:
        """A picture in its own size, or smaller if that is wider than ``within`` millimetres or the page."""
        scale = min(1.0, (within or self.layout.width) / picture.width, self.layout.height / picture.height)
        return call("picture", self._file(picture.svg), millimetres(picture.width * scale), picture.label)

    def _file(self, svg: str) -> str:
        name = self._known.get(svg)
        if name is None:
            name = self._known[svg] = f"{len(self._known) + 1}.svg"
            family = f'font-family="{escape(self.family)}"'
            self.files[name] = lighter(_FAMILY.sub(lambda _: family, svg)).encode()
        return name
