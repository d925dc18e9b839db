"""The sound of one plucked string, after Karplus and Strong (Computer Music Journal 7/2, 1983) as extended by Jaffe and Smith (same issue).

A string is a delay as long as its period that feeds itself through a filter. Here the filter is one short row of taps: a low-pass (what
a string loses at the top), a third-order Lagrange interpolator (the part of a sample by which the period is not whole) and a factor
(what it loses at all). The delay begins as a periodic sum of partials, weak where the pick's place has a node and beyond the pluck's
brightness, with phases drawn by a seed; so there is no noise of a loop that closes badly, and like notes sound alike. Whole periods are
computed at once.
"""

from __future__ import annotations

from math import ceil, cos, floor, log10, pi
from typing import TYPE_CHECKING, Final

from tabforge.sound.arrays import RATE
from tabforge.sound.timbre import Timbre

if TYPE_CHECKING:
    from tabforge.sound.arrays import Exact, Samples

HIGH_HZ: Final = 3000.0
"""Where ``Timbre.high`` is told."""

_RING_HZ: Final = 110.0
_RING_FALL: Final = 0.45
"""How much sooner high strings die: by this power of the frequency (by ear)."""

_MOST_PASSES: Final = 24
"""Low-passes in a row in one loop."""

_TILT: Final = 0.8
"""By which power of their number partials fall: by 1 in an ideal string's velocity, by less from a body that gives them back (by ear)."""

_PARTIALS: Final = 400
_FLOOR: Final = 1e-4
"""Partials weaker than this beside the first are left out."""

_SHORTEST: Final = 8.0
"""Periods in samples below which there is no room for the filter: such a high sound is a sine that dies away."""

_NOISE_SECONDS: Final = 0.004


def ring_of(hz: float, timbre: Timbre) -> float:
    """Seconds in which a string of that pitch falls by 60 dB."""
    return float(timbre.ring * min(2.0, (_RING_HZ / hz) ** _RING_FALL))


def pluck(hz: float, seconds: float, timbre: Timbre, seed: int) -> Samples:
    """A string of ``hz`` hertz plucked once, for ``seconds`` or until it is 72 dB softer.

    At its start it is about 0.1 strong (root mean square).
    """
    import numpy as np  # noqa: PLC0415

    count = max(1, ceil(min(seconds, 1.2 * ring_of(hz, timbre) + 0.05) * RATE))
    if RATE / hz < _SHORTEST:
        time = np.arange(count) / RATE
        wave = 0.14 * np.sin(2 * pi * hz * time) * 10 ** (-3 * time / ring_of(hz, timbre))
    else:
        wave = _string(hz, count, timbre, seed)
    wave *= timbre.level
    rise = min(count, max(2, round(timbre.rise * RATE)))
    wave[:rise] *= 0.5 - 0.5 * np.cos(np.arange(rise) * pi / rise)
    return wave.astype(np.float32)


def _string(hz: float, count: int, timbre: Timbre, seed: int) -> Exact:
    import numpy as np  # noqa: PLC0415

    taps, delay = loop_of(hz, timbre)
    reach = len(taps) - 1
    before = delay + reach
    wave = np.empty(before + count)
    wave[:before] = _shape(hz, before, timbre, seed)
    turned = taps[::-1]
    for start in range(before, before + count, delay):
        stop = min(start + delay, before + count)
        wave[start:stop] = np.correlate(wave[start - before : stop - delay], turned)
    wave = wave[before:]
    if timbre.noise:
        length = min(count, round(4 * _NOISE_SECONDS * RATE))
        burst = np.convolve(noise(seed + 1, length + 7), np.full(8, 0.125), "valid")
        wave[:length] += timbre.noise * 0.1 * burst * np.exp(-np.arange(length) / (_NOISE_SECONDS * RATE))
    return wave


def loop_of(hz: float, timbre: Timbre) -> tuple[Exact, int]:
    """The loop's taps, and by how many samples the first of them looks back: together they delay ``hz`` by exactly its period."""
    import numpy as np  # noqa: PLC0415

    period, angle = RATE / hz, 2 * pi * hz / RATE
    kept = 10 ** (-3 / (hz * ring_of(hz, timbre)))
    high = 2 * pi * min(max(HIGH_HZ, 2.5 * hz), 0.4 * RATE) / RATE
    softer = min(0.9999, 10 ** (-3 / (hz * min(timbre.high, ring_of(hz, timbre)))) / kept)
    strongest = (1 + cos(high)) / 2  # of one low-pass of 1/4, 1/2, 1/4
    passes = min(_MOST_PASSES, max(1, ceil(log10(softer) / log10(strongest))), max(1, int(period / 4)))
    side = min(0.25, (1 - softer ** (1 / passes)) / (2 * (1 - cos(high))))
    low = np.array([1.0])
    for _ in range(passes):
        low = np.convolve(low, [side, 1 - 2 * side, side])
    at_pitch = (1 - 2 * side * (1 - cos(angle))) ** passes
    delay = floor(period - passes - 1)
    wanted = period - passes - delay
    part = wanted
    for _ in range(4):  # its delay at this pitch is not quite what was asked of the interpolator
        part += wanted - _phase_delay(_lagrange(part), angle)
    return np.convolve(low, _lagrange(part)) * min(0.99995, kept / at_pitch), delay


def _lagrange(part: float) -> Exact:
    import numpy as np  # noqa: PLC0415

    points = range(4)
    taps = [1.0] * 4
    for here in points:
        for other in points:
            if other != here:
                taps[here] *= (part - other) / (here - other)
    return np.array(taps)


def _phase_delay(taps: Exact, angle: float) -> float:
    import numpy as np  # noqa: PLC0415

    # Measured against the middle of the taps, so that the angle does not turn over.
    middle = (len(taps) - 1) / 2
    return float(middle - np.angle(np.sum(taps * np.exp(-1j * angle * (np.arange(len(taps)) - middle)))) / angle)


def _shape(hz: float, count: int, timbre: Timbre, seed: int) -> Exact:
    """The string before its first pass: a periodic wave of ``count`` samples."""
    import numpy as np  # noqa: PLC0415

    number = np.arange(1, max(1, min(_PARTIALS, int(0.45 * RATE / hz))) + 1)
    # Partials of a plucked string fall with their number and vanish where it was plucked at their node; a pick's width is a low-pass.
    strength = np.abs(np.sin(pi * number * timbre.pick)) / number**_TILT / (1 + (number * hz / timbre.bright) ** 2)
    number = number[: int(np.flatnonzero(strength > _FLOOR * strength[0])[-1]) + 1]
    strength = strength[: len(number)] * (0.1 / np.sqrt(np.sum(strength**2) / 2))
    partials = strength * np.exp(1j * pi * noise(seed, len(number)))
    turn = np.exp(2j * pi * hz / RATE * np.arange(count))
    wave = np.zeros(count, np.complex128)
    for partial in partials[::-1].tolist():  # a polynomial in ``turn`` (Horner): many times quicker than a cosine for each partial
        wave += partial
        wave *= turn
    return np.ascontiguousarray(wave.real)


def noise(seed: int, count: int) -> Exact:
    """Numbers from -1 to 1 that look random and are the same for a seed on every machine (the SplitMix64 generator)."""
    import numpy as np  # noqa: PLC0415

    with np.errstate(over="ignore"):
        state = (np.arange(1, count + 1, dtype=np.uint64) + np.uint64((seed << 20) % 2**64)) * np.uint64(0x9E3779B97F4A7C15)
        state = (state ^ (state >> np.uint64(30))) * np.uint64(0xBF58476D1CE4E5B9)
        state = (state ^ (state >> np.uint64(27))) * np.uint64(0x94D049BB133111EB)
        state ^= state >> np.uint64(31)
    return (state >> np.uint64(11)).astype(np.float64) * 2.0**-52 - 1.0
