"""Keeping the level: gentle compression, then a limit that no sample passes.

Both look at short blocks and change the gain in straight lines between them. The limiter looks ahead: its gain is the least that any block
nearby needs, smoothed over the blocks in between, so it is low enough in every block and never jumps.
"""

from __future__ import annotations

from math import exp, log10
from typing import TYPE_CHECKING, Final

from tabforge.sound.arrays import RATE

if TYPE_CHECKING:
    from tabforge.sound.arrays import Exact, Samples

CEILING_DB: Final = -2.0
"""The highest peak, in dB under full scale: under -1, and with room for what a compressed form adds when it is decoded."""

GAIN_DB: Final = 11.0
"""What a performance is raised by."""

THRESHOLD_DB: Final = -22.0
RATIO: Final = 2.0
"""From that level on (root mean square, after the gain) twice the change comes out as once."""

_BLOCK: Final = 128
_ATTACK: Final = 0.015
_RELEASE: Final = 0.25
_AHEAD: Final = 4
_AT_ONCE: Final = 4096
"""Blocks whose gain is applied at once, to keep memory small."""


def level(wave: Samples) -> None:
    """Bring sound to its level, in place."""
    import numpy as np  # noqa: PLC0415

    wave *= np.float32(10 ** (GAIN_DB / 20))
    _apply(wave, _compression(wave))
    _apply(wave, _limit(wave))


def _blocks(wave: Samples) -> tuple[Samples, Samples]:
    """Whole blocks as rows, and the rest."""
    whole = len(wave) // _BLOCK * _BLOCK
    return wave[:whole].reshape(-1, _BLOCK), wave[whole:]


def _compression(wave: Samples) -> Exact:
    import numpy as np  # noqa: PLC0415

    rows, rest = _blocks(wave)
    power = np.append(np.einsum("ij,ij->i", rows, rows) / _BLOCK, np.mean(rest**2) if len(rest) else 0.0).astype(np.float64)
    rising, falling = (1 - exp(-_BLOCK / (RATE * seconds)) for seconds in (_ATTACK, _RELEASE))
    state, followed = 0.0, []
    for each in power.tolist():
        state += (each - state) * (rising if each > state else falling)
        followed.append(state)
    over = 10 * np.log10(np.maximum(followed, 1e-12)) - THRESHOLD_DB
    return np.asarray(10 ** (-np.maximum(over, 0.0) * (1 - 1 / RATIO) / 20))


def _limit(wave: Samples) -> Exact:
    import numpy as np  # noqa: PLC0415

    rows, rest = _blocks(wave)
    peak = np.append(np.maximum(rows.max(1, initial=0.0), -rows.min(1, initial=0.0)), np.abs(rest).max(initial=0.0)).astype(np.float64)
    need = np.minimum(1.0, 10 ** (CEILING_DB / 20) / np.maximum(peak, 1e-12))
    reach = _AHEAD + 1
    padded = np.pad(need, reach, constant_values=1.0)
    least = np.lib.stride_tricks.sliding_window_view(padded, 2 * reach + 1).min(1)
    weights = np.hanning(2 * _AHEAD + 3)[1:-1]
    return np.convolve(np.pad(least, _AHEAD, mode="edge"), weights / weights.sum(), "valid")


def _apply(wave: Samples, gain: Exact) -> None:
    """Multiply by the gain of each block, told at its middle, in straight lines in between."""
    import numpy as np  # noqa: PLC0415

    if gain.min() == 1.0 == gain.max():
        return
    middles = (np.arange(len(gain)) + 0.5) * _BLOCK
    for start in range(0, len(wave), _BLOCK * _AT_ONCE):
        piece = wave[start : start + _BLOCK * _AT_ONCE]
        piece *= np.interp(np.arange(start, start + len(piece)), middles, gain).astype(np.float32)


def decibels(peak: float) -> float:
    """A peak in dB under full scale."""
    return 20 * log10(max(peak, 1e-6))
