"""Measures of the page on each paper, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tabforge.pages.options import MARGIN, PAPERS


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """``width`` and ``height`` are what text and music may take; ``measure`` is the width of running words; ``size`` and ``letters`` are
    the sizes in points of words and of ASCII tab; ``columns`` those of the glossary and the index,
    ``running`` the letters that half a running head holds.
    """

    paper: str
    width: float
    height: float
    measure: float
    size: float
    letters: float
    columns: int
    running: int


TALL_MARGINS: Final = 2 * MARGIN + 13.0
"""Head and foot together, the running head and the page number included."""

_NAMES: Final = {"a4": "a4", "letter": "us-letter", "a5": "a5"}


def layout_of(paper: str) -> Layout:
    """The layout of a paper, a key of PAPERS."""
    width, height = PAPERS[paper]
    small = paper == "a5"
    within = width - 2 * MARGIN
    return Layout(
        paper=_NAMES[paper],
        width=within,
        height=height - TALL_MARGINS - 10,
        measure=min(within, 140.0),
        size=9.0 if small else 10.5,
        letters=7.5 if small else 9.0,
        columns=1 if small else 2,
        running=40 if small else 52,
    )
