"""How wide letters are and where music signs reach, in parts of the size of the type.

Words are measured by tables of the type they are set in: those of Times come with the engraver, those of Libertinus Serif are in
``libertinus``. For another type they are given the room that the wider of the two takes, and a little more.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Final, NamedTuple

_USUAL: Final = 0.5
"""Width of a character the table does not have."""

_TIMES: Final = "times"
_LIBERTINUS: Final = "libertinus serif"
_KNOWN: Final = {
    **dict.fromkeys(("times", "times new roman", "times roman", "liberation serif", "tinos", "nimbus roman", "tex gyre termes"), _TIMES),
    **dict.fromkeys((_LIBERTINUS, "libertinus", "linux libertine", "linux libertine o"), _LIBERTINUS),
}
"""Families by the table that measures them: those made to the widths of Times, and those of one origin with Libertinus."""

_OTHERS: Final = 1.1
"""What types without a table are given: book types run up to a tenth wider than Times (common practice, no source)."""

_STYLES: Final = {(False, False): "", (True, False): "-bold", (False, True): "-italic", (True, True): "-bold-italic"}

ASCENT: Final = 0.69
"""Height of capitals and figures above the base line (Times: 0.66 to 0.68)."""

DESCENT: Final = 0.22
"""Depth of letters such as p below it."""


class Glyph(NamedTuple):
    """A music sign: its box (left, top, right, bottom; up is negative) and how far it moves on."""

    left: float
    top: float
    right: float
    bottom: float
    advance: float


class Fonts:
    """The tables, each read when it is first needed. ``family`` is what the words are set in, as SVG names it: of several the first."""

    def __init__(self, data: Path, family: str = "Times") -> None:
        self._data = data
        self._glyphs: dict[str, Glyph] | None = None
        self._outlines: dict[str, str] = {}
        self._families = {family: self}
        self._table = _KNOWN.get(_first(family))
        self._letters: dict[str, Mapping[str, float]] = {}
        self._widths: dict[tuple[str, bool, bool], float] = {}

    def of(self, family: str) -> Fonts:
        """Those with words in another family; they are made once."""
        known = self._families.get(family)
        if known is None:
            known = self._families[family] = Fonts(self._data, family)
            known._families, known._outlines = self._families, self._outlines
            known._glyphs = self._music()
        return known

    def width(self, text: str, *, bold: bool = False, italic: bool = False) -> float:
        """Width of a line of words. Most are numbers and letters that come again and again."""
        key = text, bold, italic
        known = self._widths.get(key)
        if known is None:
            known = self._widths[key] = self._measured(text, _STYLES[bold, italic])
        return known

    def _measured(self, text: str, style: str) -> float:
        if self._table is not None:
            return sum(self._row(self._table, style).get(char, _USUAL) for char in text)
        tables = [self._row(name, style) for name in (_TIMES, _LIBERTINUS)]
        return _OTHERS * sum(max(table.get(char, _USUAL) for table in tables) for char in text)

    def _row(self, name: str, style: str) -> Mapping[str, float]:
        table = self._letters.get(name + style)
        if table is None:
            read = self._read_letters(f"Times{style}") if name == _TIMES else _libertinus(style)
            table = self._letters[name + style] = read
        return table

    def glyph(self, code: str) -> Glyph:
        """The measures of a music sign by its code point, as in ``E0A4``."""
        return self._music().get(code) or Glyph(0, -0.5, 0.5, 0.5, 0.5)

    def _music(self) -> dict[str, Glyph]:
        if self._glyphs is None:
            self._glyphs = self._read_glyphs()
        return self._glyphs

    def outline(self, code: str) -> str:
        """The ``d`` of a sign's path in units of a thousandth, y upward; empty if there is no such sign."""
        if code not in self._outlines:
            from xml.etree import ElementTree  # noqa: PLC0415

            file = self._data / "Leipzig" / f"{code}.xml"
            path = ElementTree.fromstring(file.read_bytes()).find("path") if file.is_file() else None
            self._outlines[code] = (path.get("d") or "") if path is not None else ""
        return self._outlines[code]

    def _read_letters(self, name: str) -> dict[str, float]:
        from xml.etree import ElementTree  # noqa: PLC0415

        root = ElementTree.fromstring((self._data / "text" / f"{name}.xml").read_bytes())
        em = float(root.get("units-per-em") or 1)
        found = {}
        for each in root:  # a letter is named by its bytes in UTF-8; one without an advance has that of most, or what it covers
            covered = max(_USUAL * em, float(each.get("x") or 0) + float(each.get("w") or 0))
            found[bytes.fromhex(each.get("c") or "20").decode()] = float(each.get("h-a-x") or covered) / em
        return found

    def _read_glyphs(self) -> dict[str, Glyph]:
        from xml.etree import ElementTree  # noqa: PLC0415

        root = ElementTree.fromstring((self._data / "Leipzig.xml").read_bytes())
        em = float(root.get("units-per-em") or 1)
        found = {}
        for each in root.iter("g"):
            x, y, w, h, advance = (float(each.get(name) or 0) / em for name in ("x", "y", "w", "h", "h-a-x"))
            found[each.get("c") or ""] = Glyph(x, -(y + h), x + w, -y, advance or x + w)
        return found


def _first(family: str) -> str:
    """The first family of a list, without quotation marks."""
    return family.partition(",")[0].strip(" \"'").casefold()


def _libertinus(style: str) -> Mapping[str, float]:
    from tabforge.pages.libertinus import LETTERS, WIDTHS  # noqa: PLC0415

    return {letter: int(width) / 1000 for letter, width in zip(LETTERS, WIDTHS[style].split(), strict=True)}
