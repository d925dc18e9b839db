"""The tempo of every bar, gradual changes, and fermatas, which hold the tempo back while they last."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final, NamedTuple

from tabforge.model.score import Bar, Section
from tabforge.performance.model import TempoPoint
from tabforge.performance.practice import FERMATA, GRADUAL_BARS, PLAIN_TEMPO, SLOWED
from tabforge.performance.way import Place

_STEPS: Final = 2
"""Points a quarter note in a gradual change."""


class Pace(NamedTuple):
    """Quarter notes a minute at the beginning of a bar and at its end; in between they change in a straight line."""

    first: float
    last: float


def paces(sections: Sequence[Section]) -> dict[Place, Pace]:
    """The tempo of every bar as it is written, so that a bar played again has the tempo it had.

    A rit. leads to the next tempo if that is slower, or to SLOWED of its own; it takes until the next mark, at most GRADUAL_BARS.
    """
    found: dict[Place, Pace] = {}
    known = now = PLAIN_TEMPO
    for number, section in enumerate(sections):
        bars = section.bars
        index = 0
        while index < len(bars):
            bar = bars[index]
            end = index + 1
            if bar.tempo is not None:
                known = now = bar.tempo.quarters_per_minute
            if bar.tempo_change == "atempo":
                now = known
            elif bar.tempo_change is not None:
                while end < len(bars) and bars[end].tempo is None and bars[end].tempo_change is None:
                    end += 1
                goal = _goal(bar.tempo_change, now, bars[end] if end < len(bars) else None)
                changing = bars[index : min(end, index + GRADUAL_BARS)]
                ticks = sum(each.ticks for each in changing)
                done, start = 0, now
                for offset, each in enumerate(changing):
                    done += each.ticks
                    reached = start + (goal - start) * done / ticks
                    found[Place(number, index + offset)] = Pace(now, reached)
                    now = reached
                index += len(changing)
            for place in range(index, end):
                found[Place(number, place)] = Pace(now, now)
            index = end
    return found


def _goal(change: str, now: float, following: Bar | None) -> float:
    """The tempo a gradual change leads to."""
    said = following.tempo.quarters_per_minute if following is not None and following.tempo is not None else now
    if change == "accel":
        return said if said > now else now / SLOWED
    return said if said < now else now * SLOWED


class Beats:
    """Gathers the points of the tempo as the bars are played."""

    def __init__(self, divisions: int, factor: float) -> None:
        self._step = divisions // _STEPS
        self._factor = factor
        self.points: list[TempoPoint] = []

    def play(self, start: int, ticks: int, pace: Pace, fermatas: Sequence[tuple[int, int]] = ()) -> None:
        """A bar that begins at ``start``; ``fermatas`` are from where to where they hold, in ticks from its beginning."""
        turns = {0}
        if pace.first != pace.last:
            turns.update(range(0, ticks, self._step))
        for begins, ends in fermatas:
            turns.update((begins, ends))
        row = sorted(turn for turn in turns if turn < ticks)
        for turn, after in zip(row, [*row[1:], ticks], strict=True):
            middle = (turn + after) / 2 / ticks  # a step that lasts as long as what it stands for
            quarters = pace.first + (pace.last - pace.first) * middle
            held = any(begins <= turn < ends for begins, ends in fermatas)
            self._say(start + turn, quarters * self._factor / (FERMATA if held else 1.0))

    def _say(self, tick: int, quarters: float) -> None:
        if not self.points or self.points[-1].quarters != quarters:
            self.points.append(TempoPoint(tick, quarters))
