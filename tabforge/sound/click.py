"""The click of the metronome: a short tone, higher for the first beat of a bar than for the others."""

from __future__ import annotations

from math import pi
from typing import TYPE_CHECKING, Final

from tabforge.sound.arrays import RATE

if TYPE_CHECKING:
    from tabforge.sound.arrays import Samples

FIRST_HZ: Final = 2400.0
OTHER_HZ: Final = 1800.0
"""Above where strings are loudest, so that they do not cover it, and no note of any tuning (by ear)."""

SECONDS: Final = 0.05
_DYING: Final = 0.008
_RISE: Final = 0.0006


def click_sound(accent: bool) -> Samples:
    """One click."""
    import numpy as np  # noqa: PLC0415

    time = np.arange(round(SECONDS * RATE)) / RATE
    wave = (0.16 if accent else 0.11) * np.sin(2 * pi * (FIRST_HZ if accent else OTHER_HZ) * time) * np.exp(-time / _DYING)
    wave *= np.minimum(1.0, time / _RISE) * np.minimum(1.0, (SECONDS - time) / 0.01)
    return wave.astype(np.float32)
