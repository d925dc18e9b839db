"""Where the columns stand, and where a bar that is too wide is broken."""

from __future__ import annotations

from dataclasses import replace

from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.lines import CONTINUED, between
from tabforge.writers.ascii.slots import Ending, Over, Piece, Reach, Slot, Style

FIRST_COLUMN = 1
"""A dash stands between a bar line and the first note."""


def measure(piece: Piece, context: Context) -> Piece:
    """Give every slot of a piece its column and the piece its width; returns the same piece.

    A slot stands at least a dash after the widest text of the one before, at least as far from it as its duration asks, and
    far enough that no two labels of a row touch.
    """
    closing: dict[int, list[tuple[int, int]]] = {}
    for reach in piece.reaches:
        first, final = reach.first, reach.last
        if first is not None and final is not None and first != final and reach.style is not Style.HAIRPIN:
            closing.setdefault(final, []).append((first, len(reach.text) + (reach.style is Style.BRACKET)))
    slots, room = piece.slots, context.room
    ends: dict[int, int] = {}
    last: Slot | None = None
    for place, slot in enumerate(slots):
        if last is None:
            at = FIRST_COLUMN + slot.before
        else:
            step = last.after + 1 + slot.before
            if slot.onset != last.onset:
                wanted = room(slot.onset - last.onset)
                if wanted > step:
                    step = wanted
            at = last.x + step
        labels = slot.labels
        for row, _, _ in labels:
            if row in ends and ends[row] >= at:
                at = ends[row] + 1
        if closing and place in closing:
            at = max(at, *(slots[first].x + need for first, need in closing[place]))
        for row, _, width in labels:
            ends[row] = at + width
        slot.x = at
        last = slot
    width = _least(piece)
    if last is not None:
        width = max(width, last.x + last.after + 1, *ends.values())
        if piece.ticks > last.onset:
            width = max(width, last.x + room(piece.ticks - last.onset))
    piece.width = width
    return piece


def _least(piece: Piece) -> int:
    """Columns that the words over the whole bar, or in it, need."""
    ending = len(piece.ending.text) + 1 if piece.ending and piece.ending.text else 0
    rest = len(piece.rest) + 4 if piece.rest else 0
    return max(3, ending, rest, *(over.width for over in piece.over.values()))


def fits(piece: Piece, line: int) -> bool:
    """Whether a measured piece and the bar lines at both its edges stand in ``line`` columns."""
    return len(between(None, piece.left).plain) + piece.width + len(between(piece.right, None).plain) <= line


def broken(piece: Piece, pulses: frozenset[int], line: int, context: Context) -> list[Piece]:
    """A measured piece in parts that fit a line each, broken at a beat if one lies in the last two thirds of the line.

    ``pulses`` are the onsets of the bar's beats in ticks. Without a beat there it is broken outside a tuplet, else between any two notes.
    """
    if fits(piece, line):
        return [piece]
    context.used.add("continued")
    inside = _inside_tuplets(piece)
    slots, parts = piece.slots, []
    reaches = sorted(piece.reaches, key=_first)
    begin, taken = 0, 0
    across: list[Reach] = []
    while begin < len(slots):
        # No column is narrower than two characters: a window of this many slots is as wide as a line, and time stays linear.
        stop = min(len(slots), begin + line // 2 + 1)
        ahead = taken
        while ahead < len(reaches) and _first(reaches[ahead]) < stop:
            ahead += 1
        near = across + reaches[taken:ahead]
        part = measure(_part(piece, near, begin, stop), context)
        if stop < len(slots) or not fits(part, line):
            stop, part = _best(piece, near, begin, stop, line, pulses, inside, context)
        parts.append(part)
        across = [reach for reach in near if _first(reach) < stop and (reach.last is None or reach.last >= stop)]
        taken += sum(_first(reach) < stop for reach in reaches[taken:ahead])
        begin = stop
    return parts


def _first(reach: Reach) -> int:
    return -1 if reach.first is None else reach.first


def _inside_tuplets(piece: Piece) -> set[int]:
    inside: set[int] = set()
    for reach in piece.reaches:
        if reach.style is Style.BRACKET and reach.first is not None and reach.last is not None:
            inside.update(range(reach.first + 1, reach.last + 1))
    return inside


def _best(
    piece: Piece, reaches: list[Reach], begin: int, stop: int, line: int, pulses: frozenset[int], inside: set[int], context: Context
) -> tuple[int, Piece]:
    """The best place to break, and the part before it."""
    slots = piece.slots
    starts = [slot.x for slot in slots[begin:stop]]
    candidates = [at for at in range(begin + 1, stop) if starts[at - begin] <= line]

    def rank(at: int) -> tuple[bool, bool, bool, bool, int]:
        return (
            slots[at - 1].grace,
            starts[at - begin] * 3 < line,
            slots[at].onset not in pulses,
            at in inside,
            -at,
        )

    for at in sorted(candidates, key=rank):
        part = measure(_part(piece, reaches, begin, at), context)
        if fits(part, line):
            return at, part
    return begin + 1, measure(_part(piece, reaches, begin, begin + 1), context)


def _part(piece: Piece, reaches: list[Reach], begin: int, stop: int) -> Piece:
    """Slots ``begin`` to ``stop`` of a piece as a piece of its own, with open edges where it was cut."""
    first, final = begin == 0, stop == len(piece.slots)
    mine = []
    for reach in reaches:
        start = _first(reach)
        if start >= stop:
            break
        end = len(piece.slots) if reach.last is None else reach.last
        if end >= begin:
            mine.append(reach._replace(first=start - begin if start >= begin else None, last=end - begin if end < stop else None))
    ending = None
    if piece.ending:
        ending = Ending(piece.ending.text if first else None, piece.ending.closes and final, piece.ending.hooked and final)
    return replace(
        piece,
        slots=piece.slots[begin:stop],
        reaches=mine,
        ticks=piece.ticks if final else piece.slots[stop].onset,
        left=piece.left if first else CONTINUED,
        right=piece.right if final else CONTINUED,
        over={row: Over(over.start if first else "", over.end if final else "") for row, over in piece.over.items()},
        breaks=piece.breaks and first,
        ending=ending,
    )
