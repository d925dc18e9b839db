"""So many notes on each string: the layout "3 per string from string 6" and its kin, which climb from string to string.

**per string**: the line goes on from string to string without gap or repeat, so that the shape on each string follows from the scale
alone: in a scale of whole and half steps three notes on a string lie half-whole, whole-half or whole-whole (common practice; ``layouts``
names where it is tested).

**diagonal**: two strings share an octave, so that one shape comes again through the octaves, two strings and (on a guitar) two or three
frets higher, and the hand climbs up the neck as it crosses the strings. Five tones lie two and three on the strings in turn, seven
three and four, three one and two, an even number half and half (common practice, no source). Of the two ways to share an odd number that
one is taken whose widest stretch is the lesser; of two alike the one with more notes on the lower string.

**fragment**: so many notes on each of two strings, repeated an octave higher on the next two. What does not fit of the octave is left
out: three on a string have six of seven tones.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from tabforge.fretboard.extents import cut
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.line import Extent, Layout, Rungs
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.trouble import Kind, Trouble

Shares = Sequence[tuple[int, int]]
"""For each string, in order: how many rungs its first note lies above the line's first, and how many notes it has."""


def per_string(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line, cut to its extent."""
    count = layout.count
    return _climb(layout, [[(number * count, count) for number in _numbers(layout)]], ladder, extent, neck)


def diagonal(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line of octaves that two strings share each, cut to its extent."""
    tones = len(ladder.offsets)
    lower = dict.fromkeys(((tones + 1) // 2, max(1, tones // 2)))
    return _climb(layout, [_pairs(layout, count, tones - count, tones) for count in lower], ladder, extent, neck)


def fragment(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line of a fragment of two strings and its octaves, cut to its extent."""
    tones = len(ladder.offsets)
    lower = min(layout.count, tones)
    return _climb(layout, [_pairs(layout, lower, min(layout.count, tones - lower), tones)], ladder, extent, neck)


def _numbers(layout: Layout) -> range:
    return range(layout.from_string - layout.to_string + 1)


def _pairs(layout: Layout, lower: int, upper: int, octave: int) -> Shares:
    return [(number // 2 * octave + (lower if number % 2 else 0), upper if number % 2 else lower) for number in _numbers(layout)]


def _climb(layout: Layout, ways: Sequence[Shares], ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line of the best way, cut to its extent."""
    trouble = _strings(layout, neck)
    if trouble is not None:
        return [], trouble
    start, moved, trouble = _start(layout, ladder, extent, neck)
    if trouble is not None:
        return [], _with_start(trouble, layout, ways, ladder, neck, start)
    end = _end(ladder, extent, start, moved)
    walked = [_walk(layout, shares, ladder, neck, start, end) for shares in ways]
    line, trouble = min(walked, key=lambda each: (each[1] is not None, _widest(each[0], neck)))
    if trouble is not None:
        return [], _with_start(trouble, layout, ways, ladder, neck, start)
    if layout.fret is None and layout.degree is None:
        extent = Extent(first=None, last=extent.last, octaves=extent.octaves)
    if end is not None and line[-1][0] < end and len(line) < sum(count for _, count in ways[0]):
        extent = Extent(first=extent.first)  # a fragment without the last note itself: it goes as far as was asked for
    return cut(line, ladder, extent, moved)


def _widest(line: Rungs, neck: Neck) -> float:
    """The widest stretch on a string, in mm rounded to tenths."""
    frets: dict[int, list[int]] = {}
    for _, place in line:
        if place and place[1]:
            frets.setdefault(place[0], []).append(place[1])
    return max((round(neck.distance_mm(each[0], each[-1]), 1) for each in frets.values()), default=0.0)


def _strings(layout: Layout, neck: Neck) -> Trouble | None:
    if layout.from_string < layout.to_string:
        return Trouble(kind=Kind.LAYOUT_STRINGS, string=layout.from_string, limit=layout.to_string)
    for string in range(layout.from_string, layout.to_string, -1):
        if neck.midi_at(string - 1, 0) <= neck.midi_at(string, 0):
            return Trouble(
                kind=Kind.LAYOUT_REENTRANT, string=string - 1, midi=neck.midi_at(string, 0), there=neck.midi_at(string - 1, 0)
            )
    return None


def _start(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[int, int, Trouble | None]:
    """The rung the line starts on, and by how many octaves it was moved to be on its string."""
    string = layout.from_string
    nut = neck.midi_at(string, 0)
    if layout.fret is not None:
        rung, moved = ladder.at_or_above(neck.midi_at(string, layout.fret)), 0
    elif layout.degree is not None:
        rung, moved = ladder.at_or_above(nut + (layout.degree.midi - nut) % 12), 0
    else:
        rung, moved = ladder.at_or_above((extent.first or ladder.root).midi), 0
        if neck.fret_of(ladder.midi(rung), string) is None:
            moved = -((ladder.midi(rung) - nut) // 12)
            rung += moved * len(ladder.offsets)
    midi = ladder.midi(rung)
    if neck.fret_of(midi, string) is None:
        if nut < midi < neck.midi_at(string, neck.last):
            return rung, moved, Trouble(kind=Kind.LAYOUT_UNFRETTED, string=string, missing=(midi,))
        return rung, moved, Trouble(kind=Kind.LAYOUT_START, midi=midi, string=string, fret=layout.fret, limit=neck.last)
    return rung, moved, None


def _end(ladder: Ladder, extent: Extent, start: int, moved: int) -> int | None:
    """The rung after which nothing need be laid out, or None."""
    if extent.last is not None:
        end = ladder.at_or_below(extent.last.midi + 12 * moved)
        return end if end >= start else None
    if extent.octaves is not None and extent.first is None:
        return ladder.at_or_below(ladder.midi(start) + 12 * extent.octaves)
    return None


def _walk(
    layout: Layout, shares: Shares, ladder: Ladder, neck: Neck, start: int, end: int | None
) -> tuple[Rungs, Trouble | None]:
    line: Rungs = []
    for string, (first, count) in zip(range(layout.from_string, layout.to_string - 1, -1), shares, strict=True):
        for rung in range(start + first, start + first + count):
            if end is not None and rung > end:
                return line, None
            midi = ladder.midi(rung)
            fret = neck.fret_of(midi, string)
            if fret is None:
                return [], _off(midi, string, neck)
            line.append((rung, (string, fret)))
    return line, None


def _off(midi: int, string: int, neck: Neck) -> Trouble:
    """Why a string does not have a pitch of the line."""
    lowest, highest = neck.midi_at(string, 0), neck.midi_at(string, neck.last)
    if midi < lowest:
        return Trouble(kind=Kind.LAYOUT_LOW, midi=midi, string=string, limit=lowest)
    if midi > highest:
        fret = neck.last + midi - highest
        return Trouble(kind=Kind.LAYOUT_HIGH, midi=midi, string=string, fret=fret, limit=neck.last)
    return Trouble(kind=Kind.LAYOUT_UNFRETTED, string=string, missing=(midi,))


def _with_start(trouble: Trouble, layout: Layout, ways: Sequence[Shares], ladder: Ladder, neck: Neck, start: int) -> Trouble:
    """The trouble with the nearest fret from which the whole layout fits: on the same degree if there is one, else on any."""
    string = layout.from_string
    wanted = ladder.midi(start)
    fits = []
    for fret in range(neck.last + 1):
        if not neck.has(string, fret):
            continue
        rung = ladder.at_or_above(neck.midi_at(string, fret))
        fit = any(_walk(layout, shares, ladder, neck, rung, None)[1] is None for shares in ways)
        if fit and ladder.midi(rung) == neck.midi_at(string, fret):
            other = (rung - start) % len(ladder.offsets) != 0
            fits.append((other, abs(neck.midi_at(string, fret) - wanted), fret))
    if not fits:
        return trouble
    return replace(trouble, nearest_fret=min(fits)[2])
