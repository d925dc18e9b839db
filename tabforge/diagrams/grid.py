"""Where a diagram's strings and frets lie in its picture: along a neck that lies, or down one that stands; turned for the left hand."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from tabforge.diagrams.model import Diagram

STRING_GAP: Final = 27
FRET_GAP: Final = {False: 44, True: 34}
"""From fret to fret, along a shape and down a chart."""

NARROWEST: Final = 22
"""Where frets are not even, the narrowest one: a mark fills it."""

MARGIN: Final = 16
NAMES: Final = 26
"""Room for the names of the strings."""
BESIDE: Final = 34
"""Room for open strings and those that are not played."""
NUMBERS: Final = 22
"""Room for the fret numbers."""


@dataclass(frozen=True, slots=True)
class Grid:
    """The places of one diagram in a box of its own, whose size is ``width`` by ``height``; the neck begins ``before`` into it."""

    diagram: Diagram

    @property
    def upright(self) -> bool:
        """Whether the strings stand."""
        return self.diagram.upright

    @property
    def before(self) -> float:
        """What stands before the first fret: names, open strings."""
        return NAMES + (BESIDE if self.diagram.has_beside or self.upright else 0)

    @property
    def length(self) -> float:
        """Of the frets together."""
        even = float(FRET_GAP[self.upright] * (self.diagram.last - self.diagram.first + 1))
        wires = self.diagram.wires
        if len(wires) < 2:
            return even
        narrowest = min(high - low for low, high in pairwise(wires))
        return max(even, NARROWEST * (wires[-1] - wires[0]) / narrowest)

    @property
    def breadth(self) -> float:
        """From the first string to the last."""
        return float(STRING_GAP * (len(self.diagram.strings) - 1))

    @property
    def width(self) -> float:
        """Of the box."""
        return self.breadth + 2 * MARGIN + NUMBERS if self.upright else self.before + self.length + MARGIN

    @property
    def height(self) -> float:
        """Of the box."""
        return self.before + self.length + MARGIN if self.upright else self.breadth + 2 * MARGIN + NUMBERS

    def point(self, along: float, string: float) -> tuple[float, float]:
        """A point so far from where the first fret begins (below 0 beside it), on a string."""
        left = self.diagram.left_handed
        count = len(self.diagram.strings)
        if self.upright:
            across = (string - 1) if left else (count - string)
            return MARGIN + (0 if left else NUMBERS) + STRING_GAP * across, self.before + along
        x = self.before + along
        return (self.width - x if left else x), MARGIN + STRING_GAP * (string - 1)

    def fret(self, fret: int) -> float:
        """How far the middle of a fret is along."""
        if self.diagram.wires:
            return (self.wire(fret - 1) + self.wire(fret)) / 2
        return FRET_GAP[self.upright] * (fret - self.diagram.first + 0.5)

    def wire(self, fret: int) -> float:
        """How far the end of a fret is along; 0 and less is where the first one begins."""
        wires, index = self.diagram.wires, fret - self.diagram.first + 1
        if len(wires) > 1:
            return self.length * (wires[min(max(0, index), len(wires) - 1)] - wires[0]) / (wires[-1] - wires[0])
        return float(max(0, FRET_GAP[self.upright] * (fret - self.diagram.first + 1)))
