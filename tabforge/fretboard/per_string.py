"""So many notes on each string: the layout "3 per string from string 6" and its kin.

The line goes on from string to string without gap or repeat, so that the shape on each string follows from the scale alone: in a
scale of whole and half steps three notes on a string lie half-whole, whole-half or whole-whole (common practice; ``layouts`` names where
it is tested).
"""

from __future__ import annotations

from dataclasses import replace

from tabforge.fretboard.extents import cut
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.line import Extent, Layout, Rungs
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.trouble import Kind, Trouble


def per_string(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line, cut to its extent."""
    trouble = _strings(layout, neck)
    if trouble is not None:
        return [], trouble
    start, moved, trouble = _start(layout, ladder, extent, neck)
    if trouble is not None:
        return [], _with_start(trouble, layout, ladder, neck, start)
    end = _end(ladder, extent, start, moved)
    line, trouble = _walk(layout, ladder, neck, start, end)
    if trouble is not None:
        return [], _with_start(trouble, layout, ladder, neck, start)
    if layout.fret is None and layout.degree is None:
        extent = Extent(first=None, last=extent.last, octaves=extent.octaves)
    return cut(line, ladder, extent, moved)


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


def _walk(layout: Layout, ladder: Ladder, neck: Neck, start: int, end: int | None) -> tuple[Rungs, Trouble | None]:
    line: Rungs = []
    rung = start
    for string in range(layout.from_string, layout.to_string - 1, -1):
        for _ in range(layout.count):
            if end is not None and rung > end:
                return line, None
            midi = ladder.midi(rung)
            fret = neck.fret_of(midi, string)
            if fret is None:
                return [], _off(midi, string, neck)
            line.append((rung, (string, fret)))
            rung += 1
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


def _with_start(trouble: Trouble, layout: Layout, ladder: Ladder, neck: Neck, start: int) -> Trouble:
    """The trouble with the nearest fret from which the whole layout fits: on the same degree if there is one, else on any."""
    string = layout.from_string
    wanted = ladder.midi(start)
    fits = []
    for fret in range(neck.last + 1):
        if not neck.has(string, fret):
            continue
        rung = ladder.at_or_above(neck.midi_at(string, fret))
        if ladder.midi(rung) == neck.midi_at(string, fret) and _walk(layout, ladder, neck, rung, None)[1] is None:
            other = (rung - start) % len(ladder.offsets) != 0
            fits.append((other, abs(neck.midi_at(string, fret) - wanted), fret))
    if not fits:
        return trouble
    return replace(trouble, nearest_fret=min(fits)[2])
