"""Extents such as ``PM---|`` and ``BIII---|``: signs that reach over several events, over bar lines too."""

from __future__ import annotations

from tabforge.model.techniques import Role
from tabforge.writers.ascii.marks import Extent
from tabforge.writers.ascii.rows import VoiceRows
from tabforge.writers.ascii.slots import Reach, Slot


class Extents:
    """Follows the extents of a section."""

    __slots__ = ("_open",)

    def __init__(self) -> None:
        self._open: dict[int, tuple[int | None, str]] = {}
        """Extents that have begun: row → slot they began on (None: in a bar before) and sign."""

    def event(self, extent: Extent, rows: VoiceRows, place: int, slot: Slot, reaches: list[Reach]) -> None:
        """One extent of an event at slot ``place``: it begins, goes on or ends there."""
        row = _row(extent, rows)
        begun = self._open.get(row)
        if begun is None:
            slot.labels.append((row, "", len(extent.sign)))
        if extent.role is Role.SINGLE:
            reaches.append(Reach(row, place, place, extent.sign))
        elif extent.role is Role.STOP:
            self._open.pop(row, None)
            first, sign = begun or (place, extent.sign)
            reaches.append(Reach(row, first, place, sign))
        elif begun is None:
            self._open[row] = (place, extent.sign)

    def carry(self, reaches: list[Reach]) -> None:
        """At the end of a bar: what is open goes on."""
        for row, (first, sign) in self._open.items():
            reaches.append(Reach(row, first, None, sign))
            self._open[row] = (None, sign)


def _row(extent: Extent, rows: VoiceRows) -> int:
    return {"mute": rows.mute, "ring": rows.ring, "barre": rows.barre, "half barre": rows.half_barre}[extent.kind]
