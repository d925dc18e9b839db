"""The strength of every place in a bar, and how a length is written so that the beats can be seen.

The rule is the usual one of engraving (common practice, no source): a note may hide a beat only if it begins or ends on a place at most one
rank weaker than that beat, and only one such beat, unless it begins where the bar is at least as strong. Otherwise it is split there
and tied. Rests are stricter: they begin where the bar is at least as strong as anything they cover.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final, NamedTuple

from tabforge.model.meter import Meter
from tabforge.model.values import DOT_FACTOR, MAX_DOTS, VALUES, Written


class Atom(NamedTuple):
    """A written piece of a bar: ticks from the bar's start, length in ticks, how it is written."""

    onset: int
    ticks: int
    written: Written


_WEAK: Final = 99

_PLAIN: Final = {(value.letter, dots): Written(value=value, dots=dots) for value in VALUES for dots in range(MAX_DOTS + 1)}

_LONGEST_FIRST: Final = sorted(_PLAIN.values(), key=lambda written: written.quarters, reverse=True)

_FINEST: Final = 32
"""Parts of a quarter note that the least difference between two written values is: dots reach so far."""

_BETWEEN: Final = frozenset({1, 2, 3, 5, 9})
"""So many of these parts are no sum of written values, the shortest of which have 4, 6 and 7; every other number of them is."""


def writable(quarters: Fraction) -> bool:
    """Whether a length is a sum of values with up to two dots, the shortest a thirty-second."""
    parts = quarters * _FINEST
    return parts.denominator == 1 and parts >= 0 and parts.numerator not in _BETWEEN


@dataclass(frozen=True, slots=True, eq=False)
class Metric:
    """A meter at a number of ticks a quarter note. Kept and compared by identity; ``plans`` belongs to ``plan.bar_plan``."""

    meter: Meter
    divisions: int
    ticks: int
    pulses: tuple[int, ...]
    ranks: dict[int, int]
    by_length: dict[int, Written]
    memo: dict[tuple[int, int, bool], tuple[Atom, ...] | None] = field(default_factory=dict)
    plans: dict[tuple[object, int, str], tuple[tuple[Atom, ...], ...]] = field(default_factory=dict)

    def rank(self, at: int) -> int:
        """0 for the bar's ends; 1 and on for weaker and weaker places; 99 for one that no division of a beat reaches."""
        known = self.ranks.get(at)
        if known is None:
            known = self.ranks[at] = self._inside(at)
        return known

    def _inside(self, at: int) -> int:
        if at > self.ticks:
            # A bar that is too long is reported elsewhere; what sticks out is looked at as if another bar followed.
            return self.rank(at % self.ticks)
        start = max(edge for edge in self.pulses if edge <= at)
        end = min(edge for edge in self.pulses if edge > at)
        rank = max(self.rank(edge) for edge in self.pulses[1:-1]) if len(self.pulses) > 2 else 0
        unit = self.divisions * 4 // self.meter.unit
        length, place = end - start, at - start
        uneven = len(self.meter.groups) > 1 or len(set(self.meter.pulses)) > 1
        if length != unit and (uneven or length // unit == 3):
            # A beat of three, or of a group the meter names, must be seen: its units are two ranks weaker.
            length, rank = unit, rank + 2
            if place % length == 0:
                return rank
        while length % 2 == 0:
            length //= 2
            rank += 1
            if place % length == 0:
                return rank
        return _WEAK

    def split(self, start: int, ticks: int, rest: bool, own: Written | None) -> tuple[Atom, ...] | None:
        """``ticks`` from ``start`` as written pieces; None if no plain values make it up.

        ``own`` is the value the writer wrote for exactly this length: it stands wherever it does not hide a stronger beat.
        """
        if own is not None and (self._stands(start, ticks, rest) or self._own_stands(start, ticks)):
            return (Atom(start, ticks, own),)
        key = (start, ticks, rest)
        if key not in self.memo:
            self.memo[key] = self._split(start, ticks, rest)
        return self.memo[key]

    def pieces(self, start: int, ticks: int) -> tuple[Atom, ...]:
        """``ticks`` from ``start`` as values with up to two dots, the longest first, whatever beats they hide: for lengths no beat divides.

        Raises ValueError if they are not ``writable``.
        """
        atoms: list[Atom] = []
        while ticks:
            for written in _LONGEST_FIRST:
                length = int(written.quarters * self.divisions)
                if length <= ticks and writable(Fraction(ticks - length, self.divisions)):
                    break
            else:
                raise ValueError(f"{ticks} of {self.divisions} ticks are left over")
            atoms.append(Atom(start, length, written))
            start, ticks = start + length, ticks - length
        return tuple(atoms)

    def _strongest(self, start: int, ticks: int) -> tuple[int, list[int]]:
        """The best rank among the places that a length covers, and those places."""
        step = self.divisions // 8  # a thirty-second note
        best, places = _WEAK, []
        first = start + 1 if start % step else start + step
        first = -(-first // step) * step
        for at in range(first, start + ticks, step):
            rank = self.rank(at)
            if rank < best:
                best, places = rank, [at]
            elif rank == best and rank < _WEAK:
                places.append(at)
        return best, places

    def _own_stands(self, start: int, ticks: int) -> bool:
        return self.rank(start) <= self._strongest(start, ticks)[0]

    def _stands(self, start: int, ticks: int, rest: bool) -> bool:
        written = self.by_length.get(ticks)
        if written is None:
            return False
        best, places = self._strongest(start, ticks)
        first, last = self.rank(start), self.rank(start + ticks)
        if rest:
            dotted_beat = self.meter.compound and ticks % (self.divisions * 12 // self.meter.unit) == 0
            return first <= best and (written.dots == 0 or dotted_beat)
        return max(first, last) <= best + 1 and (len(places) <= 1 or min(first, last) <= best)

    def _split(self, start: int, ticks: int, rest: bool) -> tuple[Atom, ...] | None:
        if ticks == 0:
            return ()
        if self._stands(start, ticks, rest):
            return (Atom(start, ticks, self.by_length[ticks]),)
        best, places = self._strongest(start, ticks)
        if not places:
            return None
        # From a strong place the longest piece comes first; from a weak one the next beat is shown at once.
        for at in reversed(places) if self.rank(start) <= best else places:
            head = self.split(start, at - start, rest, None) if at - start < ticks else None
            if head is not None and (len(head) == 1 or at == places[0]):
                tail = self.split(at, start + ticks - at, rest, None)
                if tail is not None:
                    return head + tail
        return None


def metric_of(meter: Meter, divisions: int) -> Metric:
    """The places of a meter's bar. ``divisions`` must be a multiple of 480, so that every plain value is whole ticks."""
    unit = divisions * 4 // meter.unit
    edges = [0]
    for pulse in meter.pulses:
        edges.append(edges[-1] + pulse * unit)
    ranks = {0: 0, edges[-1]: 0}
    count = len(meter.pulses)
    halves = count == 4 and len(set(meter.pulses)) == 1 and len(meter.groups) == 1
    for index, edge in enumerate(edges[1:-1], start=1):
        ranks[edge] = 2 if halves and index != 2 else 1
    by_length = {}
    for value in VALUES:
        for dots in range(2):
            length = value.quarters * DOT_FACTOR[dots] * divisions
            if length.denominator == 1:
                by_length[int(length)] = _PLAIN[value.letter, dots]
    return Metric(meter, divisions, edges[-1], tuple(edges), ranks, by_length)


def whole_rest() -> Written:
    """How a rest of a whole bar is written in any meter."""
    return _PLAIN["w", 0]


def spoken(quarters: Fraction) -> str:
    """A length in words: "an eighth note", "a half note and a sixteenth note"."""
    rest = abs(quarters)
    words: list[str] = []
    for value in VALUES:
        while rest >= value.quarters and len(words) < 6:
            words.append(("an " if value.spoken[0] in "aeiou" else "a ") + value.spoken)
            rest -= value.quarters
    if rest or not words:
        return f"{abs(quarters)} of a quarter note" if abs(quarters) < 1 else f"{abs(quarters)} quarter notes"
    if len(words) > 2 and len(set(words)) == 1:
        return f"{len(words)} {words[0].split(' ', 1)[1]}s"
    return words[0] if len(words) == 1 else ", ".join(words[:-1]) + " and " + words[-1]
