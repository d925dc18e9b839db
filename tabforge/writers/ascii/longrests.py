"""Bars of rest that follow one another: they are written as one bar with their number."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from tabforge.model.events import NOTHING_ATTACHED
from tabforge.model.score import PLAIN_LINE, Bar

AT_START = frozenset({"segno", "coda"})
"""The signs that stand at the beginning of their bar (see ``score.SIGNS``)."""


def grouped(bars: tuple[Bar, ...]) -> Iterator[tuple[int, tuple[Bar, ...]]]:
    """The bars in order, each with its number from 0: alone, or together with the rests it begins."""
    begin = 0
    for number, (bar, after) in enumerate(pairwise(bars), start=1):
        if not (_silent(bar) and _silent(after) and _ends_plainly(bar) and _begins_plainly(after, bar)):
            yield begin, bars[begin:number]
            begin = number
    yield begin, bars[begin:]


def words(count: int) -> str:
    """What stands on the strings of so many bars of rest."""
    return f" {count} bars rest "


def _silent(bar: Bar) -> bool:
    """Whether nothing is in a bar but rests; how they are written makes no difference to the ear."""
    for events in bar.voices:
        for event in events:
            if event.notes or event.marks or event.attached is not NOTHING_ATTACHED:
                return False
    return not bar.partial


def _ends_plainly(bar: Bar) -> bool:
    return bar.right == PLAIN_LINE and AT_START.issuperset(bar.signs)


def _begins_plainly(bar: Bar, before: Bar) -> bool:
    plain = bar.left == PLAIN_LINE and bar.meter == before.meter and AT_START.isdisjoint(bar.signs)
    return plain and not (bar.tempo or bar.tempo_change or bar.scale or bar.rehearsal or bar.new_line)
