"""A rhythm begun again and again, cut into bars under a line of so many notes."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Final

from tabforge.compile.durations import RhythmBar, Slot

HOLD: Final = -1
REST: Final = -2


@dataclass(slots=True)
class Cut:
    """One bar: its rhythm, and for each column the index of its note, HOLD or REST."""

    slots: list[Slot] = field(default_factory=list)
    notes: list[int] = field(default_factory=list)
    whole: bool = True
    """Whether all slots are the pattern's own, so that equal bars can share one rhythm."""

    def add(self, slot: Slot, note: int, whole: bool = True) -> None:
        """Adds a column."""
        self.slots.append(slot)
        self.notes.append(note)
        self.whole &= whole


def cut_into_bars(
    count: int, pattern: RhythmBar, bar: Fraction, pickup: Fraction, hold: bool
) -> list[tuple[RhythmBar, list[int]]] | None:
    """The bars of ``count`` notes under a pattern begun again; None if a tuplet would lie across a bar line.

    ``bar`` and ``pickup`` are in quarter notes (no pickup: 0). The last bar is filled by its last note (``hold``) or by rests. The pattern
    must have a length.
    """
    groups: dict[int, Fraction] = {}
    for slot in pattern.slots:
        if slot.group >= 0:
            groups[slot.group] = groups.get(slot.group, Fraction(0)) + slot.quarters
    filler = HOLD if hold else REST
    cuts = [Cut()]
    room, note, index, group = pickup or bar, 0, 0, -1
    columns = len(pattern.slots)
    while note < count or group >= 0:
        slot = pattern.slots[index % columns]
        if note >= count and slot.group != group:
            break
        if slot.group >= 0 and slot.group != group and groups[slot.group] > room:
            return None
        group = slot.group
        what = note if note < count else filler
        note += 1
        index += 1
        if index % columns == 0:
            group = -1  # the pattern begins again, and with it every tuplet
        length = slot.quarters
        if length <= room:
            cuts[-1].add(slot, what)
            room -= length
        else:
            while length > 0:
                part = min(length, room)
                cuts[-1].add(Slot(part, ()), what, False)
                what = HOLD if what != REST else REST
                length -= part
                room -= part
                if room == 0 and length:
                    cuts.append(Cut())
                    room = bar
        if room == 0 and note < count:
            cuts.append(Cut())
            room = bar
            group = -1
    if 0 < room < bar or (room and cuts[-1].slots):
        cuts[-1].add(Slot(room, ()), filler, False)
    return _shared([cut for cut in cuts if cut.slots])


def _shared(cuts: list[Cut]) -> list[tuple[RhythmBar, list[int]]]:
    """Equal bars get one RhythmBar, so that they are planned once."""
    known: dict[tuple[int, ...], RhythmBar] = {}
    made = []
    for cut in cuts:
        key = tuple(id(slot) for slot in cut.slots)
        rhythm = known.get(key) if cut.whole else None
        if rhythm is None:
            rhythm = RhythmBar(tuple(cut.slots), sum((slot.quarters for slot in cut.slots), Fraction(0)))
            if cut.whole:
                known[key] = rhythm
        made.append((rhythm, cut.notes))
    return made
