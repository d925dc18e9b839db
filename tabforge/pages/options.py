"""What a caller may ask of engraved pages."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

Flavour = Literal["print", "web"]

PAPERS: Final[dict[str, tuple[float, float]]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4), "a5": (148.0, 210.0)}
"""Width and height of paper in millimetres: ISO 216, and ANSI/ASME Y14.1 (8.5 by 11 inches)."""

MARGIN: Final = 15.0
"""Millimetres of paper left free on each side."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PageOptions:
    """Settings of engraved pages.

    ``width`` is that of every system in millimetres (that of A4 within its margins). ``space`` is the distance of two staff lines in
    millimetres. ``flavour``: "print" draws in black, for any renderer; "web" in ``currentColor``, the colour of the text around it.
    ``font`` is the family of all words and TAB numbers, as SVG names it; its first name says how they are measured (``fonts``).
    ``diagrams``: draw chord shapes over their symbols. ``numbers``: number the first bar of each system, but not bar 1.
    """

    width: float = 180.0
    space: float = 1.6
    flavour: Flavour = "print"
    font: str = "Times, serif"
    diagrams: bool = True
    numbers: bool = True

    @staticmethod
    def on(paper: str, *, flavour: Flavour = "print") -> PageOptions:
        """The settings for a paper, a key of PAPERS; smaller notes on A5."""
        return PageOptions(width=PAPERS[paper][0] - 2 * MARGIN, space=1.4 if paper == "a5" else 1.6, flavour=flavour)
