"""Two voices in one tab: common columns, and what happens where the voices meet."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.model.events import Event
from tabforge.writers.ascii.marks import HELD
from tabforge.writers.ascii.slots import Slot
from tabforge.writers.loss import Loss


def common_slots(voices: Sequence[Sequence[Event]]) -> tuple[list[Slot], list[list[int]]]:
    """The slots of a bar in order of time, and for each voice the index of each event's slot.

    Grace notes before one moment are counted back from it, so that the last ones of both voices share a column.
    """
    keys = [_keys(events) for events in voices]
    order = sorted({key for each in keys for key in each})
    index = {key: place for place, key in enumerate(order)}
    slots = [Slot(onset, rank < 0) for onset, rank in order]
    return slots, [[index[key] for key in each] for each in keys]


def _keys(events: Sequence[Event]) -> list[tuple[int, int]]:
    """(onset, rank) of each event: rank 0, or for grace notes -n to -1."""
    keys = []
    rank, onset = 0, -1
    for event in reversed(events):
        rank = (rank - 1 if event.onset == onset else -1) if event.grace else 0
        onset = event.onset
        keys.append((onset, rank))
    return keys[::-1]


def settle(slots: list[Slot], upper: list[int], places: list[int], events: Sequence[Event], losses: list[Loss]) -> None:
    """Look at the columns where both voices have notes.

    ``upper`` is how many cells of each slot are voice 1's; ``places`` and ``events`` are voice 2's.

    The same note in both voices is written once. Voices are told apart by their strings, the upper one on the higher; where they cross, and
    where both claim one string, that is a loss.
    """
    for place, event in zip(places, events, strict=True):
        slot, count = slots[place], upper[place]
        if not count or count == len(slot.cells):
            continue
        first, second = slot.cells[:count], slot.cells[count:]
        taken = {string: text for string, text, _ in first}
        kept = [cell for cell in second if cell[0] not in taken]
        for string, text, before in second:
            if string not in taken or taken[string] == text:
                continue
            what = f"the lower voice on string {string}, which the upper voice uses too"
            losses.append(Loss(span=event.span, what=what, how="one of the two notes is written"))
            if taken[string].startswith(HELD) and not text.startswith(HELD):
                first = [cell for cell in first if cell[0] != string]
                kept.append((string, text, before))
        slot.cells = first + kept
        if kept and first and max(cell[0] for cell in first) > min(cell[0] for cell in kept):
            what = "which note is in which voice, for the voices cross"
            losses.append(Loss(span=event.span, what=what, how="both are written, the voice is not told"))
