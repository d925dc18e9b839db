"""The engraving program, verovio, and the fonts it brings: the one place that deals with it.

The program is installed by the extra ``pages``. A toolkit is made for one thread; each of its drawings begins with the same seed, so that
the same document gives the same drawing.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from tabforge.pages.fonts import Fonts

HOW_TO_INSTALL: Final = "Engraved pages need verovio. Install with: pip install 'tabforge[pages]'"

UNITS: Final = 10
"""Units of a drawing's coordinates to one of the engraver's."""

SPACE: Final = 180.0
"""The distance of two staff lines in a drawing, in its units, whatever size it is shown at."""

_HIGHEST: Final = 60_000
"""Height of the engraver's page, the most it takes: a section is drawn on as few as may be, and cut into systems afterwards."""

_OPTIONS: Final[dict[str, Any]] = {
    "adjustPageHeight": True,
    "footer": "none",
    "header": "none",
    "justifyVertically": False,
    "multiRestStyle": "block",
    "minLastJustification": 0.6,
    "pageHeight": _HIGHEST,
    "pageMarginBottom": 50,
    "pageMarginLeft": 60,
    "pageMarginRight": 10,
    "pageMarginTop": 50,
    "scale": 100,
    "smuflTextFont": "none",
    "spacingSystem": 12,
    "svgFormatRaw": True,
    "svgViewBox": True,
}


class MissingEngraverError(Exception):
    """The engraving program is not installed; its text says how it comes."""


class Engraver:
    """One engraving program, for one thread. Raises MissingEngraverError."""

    def __init__(self) -> None:
        try:
            import verovio  # noqa: PLC0415  # the extra's, and slow to load
        except ImportError as error:
            raise MissingEngraverError(HOW_TO_INSTALL) from error
        verovio.enableLog(verovio.LOG_OFF)  # its warnings are about ties to nowhere and other things that are meant
        self._data = Path(verovio.__file__).parent / "data"
        self._toolkit = verovio.toolkit(False)
        self._toolkit.setResourcePath(str(self._data))
        self._fonts: Fonts | None = None

    @property
    def fonts(self) -> Fonts:
        """Measures of the letters and music signs it draws with."""
        if self._fonts is None:
            from tabforge.pages.fonts import Fonts  # noqa: PLC0415

            self._fonts = Fonts(self._data)
        return self._fonts

    def draw(self, document: str, width: float, *, told: bool, numbers: bool) -> list[str]:
        """A MusicXML document as pages of SVG, ``width`` in units of a drawing.

        ``told``: lines end where the document says and nowhere else.

        Raises ValueError if the document cannot be read: that is a bug of ours.
        """
        toolkit = self._toolkit
        toolkit.setOptions(
            {
                **_OPTIONS,
                "breaks": "line" if told else "auto",
                "mnumInterval": 0 if numbers else 10_000,
                "pageWidth": round(width / UNITS),
            }
        )
        toolkit.resetXmlIdSeed(1)
        if not toolkit.loadData(document):
            raise ValueError("the engraver cannot read the document")
        return [toolkit.renderToSVG(page) for page in range(1, toolkit.getPageCount() + 1)]
