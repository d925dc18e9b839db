"""Dynamics and hairpins: the row in which ``mf``, ``<----`` and ``>----`` stand."""

from __future__ import annotations

from typing import Final

from tabforge.model.events import HAIRPINS, Event
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.slots import Reach, Slot, Style
from tabforge.writers.loss import Loss

SIGNS: Final = {kind: sign for sign, kind in HAIRPINS.items()}


class Swells:
    """Follows the hairpins of a section: those that have begun reach from one bar into the next."""

    __slots__ = ("_context", "_open")

    def __init__(self, context: Context) -> None:
        self._context = context
        self._open: dict[int, tuple[int | None, int, str]] = {}
        """Row → slot it began in (None: in a bar before), columns after it, sign."""

    def event(self, event: Event, place: int, slot: Slot, row: int, reaches: list[Reach]) -> None:
        """What an event at slot ``place`` says: what ends before it, its dynamic, what begins on it, what ends with it."""
        attached = event.attached
        begins = [hairpin for hairpin in attached.hairpins if hairpin.begins]
        ends = [hairpin for hairpin in attached.hairpins if not hairpin.begins]
        met = any(not hairpin.through for hairpin in ends)
        if met and row not in self._open:
            self._lost(event)
        open_before = self._open.get(row)
        if met or begins or attached.dynamic:
            self._close(row, place, reaches, through=False)
        width = 0
        if attached.dynamic:
            width = len(attached.dynamic)
            reaches.append(Reach(row, place, place, attached.dynamic, Style.WORD))
            self._context.used.add(f"dynamic {attached.dynamic}")
        if begins:
            self._open[row] = place, width, SIGNS[begins[0].kind]
            self._context.used.add(begins[0].kind)
        elif open_before and attached.dynamic and not met:
            # A dynamic on the way: the hairpin goes on after it.
            self._open[row] = place, width, open_before[2]
        if any(hairpin.through for hairpin in ends) and not self._close(row, place, reaches, through=True):
            self._lost(event)
        opens = bool(begins) or (row in self._open and self._open[row][0] == place)
        if opens:
            # Room for a dash: a sign alone would look like an accent.
            slot.after = max(slot.after, width + 2)
        if width or opens:
            slot.labels.append((row, "", width + opens))

    def carry(self, reaches: list[Reach]) -> None:
        """At the end of a bar: what is open goes on."""
        for row, (first, skip, sign) in self._open.items():
            reaches.append(Reach(row, first, None, sign, Style.HAIRPIN, skip))
            self._open[row] = None, 0, sign

    def _close(self, row: int, place: int, reaches: list[Reach], through: bool) -> bool:
        begun = self._open.pop(row, None)
        if begun is None:
            return False
        first, skip, sign = begun
        reaches.append(Reach(row, first, place, sign, Style.HAIRPIN, skip, through))
        return True

    def _lost(self, event: Event) -> None:
        self._context.losses.append(Loss(span=event.span, what="the end of a hairpin", how="left out: no hairpin has begun"))
