"""When a tick is, in seconds."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence

from tabforge.performance.model import Performance, TempoPoint


class Clock:
    """The time of a performance's ticks at ``speed`` times its tempo.

    From each tempo point on the tempo stands until the next. Before the first point its tempo holds; without any, 120 quarters a minute,
    which MIDI files start from too (Standard MIDI Files 1.0, Set Tempo).
    """

    def __init__(self, tempos: Sequence[TempoPoint], divisions: int, speed: float = 1.0) -> None:
        points = sorted(tempos, key=lambda point: point.tick) or [TempoPoint(0, 120.0)]
        self._ticks: list[int] = [min(0, points[0].tick)]
        self._seconds: list[float] = [0.0]
        self._lengths: list[float] = [60.0 / (points[0].quarters * divisions * speed)]
        for point in points:
            self._seconds.append(self._seconds[-1] + (point.tick - self._ticks[-1]) * self._lengths[-1])
            self._ticks.append(point.tick)
            self._lengths.append(60.0 / (point.quarters * divisions * speed))
        start = self.at(0)
        self._seconds = [each - start for each in self._seconds]

    @classmethod
    def of(cls, performance: Performance, speed: float = 1.0) -> Clock:
        """The clock of a performance."""
        return cls(performance.tempos, performance.divisions, speed)

    def at(self, tick: float) -> float:
        """Seconds from tick 0."""
        place = max(0, bisect_right(self._ticks, tick) - 1)
        return self._seconds[place] + (tick - self._ticks[place]) * self._lengths[place]
