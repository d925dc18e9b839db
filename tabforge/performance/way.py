"""The way through a study: repeats, endings, D.C., D.S., coda and fine played out.

What common practice leaves open is answered thus (no source):

- A D.C. leads to the beginning of the study; a study written in several keys begins again in each. A D.S. leads to the last segno
  before it, "To Coda" to the next coda sign after it; one that leads nowhere is passed over.
- Each D.C. or D.S. is taken once, on the last pass through its bar.
- A repeat that has been played out is not played again after a jump, and of its endings the last is taken; one not yet met is.
- "To Coda" is obeyed after a jump "al Coda" or a bare one, "Fine" after a jump "al Fine", a bare one, or when the coda has been reached.
- A repeat sign without a beginning goes back to the end of the repeat before it, or to the beginning of its section. A bracket is played on
  the passes it numbers; where the numbers leave a pass out, it goes on behind the brackets. Repeats inside repeats are played the first
  time only.
- A way that would be longer than the study by more than MAX_MORE events is not gone: the study is played straight through.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, NamedTuple

from tabforge.limits import MAX_EVENTS
from tabforge.model.score import Bar, Section
from tabforge.source import NOWHERE

MAX_MORE: Final = MAX_EVENTS
"""Events that repeats and jumps may add in all."""

_JUMPS: Final = ("dc", "ds", "dcfine", "dsfine", "dccoda", "dscoda")


class Place(NamedTuple):
    """A bar of the score: the numbers of its section and of itself within it."""

    section: int
    bar: int


@dataclass(frozen=True, slots=True)
class Way:
    """Bars in the order in which they are played. ``straight``: the way written was too long and is not gone.

    ``jumps`` are the steps that a D.C., D.S. or "To Coda" leads to.
    """

    places: tuple[Place, ...]
    jumps: frozenset[int] = frozenset()
    straight: bool = False


@dataclass(slots=True)
class _Group:
    """Endings side by side: where they end, and how many passes they are for."""

    end: int
    passes: int


@dataclass(slots=True)
class _Bracket:
    """An ending: its last bar and its numbers."""

    end: int
    numbers: tuple[int, ...]
    group: _Group


def way_through(sections: Sequence[Section], chosen: Sequence[int]) -> Way:
    """The way through the chosen sections, given by their numbers in order."""
    places: list[Place] = []
    jumps: set[int] = set()
    room = MAX_MORE
    straight = False
    for run in _runs(sections, chosen):
        walk = _Walk(sections, run)
        taken = walk.go(room)
        room -= walk.more
        straight |= taken is None
        jumps.update(len(places) + step for step in walk.landings)
        places += walk.places if taken is None else taken
    return Way(tuple(places), frozenset(jumps), straight)


def _runs(sections: Sequence[Section], chosen: Sequence[int]) -> list[list[int]]:
    """Sections that make one study: where a block comes again, the study begins anew in another key."""
    runs: list[list[int]] = [[]]
    seen: set[tuple[int, int]] = set()
    for number in chosen:
        span = sections[number].span
        if span != NOWHERE and span in seen:
            runs.append([])
            seen.clear()
        seen.add(span)
        runs[-1].append(number)
    return runs


class _Walk:
    """One walk through the bars of a run."""

    def __init__(self, sections: Sequence[Section], run: Sequence[int]) -> None:
        self.places = [Place(number, index) for number in run for index in range(len(sections[number].bars))]
        self.bars: list[Bar] = [sections[place.section].bars[place.bar] for place in self.places]
        self.brackets = _brackets(self.bars, self.places)
        self._groups = {at: each.group for start, each in self.brackets.items() for at in range(start, each.end + 1)}
        self.landings: set[int] = set()
        self.more = 0
        self._segno = self._begin = 0
        self._pass = 1
        self._played_out: set[int] = set()
        self._taken: set[int] = set()
        self._coda_open = self._fine_open = False

    def go(self, room: int) -> list[Place] | None:
        """The way, or None if it adds more than ``room`` events."""
        events = [sum(map(len, bar.voices)) + 1 for bar in self.bars]
        spent = -sum(events)
        order: list[Place] = []
        at = 0
        arrived = False  # by a repeat
        while at < len(self.bars):
            bar, place = self.bars[at], self.places[at]
            if not arrived and (place.bar == 0 or bar.left.repeat == "forward"):
                self._begin, self._pass = at, 1
            arrived = False
            bracket = self.brackets.get(at)
            if bracket is not None and self._left_out(bracket):
                at = bracket.end + 1
                if bracket.end == bracket.group.end:
                    self._begin, self._pass = at, 1
                continue
            order.append(place)
            spent += events[at]
            if spent > room:
                self.landings.clear()
                return None
            following, arrived, jumped = self._after(at, bar)
            at = following
            if jumped:
                self.landings.add(len(order))
        self.more = max(0, spent)
        return order

    def _left_out(self, bracket: _Bracket) -> bool:
        if bracket.group.end in self._played_out:
            return bracket.group.passes not in bracket.numbers
        return self._pass not in bracket.numbers

    def _after(self, at: int, bar: Bar) -> tuple[int, bool, bool]:
        """The bar after this one; whether a repeat leads there, whether a jump does."""
        group = self._groups.get(at)
        if bar.right.repeat == "backward" and at not in self._played_out:
            passes = max(bar.right.times, group.passes) if group else bar.right.times
            if self._pass < passes:
                self._pass += 1
                return self._begin, True, False
            self._played_out.add(at)
        if group is not None and at == group.end:
            self._played_out.add(at)
        if at == group.end if group is not None else bar.right.repeat == "backward":
            self._begin, self._pass = at + 1, 1
        return self._signs(at, bar)

    def _signs(self, at: int, bar: Bar) -> tuple[int, bool, bool]:
        if "fine" in bar.signs and self._fine_open:
            return len(self.bars), False, False
        if "tocoda" in bar.signs and self._coda_open:
            coda = self._next_coda(at)
            if coda is not None:
                self._coda_open, self._fine_open = False, True
                return coda, False, True
        jump = next((sign for sign in bar.signs if sign in _JUMPS), None)
        if jump is not None and at not in self._taken:
            target = 0 if jump.startswith("dc") else self._last_segno(at)
            if target is not None:
                self._taken.add(at)
                self._fine_open = not jump.endswith("coda")
                self._coda_open = not jump.endswith("fine")
                return target, False, True
        return at + 1, False, False

    def _last_segno(self, at: int) -> int | None:
        return next((index for index in range(at, -1, -1) if "segno" in self.bars[index].signs), None)

    def _next_coda(self, at: int) -> int | None:
        return next((index for index in range(at + 1, len(self.bars)) if "coda" in self.bars[index].signs), None)


def _brackets(bars: Sequence[Bar], places: Sequence[Place]) -> dict[int, _Bracket]:
    """Endings by their first bar. One that no line ends goes on to the next one, or to the end of its section."""
    found: dict[int, _Bracket] = {}
    group: _Group | None = None
    for start, bar in enumerate(bars):
        if not bar.left.endings:
            continue
        end = start
        while not bars[end].right.endings and end + 1 < len(bars) and not bars[end + 1].left.endings and places[end + 1].bar:
            end += 1
        if group is None or group.end != start - 1 or not places[start].bar or bar.left.repeat == "forward":
            group = _Group(end, 1)
        group.end = end
        times = bars[end].right.times if bars[end].right.repeat == "backward" else 1
        group.passes = max(group.passes, times, *bar.left.endings)
        found[start] = _Bracket(end, bar.left.endings, group)
    return found
