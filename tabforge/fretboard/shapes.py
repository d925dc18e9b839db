"""The five positions named after the open chords whose roots they hold: C, A, G, E and D.

Each of these chords, moved up the neck, has its roots on the same strings, as many frets apart; between them the five cover the neck
(common practice, no source; the roots are read from the open chords themselves, which any chord chart has). A tuning has a shape if its
strings have the roots there, octave for octave. The position holds the tones of any scale: the hand lies where its four frets hold
the roots and the fewest tones need a stretch. A stretch is the first finger's or the fourth's, whichever leaves the narrower groups on the
strings (3 5 6 then 3 5, not 3 5 then 1 3 5). The line goes from the lowest tone under the four frets to the highest.
"""

from __future__ import annotations

from typing import Final

from tabforge.fretboard.extents import cut
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.line import Extent, Layout, Rungs
from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.reach import HAND_FRETS
from tabforge.fretboard.trouble import Kind, Trouble
from tabforge.fretboard.windows import window

SHAPES: Final[dict[str, tuple[tuple[int, int, int], ...]]] = {
    "C": ((5, 3, 0), (2, 1, 12)),
    "A": ((5, 0, 0), (3, 2, 12)),
    "G": ((6, 3, 0), (3, 0, 12), (1, 3, 24)),
    "E": ((6, 0, 0), (4, 2, 12), (1, 0, 24)),
    "D": ((4, 0, 0), (2, 3, 12)),
}
"""Where the roots of each open chord lie: string, fret, and half steps above the lowest of them."""


def shapes_of(neck: Neck) -> tuple[str, ...]:
    """The names of the shapes that a tuning has."""
    return tuple(name for name in SHAPES if any(_roots(name, base, neck) for base in range(neck.last + 1)))


def shape(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[Rungs, Trouble | None]:
    """The line of a shape, in the lowest place at or above ``layout.fret`` in which the neck has it."""
    found = {hand: line for base in range(neck.last + 1) if (best := _best(layout.shape, base, ladder, neck)) for hand, line in [best]}
    hands = [hand for hand in found if hand >= (layout.fret or 0)]
    if not hands:
        return [], _none(layout, ladder, neck, max(found, default=None))
    return cut(found[min(hands)], ladder, extent)


def _none(layout: Layout, ladder: Ladder, neck: Neck, highest: int | None) -> Trouble:
    """Why a neck does not have a shape."""
    shapes = shapes_of(neck)
    if layout.shape not in shapes:
        nearest = next((hand for hand in range(neck.last + 1) if any(neck.midi_at(string, hand) % 12 == ladder.root.midi % 12
                        for string in range(1, len(neck.tuning) + 1))), None)  # fmt: skip
        return Trouble(kind=Kind.LAYOUT_SHAPE, named=(layout.shape, *shapes), nearest_fret=nearest)
    return Trouble(kind=Kind.LAYOUT_SHAPE_PLACE, named=(layout.shape,), fret=layout.fret, limit=neck.last, nearest_fret=highest)


def _roots(name: str, base: int, neck: Neck) -> tuple[Place, ...]:
    """The places of a shape's roots, moved ``base`` frets up from the open chord; empty if the strings do not have them."""
    pattern = SHAPES[name]
    lift = min(fret for _, fret, _ in pattern)
    places = tuple((string, fret - lift + base) for string, fret, _ in pattern)
    if any(string > len(neck.tuning) or fret > neck.last or not neck.has(string, fret) for string, fret in places):
        return ()
    lowest = neck.midi_at(*places[0])
    fits = all(neck.midi_at(*place) == lowest + above for place, (_, _, above) in zip(places, pattern, strict=True))
    return places if fits else ()


def _best(name: str, base: int, ladder: Ladder, neck: Neck) -> tuple[int, Rungs] | None:
    """The hand and the line of a shape whose lowest root fret is ``base``; None if it is another root's, or has no whole line."""
    roots = _roots(name, base, neck)
    if not roots or (neck.midi_at(*roots[0]) - ladder.root.midi) % 12:
        return None
    top = max(fret for _, fret in roots)
    hands = range(base, max(0, top - HAND_FRETS + 1) - 1, -1)
    made = [(hand, line) for hand in hands for downward in (True, False) if (line := _line(hand, downward, ladder, neck))]
    return min(made, key=lambda each: (_stretched(*each), _width(each[1])), default=None)


def _line(hand: int, downward: bool, ladder: Ladder, neck: Neck) -> Rungs:
    """The tones under a hand, those between them that a finger stretches for, and no more; empty if one of them is out of reach."""
    line = window(hand, ladder, neck, downward)
    under = [number for number, (_, place) in enumerate(line) if place and _off(place[1], hand) == 0]
    line = line[under[0] : under[-1] + 1] if under else []
    return line if all(place for _, place in line) else []


def _width(line: Rungs) -> list[int]:
    """Frets from the lowest to the highest on each string, the widest first."""
    frets: dict[int, list[int]] = {}
    for _, place in line:
        if place:
            frets.setdefault(place[0], []).append(place[1])
    return sorted((each[-1] - each[0] for each in frets.values()), reverse=True)


def _off(fret: int, hand: int) -> int:
    return max(hand - fret, fret - (hand + HAND_FRETS - 1), 0)


def _stretched(hand: int, line: Rungs) -> int:
    return sum(_off(place[1], hand) for _, place in line if place)
