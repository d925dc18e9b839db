"""How a technique looks on a seventh fret, for the legend."""

from __future__ import annotations

from fractions import Fraction

from tabforge.model.techniques import Amount, Mark, Role, Technique
from tabforge.writers.ascii.marks import DOWN, UP, Shape, joined, put_on

FRET = 7


def sample(technique: Technique) -> str:
    """The technique's sign as it stands in the tab or above it."""
    usual = Fraction(FRET) if technique.extends and technique.amount is Amount.FRETS else Fraction(1)
    mark = Mark(technique=technique, role=Role.START if technique.leads else Role.SINGLE, amount=technique.default or usual)
    shape = put_on(Shape(FRET), (mark,))
    if shape.extents:
        return f"{shape.extents[0].sign}---|"
    if shape.above and not shape.after:
        return joined(shape.above)
    target = "" if not shape.lead else "5" if technique.name == "pull-off" else "9"
    text = shape.before + shape.core + shape.after + shape.lead + target
    if shape.above:
        return f"{joined(shape.above)} {text}"
    return f"{text} {FRET}{DOWN}5" if shape.lead == UP else text
