"""Rhythm, strum and picking of a chord block: the strokes of each of its bars."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Final

from tabforge.compile.cells import Cells, cells
from tabforge.compile.durations import RhythmBar, Slot, rhythm_bar
from tabforge.compile.metric import writable
from tabforge.compile.progression import ChordBar
from tabforge.compile.report import Report
from tabforge.compile.shares import shares
from tabforge.diagnostics.catalogue import music
from tabforge.syntax.document import System
from tabforge.syntax.grammar import POISON
from tabforge.syntax.origins import Pointer

Row = tuple[Sequence[str], Pointer]
STRUCK: Final = "*"
"""A stroke of a rhythm that has neither strum nor picking."""

_TROUBLES: Final = {
    "unbalanced": (music.UNBALANCED, "the parentheses of this bar do not match"),
    "too many": (music.TOO_MUCH, "this bar is repeated into more than 250,000 columns"),
    "tuplet": (music.TUPLET_NOT_FILLED, "this tuplet is not filled"),
}
_TOO_MUCH: Final = "the tuplets of this bar are beyond the limits: numbers up to 32, three deep at most"


@dataclass(frozen=True, slots=True)
class Strokes:
    """The strokes of one bar: a cell for each slot of its rhythm, of a row of ``kind`` "strum" or "picking", or "" of none.

    ``at`` is the place of the cells; ``broken``: something was reported.
    """

    kind: str
    rhythm: RhythmBar
    found: Cells
    at: Pointer
    rhythm_at: Pointer
    broken: bool = False


@dataclass(slots=True)
class Patterns:
    """The pattern rows in force, system after system. ``kind`` is "strum", "picking" or empty; ``told`` what has been reported."""

    report: Report
    rhythm: Row | None = None
    cells: Row | None = None
    kind: str = ""
    told: set[object] = field(default_factory=set)
    made: dict[object, Strokes] = field(default_factory=dict)

    def take(self, system: System, place: Pointer) -> None:
        """What a system says anew; rows that it has not hold on from the one before."""
        if system.get("rhythm"):
            self.rhythm = (system["rhythm"], (*place, "rhythm"))
        for kind in ("strum", "picking"):
            row: Sequence[str] = system.get(kind, ())  # type: ignore[assignment]  # a row
            if row:
                self.cells, self.kind = (row, (*place, kind)), kind

    def strokes(self, bar: ChordBar) -> Strokes | None:
        """The strokes of a bar; None where each chord is struck once."""
        if self.rhythm is None and self.cells is None:
            return None
        rhythm_text, rhythm_at = self._text(self.rhythm, bar.number)
        text, at = self._text(self.cells, bar.number)
        key = (rhythm_text, text, rhythm_at, at, bar.meter, bar.length)
        known = self.made.get(key)
        if known is None:
            known = self.made[key] = self._made(bar, rhythm_text, text, rhythm_at or at, at or rhythm_at)
        elif known.broken:
            return replace(known, broken=True)
        return known

    def _text(self, row: Row | None, number: int) -> tuple[str | None, Pointer]:
        """The bar of a row that a bar of the system takes; ``%`` is the bar before it."""
        if row is None:
            return None, ()
        texts, at = row
        index = number % len(texts)
        while texts[index] == "%" and index:
            index -= 1
        if texts[index] == "%":
            self._tell_once((*at, index), "there is no bar before this one to repeat")
            return POISON, (*at, index)
        return texts[index], (*at, index)

    def _tell_once(self, at: Pointer, headline: str) -> None:
        if at not in self.told:
            self.told.add(at)
            self.report.add(music.NO_BAR_BEFORE, headline, at)

    def _made(self, bar: ChordBar, rhythm_text: str | None, text: str | None, rhythm_at: Pointer, at: Pointer) -> Strokes:
        found = cells(text) if text is not None else None
        broken = found is not None and (found.trouble is not None or POISON in found.texts)
        if found is not None and found.trouble:
            self.report.add(music.UNBALANCED, "the parentheses of this bar do not match", at)
        if rhythm_text is None:
            assert found is not None
            return self._silent(bar, at, rhythm_at) if broken else self._evenly(bar, found, at, rhythm_at)
        rhythm = rhythm_bar(rhythm_text)
        for kind, _, detail in rhythm.troubles:
            broken = True
            if kind != "unknown":
                code, headline = _TROUBLES.get(kind, (music.TUPLET_TOO_MUCH, _TOO_MUCH))
                self.report.add(code, headline, rhythm_at, expected=detail if kind == "tuplet" else None)
        columns = len(rhythm.slots)
        if found is None:
            found = Cells((STRUCK,) * columns, tuple(slot.place for slot in rhythm.slots))
        elif len(found.texts) != columns:
            if not broken:
                self.report.add(
                    music.COLUMNS_DIFFER,
                    f"the rhythm has {_columns(columns)} in this bar, the row of {self.kind} has {_columns(len(found.texts))}",
                    at,
                    label=_columns(len(found.texts)),
                    expected=f"{_columns(columns)}, a cell for each duration; . where it rings on, r for a rest",
                )
            broken = True
            found = Cells((found.texts + ("r",) * columns)[:columns], (found.places + (0,) * columns)[:columns])
        if bar.length < bar.meter.quarters and rhythm.quarters == bar.meter.quarters:
            return self._shortened(bar, Strokes(self.kind, rhythm, found, at, rhythm_at, broken))
        return Strokes(self.kind, rhythm, found, at, rhythm_at, broken)

    def _evenly(self, bar: ChordBar, found: Cells, at: Pointer, rhythm_at: Pointer) -> Strokes:
        """Strokes without a rhythm share a whole bar evenly; a pickup takes the last of them."""
        count = len(found.texts)
        parts = shares(count, bar.meter, bar.meter.quarters)
        if parts is None:
            self.report.add(
                music.UNEVEN_SHARES,
                f"{count} {'strokes' if self.kind == 'strum' else 'plucks'} do not share a bar of {bar.meter} evenly",
                at,
                expected="a row of rhythm above it, with a duration for each",
            )
            return self._silent(bar, at, rhythm_at)
        rhythm = RhythmBar(tuple(Slot(part, ()) for part in parts), bar.meter.quarters)
        whole = Strokes(self.kind, rhythm, found, at, rhythm_at)
        return self._shortened(bar, whole) if bar.length < bar.meter.quarters else whole

    def _shortened(self, bar: ChordBar, whole: Strokes) -> Strokes:
        """The end of a pattern in a pickup. A pickup that begins so shortly before a stroke that no rest is as short is reported."""
        rhythm, found = _tail(whole.rhythm, whole.found, bar.length)
        if rhythm.slots and rhythm.slots[0].group < 0 and not writable(rhythm.slots[0].quarters):
            if not whole.broken:
                self.report.add(
                    music.UNEVEN_SHARES,
                    "the pickup begins so shortly before a stroke that no rest is as short",
                    whole.rhythm_at,
                    expected="a rhythm that has a stroke where the pickup begins, or a longer pickup",
                )
            return self._silent(bar, whole.at, whole.rhythm_at)
        return replace(whole, rhythm=rhythm, found=found)

    def _silent(self, bar: ChordBar, at: Pointer, rhythm_at: Pointer) -> Strokes:
        """One silent column for a bar whose strokes cannot be told apart."""
        return Strokes(self.kind, RhythmBar((Slot(bar.length, ()),), bar.length), Cells(("r",), (0,)), at, rhythm_at, True)


def _tail(rhythm: RhythmBar, found: Cells, length: Fraction) -> tuple[RhythmBar, Cells]:
    """The end of a pattern, as long as a pickup. A stroke that began before it is silent in it, and so is the rest of its tuplet."""
    skip = rhythm.quarters - length
    at, index = Fraction(0), 0
    slots = rhythm.slots
    while index < len(slots) and at < skip:
        at += slots[index].quarters
        index += 1
    if at > skip or (0 < index < len(slots) and slots[index].group >= 0 and slots[index].group == slots[index - 1].group):
        while index < len(slots) and slots[index].group >= 0 and slots[index].group == slots[index - 1].group:
            at += slots[index].quarters
            index += 1
        gap = at - skip
        kept = (Slot(gap, ()), *slots[index:])
        return RhythmBar(kept, length), Cells(("r", *found.texts[index:]), (0, *found.places[index:]))
    return RhythmBar(slots[index:], length), Cells(found.texts[index:], found.places[index:])


def _columns(count: int) -> str:
    return "1 column" if count == 1 else f"{count} columns"
