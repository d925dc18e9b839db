"""Where beams may join: a meter's beats, and the longer spans that plain eighths fill under one beam.

Common practice, no source: beams show the beat. Eighths alone are joined over two beats of 4/4 and 2/2 but never over the middle of the
bar, over all of 2/4 and 3/4, and over a written group of an additive meter. Compound and additive meters over 8 beam by their groups.
"""

from __future__ import annotations

from functools import cache
from itertools import accumulate

from tabforge.model.meter import Meter


@cache
def beats(meter: Meter, divisions: int) -> tuple[int, ...]:
    """The ticks, from the start of the bar, at which a new beam begins. The bar's end is the last."""
    unit = divisions * 4 // meter.unit
    if meter.unit >= 8:
        return (0, *accumulate(pulse * unit for pulse in meter.pulses))
    return tuple(range(0, meter.beats * unit + 1, divisions))


@cache
def spans(meter: Meter, divisions: int) -> tuple[int, ...]:
    """The ticks that bound what plain eighths may fill under one beam; without the bar's end."""
    unit = divisions * 4 // meter.unit
    if meter.unit >= 8:
        return beats(meter, divisions)[:-1]
    if len(meter.groups) > 1:
        return (0, *accumulate(group * unit for group in meter.groups[:-1]))
    quarters = meter.beats * 4 // meter.unit
    if meter.unit == 4 and quarters in {2, 3}:
        return (0,)
    if meter.unit == 4 and quarters != 4:
        return tuple(range(0, quarters * divisions, divisions))
    return tuple(range(0, quarters * divisions, 2 * divisions))
