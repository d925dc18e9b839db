"""How wide letters are and where music signs reach, from the tables the engraver brings.

Words are measured as Times, whose widths other book types come near to. All measures are parts of the size of the type.
"""

from __future__ import annotations

from pathlib import Path
from typing import Final, NamedTuple

_USUAL: Final = 0.5
"""Width of a character the table does not have."""

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
    """The tables, each read when it is first needed."""

    def __init__(self, data: Path) -> None:
        self._data = data
        self._letters: dict[str, dict[str, float]] = {}
        self._glyphs: dict[str, Glyph] | None = None
        self._outlines: dict[str, str] = {}
        self._widths: dict[tuple[str, bool, bool], float] = {}

    def width(self, text: str, *, bold: bool = False, italic: bool = False) -> float:
        """Width of a line of words. Most are numbers and letters that come again and again."""
        key = text, bold, italic
        known = self._widths.get(key)
        if known is None:
            known = self._widths[key] = self._measured(text, bold, italic)
        return known

    def _measured(self, text: str, bold: bool, italic: bool) -> float:
        name = "Times" + "-bold" * bold + "-italic" * italic
        table = self._letters.get(name)
        if table is None:
            table = self._letters[name] = self._read_letters(name)
        return sum(table.get(char, _USUAL) for char in text)

    def glyph(self, code: str) -> Glyph:
        """The measures of a music sign by its code point, as in ``E0A4``."""
        if self._glyphs is None:
            self._glyphs = self._read_glyphs()
        return self._glyphs.get(code) or Glyph(0, -0.5, 0.5, 0.5, 0.5)

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
