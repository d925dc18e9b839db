"""The way of a pitch: bends, vibrato and slides as a change of the speed at which a string's sound goes by."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from tabforge.sound.arrays import RATE

if TYPE_CHECKING:
    from tabforge.sound.arrays import Exact, Samples


def path_of(points: Sequence[tuple[float, float]], count: int) -> Exact:
    """Where in the unbent sound each of ``count`` samples lies, in samples.

    ``points`` are (seconds, cents), in a straight line in between; before the first and after the last the pitch stands still.
    """
    import numpy as np  # noqa: PLC0415

    times, cents = zip(*points, strict=True)
    speed = np.exp2(np.interp(np.arange(count) / RATE, times, cents) / 1200)
    path = np.empty(count)
    path[0] = 0.0
    np.cumsum((speed[1:] + speed[:-1]) / 2, out=path[1:])
    return path


def warped(wave: Samples, path: Exact) -> Samples:
    """A sound read along a path, by cubic interpolation; silence beyond its end."""
    import numpy as np  # noqa: PLC0415

    padded = np.concatenate([wave[:1] * 0, wave, np.zeros(3, np.float32)])
    whole = np.minimum(path.astype(np.int64), len(wave))
    part = (path - whole).clip(0, 1).astype(np.float32)
    before, here, after, beyond = (padded[whole + step] for step in range(4))
    return np.asarray(
        here
        + part / 2 * (after - before + part * (2 * before - 5 * here + 4 * after - beyond + part * (3 * (here - after) + beyond - before)))
    )
