"""A rung of a tempo ladder: a breath of silence, the count-in once, the music as often as asked for, and what rings on.

What stands before the first passage of a performance is its count-in. Each repeat begins on a sample, and what still sounds at the
end of one goes on under the next, so nothing is cut at a join.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from tabforge.performance.model import Performance
from tabforge.sound.arrays import RATE
from tabforge.sound.clock import Clock
from tabforge.sound.mix import Strings, lay, lay_clicks, lay_sounds
from tabforge.sound.options import CLICK

if TYPE_CHECKING:
    from tabforge.sound.arrays import Samples

REST: Final = 0.25
"""Seconds of silence before each rung."""

TAIL: Final = 1.5
"""Seconds after the music in which it may ring on."""

_FADE: Final = 0.4


@dataclass(frozen=True, slots=True)
class Rung:
    """The times of a rung, in samples: its count-in and the music once, which is played ``times`` times."""

    percent: float
    lead: int
    body: int
    times: int

    @property
    def music(self) -> int:
        """Where the music begins."""
        return round(REST * RATE) + self.lead

    @property
    def samples(self) -> int:
        """How long all of it is."""
        return self.music + self.body * self.times + round(TAIL * RATE)


def first_tick(performance: Performance) -> int:
    """Where the music begins after its count-in."""
    return min((passage.start for passage in performance.passages), default=0)


def rung_of(performance: Performance, percent: float, times: int) -> Rung:
    """The times of one rung."""
    clock = Clock.of(performance, percent / 100)
    begins = clock.at(first_tick(performance))
    return Rung(percent, round(begins * RATE), round((clock.at(performance.ticks) - begins) * RATE), times)


def play_rung(performance: Performance, rung: Rung, parts: tuple[str, ...], strings: Strings) -> Samples:
    """A rung of some parts, not yet levelled."""
    import numpy as np  # noqa: PLC0415

    clock = Clock.of(performance, rung.percent / 100)
    border = first_tick(performance)
    sounds = [(number, sound) for number, sound in enumerate(performance.sounds) if sound.part in parts]
    clicks = performance.clicks if CLICK in parts else ()
    whole = np.zeros(rung.samples, np.float32)
    lead = -REST
    lay_sounds(whole, (each for each in sounds if each[1].start < border), strings, clock, lead)
    lay_clicks(whole, (each for each in clicks if each.tick < border), clock, lead)
    tail = round(TAIL * RATE)
    body = whole[rung.music :] if rung.times == 1 else np.zeros(rung.body + tail, np.float32)
    origin = clock.at(border)
    lay_sounds(body, (each for each in sounds if each[1].start >= border), strings, clock, origin)
    lay_clicks(body, (each for each in clicks if each.tick >= border), clock, origin)
    fade = round(_FADE * RATE)
    body[-fade:] *= 0.5 + 0.5 * np.cos(np.arange(1, fade + 1) * np.float32(np.pi / fade))
    if rung.times > 1:
        for time in range(rung.times):
            lay(whole, body, rung.music + time * rung.body)
    return whole
