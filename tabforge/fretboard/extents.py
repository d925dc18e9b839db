"""Cutting a line to its extent."""

from __future__ import annotations

from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.line import Extent, Rungs
from tabforge.fretboard.trouble import Kind, Trouble


def cut(line: Rungs, ladder: Ladder, extent: Extent, moved: int = 0) -> tuple[Rungs, Trouble | None]:
    """The part of a rising line that an extent asks for, or what keeps the line from having it.

    A first note that the line does not have in its own octave is taken in the lowest octave in which the line has it; the last note then
    moves by as many octaves. A last note alone that lies below the line is likewise taken in the lowest octave. ``moved`` says by how
    many octaves a layout has moved the first note already. Of a fragment, which leaves notes out, the first is the next one up and the last
    the next one down.
    """
    low, high = line[0][0], line[-1][0]
    octave = len(ladder.offsets)
    start = low
    if extent.first is not None:
        own = ladder.at_or_above(extent.first.midi + 12 * moved)
        start = own if low <= own <= high else own + octave * -((own - low) // octave)
        if start > high:
            return [], Trouble(kind=Kind.LAYOUT_FROM, midi=extent.first.midi, limit=ladder.midi(high), there=ladder.midi(low))
        moved += (start - own) // octave
    end = high
    if extent.last is not None:
        end = ladder.at_or_below(extent.last.midi + 12 * moved)
        if end < start and extent.first is None:
            end += octave * -((end - start) // octave)
    elif extent.octaves is not None:
        end = ladder.at_or_below(ladder.midi(start) + 12 * extent.octaves)
    if end > high or end < start:
        return [], Trouble(kind=Kind.LAYOUT_TO, midi=ladder.midi(end), limit=ladder.midi(high), there=ladder.midi(start))
    if high - low + 1 == len(line):
        return line[start - low : end - low + 1], None
    part = [each for each in line if start <= each[0] <= end]
    return part, None if part else Trouble(kind=Kind.LAYOUT_EMPTY)
