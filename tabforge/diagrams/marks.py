"""The one home of what tells notes apart: a form in characters, and a shape and a colour that each do it alone.

The colours are four of the eight that Okabe and Ito chose so that people with any kind of colour vision tell them apart (M. Okabe and
K. Ito, "Color Universal Design: how to make figures and presentations that are friendly to colorblind people", revised 2008; cited from
memory). These four stand out from white as from black by the 3:1 that WCAG 2.1 asks of graphical objects (success criterion 1.4.11), and
the ink of a label from its colour by 4.5:1 (1.4.3).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tabforge.diagrams.model import Role

BLACK: Final = "#000000"
WHITE: Final = "#ffffff"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """How a role is drawn: what stands around a label in text; shape, colour and the label's ink in a picture."""

    before: str
    after: str
    shape: str
    colour: str
    ink: str

    def around(self, label: str) -> str:
        """A label in its form; a note without one is an ``o``."""
        return f"{self.before}{label or 'o'}{self.after}"


MARKS: Final[dict[Role, Mark]] = {
    Role.ROOT: Mark(before="[", after="]", shape="square", colour="#d55e00", ink=BLACK),  # vermillion
    Role.CHARACTERISTIC: Mark(before="{", after="}", shape="diamond", colour="#009e73", ink=BLACK),  # bluish green
    Role.TONE: Mark(before="", after="", shape="circle", colour="#0072b2", ink=WHITE),  # blue
    Role.OUTSIDE: Mark(before="(", after=")", shape="hexagon", colour="#cc79a7", ink=BLACK),  # reddish purple
}
