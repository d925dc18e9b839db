"""Dynamics and hairpins as a level over time."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from typing import NamedTuple

from tabforge.model.events import Attached
from tabforge.performance.practice import DYNAMIC, HAIRPIN_STEP, USUAL_LEVEL


class Said(NamedTuple):
    """What hangs on an event, from where to where it is played."""

    start: int
    end: int
    attached: Attached


class _Stretch(NamedTuple):
    """From ``start`` the level is ``level``; until ``end`` it changes to ``last`` in a straight line."""

    start: int
    level: float
    end: int
    last: float


class Loudness:
    """The level, as a MIDI velocity, at each moment of a voice. ``begins`` are the moments at which it starts from the usual one."""

    def __init__(self, said: Sequence[Said], begins: Sequence[int] = ()) -> None:
        self._attacks: dict[int, int] = {}
        self._stretches = [_Stretch(-1, USUAL_LEVEL, -1, USUAL_LEVEL)]
        self._open: tuple[int, str] | None = None
        fresh = sorted(begins, reverse=True)
        for index, each in enumerate(said):
            while fresh and fresh[-1] <= each.start:
                self._set(fresh.pop(), USUAL_LEVEL)
            following = said[index + 1] if index + 1 < len(said) else None
            self._take(each, following)
        while fresh:
            self._set(fresh.pop(), USUAL_LEVEL)
        self._starts = [stretch.start for stretch in self._stretches]

    def _take(self, said: Said, following: Said | None) -> None:
        attached = said.attached
        dynamic = DYNAMIC[attached.dynamic] if attached.dynamic is not None else None
        if any(not (hairpin.begins or hairpin.through) for hairpin in attached.hairpins):
            self._close(said.start, dynamic.attack if dynamic is not None else None)
        if dynamic is not None:
            self._attacks[said.start] = dynamic.attack
            if dynamic.after is not None:
                self._set(said.start, dynamic.after)
        for hairpin in attached.hairpins:
            if hairpin.begins:
                self._open = (said.start, hairpin.kind)
            elif hairpin.through:
                at_once = following is not None and following.start <= said.end and following.attached.dynamic is not None
                goal = DYNAMIC[following.attached.dynamic].attack if at_once and following and following.attached.dynamic else None
                self._close(said.end, goal)

    def _set(self, tick: int, level: float) -> None:
        self._open = None
        self._stretches.append(_Stretch(tick, level, tick, level))

    def _close(self, tick: int, goal: int | None) -> None:
        """End the hairpin that is open at a level, or a step from where it began if none is said or it lies the wrong way."""
        if self._open is None:
            return
        start, kind = self._open
        self._open = None
        level = self._stretches[-1].last
        up = kind == "crescendo"
        if goal is None or (goal > level) is not up:
            goal = min(126, int(level) + HAIRPIN_STEP) if up else max(10, int(level) - HAIRPIN_STEP)
        if tick > start:
            self._stretches.append(_Stretch(start, level, tick, goal))

    def at(self, tick: int) -> float:
        """The velocity of what is struck at a tick."""
        if tick in self._attacks:
            return self._attacks[tick]
        if len(self._starts) == 1:
            return USUAL_LEVEL
        stretch = self._stretches[bisect_right(self._starts, tick) - 1]
        if tick >= stretch.end:
            return stretch.last
        return stretch.level + (stretch.last - stretch.level) * (tick - stretch.start) / (stretch.end - stretch.start)
