"""Frettings: how many half steps above the open string the frets give, to a hundredth of one (a cent).

Most necks have a fret for every half step. A diatonic neck leaves some out: from the open string up its frets give a major scale with a
minor seventh (the mixolydian mode), whole steps and half steps as 2 2 1 2 2 1 2; players of dulcimers often add a fret for the major
seventh and call it six and a half. Common practice, no source.
"""

from __future__ import annotations

from typing import Final

from tabforge.limits import MAX_FRET

CHROMATIC: Final = "chromatic"

FRETTINGS: Final[dict[str, tuple[int, ...]]] = {
    CHROMATIC: (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12),
    "diatonic": (2, 4, 5, 7, 9, 10, 12),
    "diatonic+": (2, 4, 5, 7, 9, 10, 11, 12),
}
"""Name → the half steps of the frets of the first octave; the further octaves are like it."""

HIGHEST: Final = 60
"""Half steps of the highest fret that a fretting of one's own may have: five octaves."""


def fretting_up_to(name: str, reach: int) -> tuple[int, ...]:
    """A named fretting on a neck whose last fret lies at most ``reach`` half steps above the open string. KeyError for another name.

    Empty, as everywhere, where every fret gives a half step.
    """
    if name == CHROMATIC:
        return ()
    octave = FRETTINGS[name]
    return tuple(12 * up + each for up in range(reach // 12 + 1) for each in octave if 12 * up + each <= reach)[:MAX_FRET]


def in_hundredths(steps: float) -> bool:
    """Whether a number of half steps is one of hundredths, as far as binary fractions can tell."""
    return abs(100 * steps - round(100 * steps)) < 1e-6


def rises(fretting: tuple[float, ...]) -> bool:
    """Whether each fret sounds higher than the one before, and the first higher than the open string."""
    return all(low < high for low, high in zip((0, *fretting), fretting, strict=False))
