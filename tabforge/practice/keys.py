"""The order in which keys are practised."""

from __future__ import annotations

from hashlib import sha256
from typing import Final

from tabforge.model.score import Scale
from tabforge.practice.model import KeyOrder
from tabforge.theory.keys import Way, walk

_STEPS: Final[dict[KeyOrder, int]] = {"fifths": 7, "fourths": 5, "chromatic": 1}


def turns(order: KeyOrder, seed: int) -> tuple[int, ...]:
    """Half steps above a block's own root at which it is practised, in turn: all twelve, or its own alone for ``as written``.

    A random order depends on nothing but its seed: the twelve in the order of the SHA-256 digests of the seed with each.
    """
    if order == "as written":
        return (0,)
    if order == "random":
        return tuple(sorted(range(12), key=lambda turn: sha256(f"{seed} {turn}".encode()).digest()))
    return tuple(_STEPS[order] * number % 12 for number in range(12))


_CHROMATIC: Final[Way] = "chromatic"


def key_at(scale: Scale, turn: int) -> str:
    """The key so many half steps above a scale's own, spelled plainly: ``Bb lydian``."""
    return f"{walk(scale, _CHROMATIC)[turn]} {scale.name}"
