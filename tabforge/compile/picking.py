"""Pick strokes where the writer gives none: alternate, economy or legato, for the first voice.

**Alternate**: the hand swings with the beat, down on it and on every even part of it, up on the odd parts; parts are as fine as the beat's
notes ask for, and the hand swings through rests and hammered notes. A beat in an odd number of parts, such as a triplet, goes on from the
one before it where that was odd too, so that down and up take turns. **Economy**: the search chooses the strokes together with the
places (``cost.economy_cost``). **Legato**: the first note on a string is picked, the notes that follow on it are hammered on or pulled
off. All are common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from tabforge.compile.marks import lead
from tabforge.compile.metric import Metric
from tabforge.compile.strokes import Stroke
from tabforge.fretboard.cost import LEGATO, NEXT
from tabforge.fretboard.fingers import Fingers
from tabforge.model.events import NOTHING_ATTACHED, Attached
from tabforge.model.techniques import BY_NAME, Role

_SLURS: Final = frozenset({"hammer-on", "pull-off", "legato slide"})
_NOT_ONE_STROKE: Final = frozenset({
    *("tap", "left-hand tap", "tremolo picking"),
    *("arpeggio upward", "arpeggio downward", "brush upward", "brush downward"),
})
"""What the other hand sounds, or the pick with more than one stroke or one of its own."""

_MAY_STAY: Final = frozenset({"vibrato", "wide vibrato", "palm mute", "let ring", "octave higher", "octave lower", "two octaves higher"})
"""What a note may have that is hammered or pulled, or leads to one that is."""

_GIVEN: Final = {stroke: Attached(stroke=stroke) for stroke in "du"}
_MOST_PARTS: Final = 16


def _slurred(stroke: Stroke) -> bool:
    return any(mark.technique.name in _SLURS and mark.role is Role.STOP for mark in stroke.note_marks)


def _marked(stroke: Stroke) -> set[str]:
    return {mark.technique.name for mark in (*stroke.note_marks, *stroke.event_marks)}


def _open(stroke: Stroke) -> bool:
    """Whether a pick sounds it and the writer does not say how."""
    if not stroke.wants or stroke.grace or stroke.plucks or stroke.attached.stroke or _slurred(stroke):
        return False
    return not (_marked(stroke) & _NOT_ONE_STROKE)


def _give(stroke: Stroke, way: str) -> None:
    known = stroke.attached
    stroke.attached = _GIVEN[way] if known is NOTHING_ATTACHED else replace(known, stroke=way)


def alternate(strokes: Sequence[Stroke], metrics: Sequence[Metric]) -> None:
    """Gives strokes by their places in the beat. ``metrics``: that of each bar."""
    swung = 0
    for metric, struck in _beats(strokes, metrics):
        start, end = metric
        parts = _parts([stroke.atoms[0].onset - start for stroke in struck], end - start)
        odd = parts % 2 == 1 and parts > 1
        first = swung if odd else 0
        for number, stroke in enumerate(struck):
            at = (stroke.atoms[0].onset - start) * parts // (end - start) if parts <= _MOST_PARTS else number
            if _open(stroke):
                _give(stroke, "du"[(at + first) % 2])
        swung = (first + parts) % 2 if odd else 0


def _beats(strokes: Sequence[Stroke], metrics: Sequence[Metric]) -> Iterator[tuple[tuple[int, int], list[Stroke]]]:
    """Each beat's ends, in ticks from its bar's beginning, and what is struck in it."""
    by_bar: dict[int, list[Stroke]] = {}
    for stroke in strokes:
        if stroke.wants and not stroke.grace:
            by_bar.setdefault(stroke.bar, []).append(stroke)
    for number, metric in enumerate(metrics):
        struck = by_bar.get(number, [])
        for start, end in zip(metric.pulses, metric.pulses[1:], strict=False):
            yield (start, end), [stroke for stroke in struck if start <= stroke.atoms[0].onset < end]


def _parts(places: Sequence[int], length: int) -> int:
    """The fewest equal parts of a beat that have all places at their beginnings."""
    found = (parts for parts in range(1, _MOST_PARTS + 1) if all(place * parts % length == 0 for place in places))
    return next(found, _MOST_PARTS + 2)


def asked(strokes: Sequence[Stroke], how: str) -> dict[int, str]:
    """What the search is told of each stroke, by its ``id``: the writer's way, ``cost.NEXT`` or ``cost.LEGATO``; "" after a silence."""
    word = {"economy": NEXT, "legato": LEGATO}[how]
    told: dict[int, str] = {}
    silent = True
    for stroke in strokes:
        if stroke.wants is None:
            continue
        if stroke.wants:
            given = stroke.attached.stroke
            told[id(stroke)] = given if given and how == "economy" else word if (given or _open(stroke)) and not silent else ""
        silent = not stroke.wants
    return told


def take(stroke: Stroke, way: str) -> None:
    """Gives a stroke that the search chose."""
    if way and _open(stroke):
        _give(stroke, way)


def slur(strokes: Sequence[Stroke], fingers: dict[int, Fingers]) -> None:
    """Legato: hammers and pulls what follows on its string, where a finger is free for it. ``fingers``: those of each stroke, by ``id``."""
    last: Stroke | None = None  # the note that sounds, and its last written piece
    piece: Stroke | None = None
    for stroke in strokes:
        if stroke.wants is None:
            piece = stroke
            continue
        name = _slur_between(last, stroke, fingers) if last is not None else None
        if name is not None:
            assert piece is not None
            lead(piece, stroke, BY_NAME[name])
        last = piece = stroke if stroke.wants else None


def _slur_between(first: Stroke, second: Stroke, fingers: dict[int, Fingers]) -> str | None:
    """The name of the technique, or None."""
    if not _open(second) or first.grace or len(first.places) != 1 or len(second.places) != 1:
        return None
    if _marked(second) - _MAY_STAY or _marked(first) - _MAY_STAY - _SLURS or _leads(first):
        return None
    (string, low), (other, high) = first.places[0], second.places[0]
    before, after = (fingers.get(id(each), (0,)) for each in (first, second))
    if string != other or low == high or (before == after and before[0]):
        return None
    return "hammer-on" if high > low else "pull-off"


def _leads(stroke: Stroke) -> bool:
    return any(mark.technique.leads and mark.role is Role.START for mark in stroke.note_marks)
