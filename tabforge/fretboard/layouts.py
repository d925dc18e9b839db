"""Layouts: a ladder of scale tones laid on the neck as an ascending line.

The line is then walked by whoever asked for it: up, down, in a sequence. Each kind of layout says which tones it has and where they lie:

- **per string** (``per_string``): ``count`` notes on each string from ``from_string`` to ``to_string``, one after the other by number.
  It starts on ``from`` or, without it, on degree 1 (on the first chosen tone above it, if degree 1 is not chosen): in its own octave if
  the first string has it, else in the lowest octave in which it does. With ``fret`` it starts on the first tone at or above that fret of
  the first string, with ``degree`` on that degree's lowest place there; ``from`` then cuts the beginning of the line.
- **diagonal** (``per_string``): an octave to every two strings, so that the hand climbs as it crosses them. It starts likewise.
- **fragment** (``per_string``): ``count`` notes on each of two strings, repeated through the octaves on the next two. It starts likewise.
- **shape** (``shapes``): the position that goes with the roots of the open chord C, A, G, E or D.
- **position** (``windows``): every tone under a hand at ``fret`` and its stretches, from the lowest string up.
- **string**: every tone along ``from_string``, from the open string to the last fret.
- **open** (``windows``): every tone in the first frets, with open strings.
- **free**: the tones alone; ``placement`` finds the places once the line has been walked. From degree 1 (or ``from``) for one octave,
  unless ``to`` or ``octaves`` says otherwise.

``from``, ``to`` and ``octaves`` cut the line of every kind (see ``extents``). A layout that cannot reach what they ask for is trouble;
nothing is left out silently.

What is known about the results is tested: the shapes of three notes a string follow the steps of the mode (half-whole, whole-half and
whole-whole, repeating after seven strings), and the five positions of the major scale have their usual frets. Both are common
practice, from memory, no source.
"""

from __future__ import annotations

from dataclasses import replace

from tabforge.fretboard.extents import cut
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.line import Extent, Layout, Placed, Rungs
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.obstacles import obstacle
from tabforge.fretboard.per_string import diagonal, fragment, per_string
from tabforge.fretboard.readings import Wanted
from tabforge.fretboard.shapes import shape
from tabforge.fretboard.trouble import Kind, Trouble
from tabforge.fretboard.windows import open_position, position
from tabforge.model.pitch import Pitch

__all__ = ["KINDS", "Extent", "Layout", "Placed", "lay_out"]


def lay_out(
    layout: Layout, ladder: Ladder, extent: Extent, neck: Neck
) -> tuple[list[Placed], Trouble | None]:
    """The line in ascending order, or an empty list and what keeps it from being laid out.

    A layout's strings must exist on the neck. Raises KeyError for a kind that is not in KINDS.
    """
    line, trouble = KINDS[layout.kind](layout, ladder, extent, neck)
    if trouble is not None:
        return [], replace(trouble, pitches=_spelled(trouble, ladder))
    placed = []
    for rung, place in line:
        string, fret = place or (None, None)
        placed.append(Placed(pitch=ladder.pitch(rung), string=string, fret=fret))
    return placed, None


def _spelled(trouble: Trouble, ladder: Ladder) -> tuple[Pitch, ...]:
    """The ladder's spelling of the pitches that a trouble names."""
    named = (trouble.midi, trouble.there, trouble.limit, *trouble.missing)
    rungs = [ladder.at_or_above(midi) for midi in named if midi is not None]
    return tuple(dict.fromkeys(ladder.pitch(rung) for rung in rungs if ladder.midi(rung) in named))


def _along(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    string = layout.from_string
    low = ladder.at_or_above(neck.midi_at(string, 0))
    high = ladder.at_or_below(neck.midi_at(string, neck.last))
    if low > high:
        return [], Trouble(kind=Kind.LAYOUT_EMPTY, string=string)
    frets = [(rung, neck.fret_of(ladder.midi(rung), string)) for rung in range(low, high + 1)]
    line, trouble = cut([(rung, None if fret is None else (string, fret)) for rung, fret in frets], ladder, extent)
    missing = tuple(ladder.midi(rung) for rung, place in line if place is None)
    if missing:
        return [], Trouble(kind=Kind.LAYOUT_UNFRETTED, string=string, missing=missing)
    return line, trouble


def _free(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    start = ladder.at_or_above(extent.first.midi) if extent.first else 0
    end = ladder.at_or_below(extent.last.midi if extent.last else ladder.midi(start) + 12 * (extent.octaves or 1))
    if end < start:
        return [], Trouble(kind=Kind.LAYOUT_TO, midi=ladder.midi(end), limit=neck.highest, there=ladder.midi(start))
    for rung in range(start, end + 1):
        if not neck.places(ladder.midi(rung)):
            return [], obstacle(0, (Wanted(ladder.midi(rung)),), neck)
    return [(rung, None) for rung in range(start, end + 1)], None


def _open(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    return open_position(ladder, extent, neck)


KINDS = {
    "per string": per_string,
    "diagonal": diagonal,
    "fragment": fragment,
    "position": position,
    "shape": shape,
    "string": _along,
    "open": _open,
    "free": _free,
}
"""The name of each kind of layout and the function that lays it out."""
