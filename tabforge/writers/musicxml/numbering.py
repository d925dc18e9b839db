"""Bars in their places: numbers, what is missing of partial ones, rests of several bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from tabforge.model.events import NOTHING_ATTACHED
from tabforge.model.score import PLAIN_LINE, Bar, Score, Section
from tabforge.writers.musicxml.way import begins_bar, ends_bar


class Numbered(NamedTuple):
    """A bar in its place.

    ``shift``: ticks of the whole bar that are missing before it; ``first`` and ``last`` of its section; ``end`` of the score.
    ``rests``: how many bars, this one and those after it, are to be shown as one rest; 0 where none begins. ``following``: the next bar of
    its section.
    """

    section: Section
    bar: Bar
    number: str
    implicit: bool
    shift: int
    first: bool
    last: bool
    end: bool
    rests: int
    following: Bar | None


def numbered(score: Score) -> Iterator[Numbered]:
    """The bars of a score in order.

    A pickup and the second part of a bar that a repeat cuts in two are not counted (``implicit``); a pickup before the first bar is
    number 0, the others are X1, X2 and so on. What is missing of these is missing before them; of other partial bars, after them.
    """
    count = extra = whole = 0
    meter = None
    sections = [section for section in score.sections if section.bars]
    for section in sections:
        missing = 0
        bars = section.bars
        rests = _long_rests(bars)
        for index, bar in enumerate(bars):
            if bar.meter != meter:
                meter = bar.meter
                whole = int(meter.quarters * score.divisions)
            first, following = index == 0, bars[index + 1] if index + 1 < len(bars) else None
            before = bar.partial and ((first and not _cut(bar, following, whole)) or bar.ticks == missing)
            missing = whole - bar.ticks if bar.partial and not before else 0
            if not before:
                count += 1
            elif count or extra:
                extra += 1
            number = str(count) if not before else f"X{extra}" if extra else "0"
            shift = whole - bar.ticks if before else 0
            last = following is None
            end = last and section is sections[-1]
            yield Numbered(section, bar, number, before, shift, first, last, end, rests.get(index, 0), following)


def _cut(bar: Bar, following: Bar | None, whole: int) -> bool:
    """Whether a partial bar is no pickup but the first part of a bar: a repeat ends with it, and the next one completes it."""
    return following is not None and bar.right.repeat == "backward" and bar.ticks + following.ticks == whole


def _long_rests(bars: Sequence[Bar]) -> dict[int, int]:
    """Where rests of two bars or more begin, and how many bars each has."""
    found: dict[int, int] = {}
    start = -1  # no rest is open
    for index, bar in enumerate(bars):
        if not _silent(bar):
            start = -1
            continue
        if start >= 0 and not (_closes(bars[index - 1]) or _opens(bar, bars[index - 1])):
            found[start] = index - start + 1
        else:
            start = index
    return found


def _silent(bar: Bar) -> bool:
    """Whether a bar holds a rest as long as the bar and nothing else."""
    if len(bar.voices) != 1 or len(bar.voices[0]) != 1 or bar.partial:
        return False
    event = bar.voices[0][0]
    return not event.notes and not event.marks and event.attached == NOTHING_ATTACHED


def _opens(bar: Bar, before: Bar) -> bool:
    """Whether something that must be seen stands at the beginning of a bar."""
    given = bar.tempo or bar.tempo_change or bar.scale or bar.rehearsal or bar.new_line
    return bool(given) or begins_bar(bar) or bar.left != PLAIN_LINE or bar.meter != before.meter


def _closes(bar: Bar) -> bool:
    """Whether something that must be seen stands at the end of a bar."""
    return ends_bar(bar) or bar.right != PLAIN_LINE
