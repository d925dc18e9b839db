"""Bars on the line of time: the way through the study with counts-in, meters, clicks, and the passages of each section."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from tabforge.model.score import Bar, Scale, Section
from tabforge.performance.model import Click, MeterPoint, Passage
from tabforge.performance.way import Place, Way


class Played(NamedTuple):
    """A bar as it is played once, from tick ``start``. ``shift``: ticks of the whole bar that are missing before it; ``scale`` is in force.

    ``fresh``: another section begins, or the player has jumped. ``count_in``: ticks of clicks before it.
    """

    place: Place
    section: Section
    bar: Bar
    scale: Scale | None
    start: int
    shift: int
    fresh: bool
    count_in: int


def whole_ticks(bar: Bar, divisions: int) -> int:
    """A whole bar of its meter in ticks."""
    return int(bar.meter.quarters * divisions)


def played(sections: Sequence[Section], way: Way, divisions: int, count_in: int | None) -> list[Played]:
    """The bars of a way on the line of time. ``count_in``: bars of clicks before each section, or None for what it says itself.

    A section that begins with a pickup is counted in by whole bars of which the pickup is the end. Where a jump leads, nobody counts.
    """
    scales, shifts = _scales(sections), _shifts(sections, divisions)
    found: list[Played] = []
    at = 0
    number = -1
    for step, place in enumerate(way.places):
        section = sections[place.section]
        bar = section.bars[place.bar]
        jumped = step in way.jumps
        enters = place.section != number
        whole, shift = whole_ticks(bar, divisions), shifts[place]
        bars = (section.count_in or 0) if count_in is None else count_in
        counted = max(0, bars * whole - (bar.ticks if shift else 0)) if enters and not jumped and place.bar == 0 else 0
        at += counted
        found.append(Played(place, section, bar, scales[place], at, shift, enters or jumped, counted))
        at += bar.ticks
        number = place.section
    return found


def _scales(sections: Sequence[Section]) -> dict[Place, Scale | None]:
    """The scale of every bar as it is written, so that a bar played again has the key it had."""
    found: dict[Place, Scale | None] = {}
    for number, section in enumerate(sections):
        scale = section.scale
        for index, bar in enumerate(section.bars):
            scale = bar.scale or scale
            found[Place(number, index)] = scale
    return found


def _shifts(sections: Sequence[Section], divisions: int) -> dict[Place, int]:
    """What is missing before each bar: a pickup and the second part of a bar that a repeat cuts in two end whole bars."""
    found: dict[Place, int] = {}
    for number, section in enumerate(sections):
        missing = 0
        for index, bar in enumerate(section.bars):
            whole = whole_ticks(bar, divisions) if bar.partial else bar.ticks
            ends = bar.partial and (bar.ticks == missing or (index == 0 and not _cut(section, whole)))
            found[Place(number, index)] = whole - bar.ticks if ends else 0
            missing = 0 if ends else whole - bar.ticks
    return found


def _cut(section: Section, whole: int) -> bool:
    """Whether the first bar is no pickup but the first part of a bar that a repeat cuts in two."""
    first = section.bars[0]
    return len(section.bars) > 1 and first.right.repeat == "backward" and first.ticks + section.bars[1].ticks == whole


def passages(row: Sequence[Played]) -> Iterator[Passage]:
    """Where each section is played."""
    start = 0
    for place, each in enumerate(row):
        if place == 0 or each.place.section != row[place - 1].place.section or each.count_in:
            start = each.start
        last = place + 1 == len(row)
        if last or row[place + 1].place.section != each.place.section or row[place + 1].count_in:
            yield Passage(each.place.section, start, each.start + each.bar.ticks)


def clicks(row: Sequence[Played], divisions: int, click: bool | None) -> Iterator[Click]:
    """Counts-in, and clicks through the sections that have them (or all, or none, if ``click`` says so)."""
    for each in row:
        whole = whole_ticks(each.bar, divisions)
        beats = _beats(each.bar, divisions)
        if each.count_in:
            begins = each.start - each.count_in
            for tick in range(begins, each.start, whole):
                yield from (Click(tick + beat, beat == 0, True) for beat in beats if tick + beat < each.start)
        if each.section.click if click is None else click:
            for beat in beats:
                place = beat - each.shift
                if 0 <= place < each.bar.ticks:
                    yield Click(each.start + place, beat == 0, False)


def _beats(bar: Bar, divisions: int) -> list[int]:
    """Ticks from the beginning of a whole bar to each of its beats."""
    unit = 4 * divisions // bar.meter.unit
    found, at = [], 0
    for pulse in bar.meter.pulses:
        found.append(at)
        at += pulse * unit
    return found


def meters(row: Sequence[Played], divisions: int) -> Iterator[MeterPoint]:
    """Time and key signatures. A bar that is not whole has a signature of its own length where one can be written."""
    last: tuple[int, int, int, bool] | None = None
    for each in row:
        meter, scale = each.bar.meter, each.scale
        fifths = scale.fifths if scale is not None else 0
        minor = scale is not None and "b3" in scale.labels and "3" not in scale.labels
        beats, unit = meter.beats, meter.unit
        if each.bar.partial and not each.count_in:
            beats, unit = _shortened(each.bar, divisions)
        start = each.start - each.count_in
        now = (beats, unit, fifths, minor)
        if now != last:
            yield MeterPoint(start, beats, unit, fifths, minor)
            last = now


def _shortened(bar: Bar, divisions: int) -> tuple[int, int]:
    unit = bar.meter.unit
    while unit <= 64:
        beats = bar.ticks * unit / (4 * divisions)
        if beats == int(beats) and 0 < beats < 256:
            return int(beats), unit
        unit *= 2
    return bar.meter.beats, bar.meter.unit
