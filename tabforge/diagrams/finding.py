"""Finding grips for a chord symbol: candidates from each part of the neck, judged as a chord's grip always is."""

from __future__ import annotations

from typing import Final

from tabforge.diagrams.frames import Shape
from tabforge.diagrams.shapes import Frets
from tabforge.fretboard.chord_needs import needs_of
from tabforge.fretboard.cost import Weights
from tabforge.fretboard.grip_holding import held, least_cost, reach_on
from tabforge.fretboard.grip_shapes import Part, order, shapes_in
from tabforge.fretboard.gripped import Grip
from tabforge.fretboard.neck import Neck
from tabforge.model.harmony import ChordSymbol

MOST_JUDGED: Final = 16
"""Grips of one part of the neck that are held to a hand's reach: those that can weigh least."""

_CHART: Final = Weights(barre=1, displaced=0)
"""A chart shows no fingers: which of them lies where is left to the hand, and a barre is not much dearer than they are."""


def find_grips(symbol: ChordSymbol, neck: Neck, most: int, frets: Frets | None = None) -> list[Shape]:
    """At most ``most`` grips of a chord, the best first: the same every time for the same chord and neck.

    ``frets``: fretted notes lie between these, and open strings are used only if it begins at 0. Of grips that differ on one string
    alone, or in what they leave out, only the best is told. Empty for N.C., and where no hand reaches the chord.
    """
    needs = needs_of(symbol, len(neck.tuning))
    if needs is None:
        return []
    reach = reach_on(neck, _CHART.hand)
    low, high = (max(1, frets.first), min(frets.last, neck.last)) if frets else (1, neck.last)
    opened = frets is None or frets.first == 0
    grips: dict[Shape, Grip] = {}
    for base in range(low, max(low, high) + 1):  # where there are no frets, open strings are left
        part = Part(base, min(reach[base], high) if base <= high else 0, opened)
        shapes = sorted(shapes_in(part, needs, neck), key=lambda each: (least_cost(each[1], each[0], _CHART), order(each[1])))
        for lack, shape in shapes[:MOST_JUDGED]:
            grip = held(shape, neck, _CHART, lack)
            if grip:
                grips[shape] = grip
    kept: list[Shape] = []
    for grip in sorted(grips.values(), key=lambda grip: (grip.cost, order(grip.frets))):
        if len(kept) == most:
            break
        if not any(_alike(grip.shape, other) for other in kept):
            kept.append(grip.shape)
    return kept


def _alike(shape: Shape, other: Shape) -> bool:
    """Whether two grips differ on one string alone, or one is the other with strings left out."""
    differing = [(fret, there) for fret, there in zip(shape, other, strict=True) if fret != there]
    return len(differing) < 2 or all(fret is None for fret, _ in differing) or all(there is None for _, there in differing)
