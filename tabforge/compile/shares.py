"""A bar shared evenly: among its chords, or among the strokes of a strum that has no rhythm of its own."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

from tabforge.model.meter import Meter

SHORTEST = 8
"""Parts of a quarter note that the shortest share is: a thirty-second."""


@cache
def shares(count: int, meter: Meter, length: Fraction) -> tuple[Fraction, ...] | None:
    """How long each of ``count`` shares of a bar lasts, in quarter notes; None where the bar does not divide so.

    ``length`` is the bar's own, less than the meter's in a pickup. Shares are so many whole beats, or each beat is divided into so many
    shares; else, where all beats are alike, the bar is divided as it is, if no tuplet is needed. One share is the whole bar, however it
    is written.
    """
    unit = Fraction(4, meter.unit)
    pulses = [pulse * unit for pulse in meter.pulses]
    if count < 1:
        return None
    if count == 1:
        return (length,)
    if length == meter.quarters:
        beats = len(pulses)
        if beats % count == 0:
            each = beats // count
            return tuple(sum(pulses[start : start + each], Fraction(0)) for start in range(0, beats, each))
        if count % beats == 0:
            parts = count // beats
            found = [pulse / parts for pulse in pulses for _ in range(parts)]
            return tuple(found) if all(map(_plain, found)) else None
        if len(set(pulses)) > 1:
            return None
    share = length / count
    return (share,) * count if _plain(share) else None


def _plain(share: Fraction) -> bool:
    """Whether a share can be written without a tuplet: a whole number of thirty-seconds."""
    return (share * SHORTEST).denominator == 1
