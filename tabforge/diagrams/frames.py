"""Which part of the neck a grip's chart shows, and the barre that the grip takes: the same wherever a chart is drawn."""

from __future__ import annotations

from typing import Final

from tabforge.fretboard.gripped import Barre
from tabforge.fretboard.reach import FINGERS

Shape = tuple[int | None, ...]
"""A grip as chord symbols have it: a fret for each string from the lowest, 0 for an open one, None for one that is not played."""

LEAST: Final = 4
"""Frets a diagram shows at least, where the neck has them (common practice, no source)."""


def frets_of(shape: Shape) -> tuple[int, int]:
    """The first fret and the last that a grip's chart shows.

    It begins at the nut if the grip lies within the first frets, else at the grip's lowest fretted one.
    """
    fretted = [fret for fret in shape if fret]
    first = min(fretted) if fretted and max(fretted) > LEAST else 1
    return first, max([first + LEAST - 1, *fretted])


def barre_of(shape: Shape) -> Barre | None:
    """The barre a grip takes, if it takes one (common practice, no source).

    The first finger lies over several strings at the lowest fret, no open string among them, where there are as many strings to hold down
    as there are fingers, or more.
    """
    fretted = [fret for fret in shape if fret]
    if len(fretted) < FINGERS:
        return None
    lowest = min(fretted)
    places = [place for place, fret in enumerate(shape) if fret == lowest]
    if len(places) < 2 or 0 in shape[places[0] : places[-1] + 1]:
        return None
    return Barre(fret=lowest, low=len(shape) - places[0], high=len(shape) - places[-1])
