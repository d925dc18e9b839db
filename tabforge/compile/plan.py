"""A bar's columns as written pieces: holds joined, long sounds split so that the beats can be seen."""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.compile.durations import RhythmBar
from tabforge.compile.metric import Atom, Metric, whole_rest

Plan = tuple[tuple[Atom, ...], ...]
"""For each column its written pieces; none for a column that the sound before it holds through."""


def bar_plan(bar: RhythmBar, metric: Metric, offset: int, kinds: str) -> Plan:
    """The pieces of every column. Kept with the metric, since bars of a study are much alike.

    ``offset`` is where in the bar the first column stands (not 0 in a pickup). ``kinds`` has a letter for each column: ``n`` a note or
    chord, ``r`` a rest, ``=`` a hold, ``H`` a hold that must be seen because something is written at it.
    """
    key = (bar, offset, kinds)
    plan = metric.plans.get(key)
    if plan is None:
        plan = metric.plans[key] = _plan(bar, metric, offset, kinds)
    return plan


def _plan(bar: RhythmBar, metric: Metric, offset: int, kinds: str) -> Plan:
    slots, divisions = bar.slots, metric.divisions
    lengths = [int(slot.quarters * divisions) for slot in slots]
    plan: list[tuple[Atom, ...]] = []
    at, index = offset, 0
    while index < len(slots):
        slot = slots[index]
        if slot.grace is not None:
            plan.append((Atom(at, 0, slot.pieces[0].written),))
            index += 1
            continue
        end = index + 1
        if slot.group < 0:
            while end < len(slots) and kinds[end] == "=" and slots[end].group < 0 and slots[end].grace is None:
                end += 1
        ticks = sum(lengths[index:end])
        plan.append(_pieces(bar, metric, at, ticks, index, end, kinds[index] == "r"))
        plan.extend([()] * (end - index - 1))
        at += ticks
        index = end
    return tuple(plan)


def _pieces(bar: RhythmBar, metric: Metric, at: int, ticks: int, index: int, end: int, rest: bool) -> tuple[Atom, ...]:
    slots = bar.slots[index:end]
    if rest and ticks == metric.ticks and slots[0].group < 0:
        return (Atom(at, ticks, whole_rest()),)
    if slots[0].group < 0:
        pieces = slots[0].pieces
        own = pieces[0].written if end - index == 1 and len(pieces) == 1 else None
        split = metric.split(at, ticks, rest, own)
        if split is not None:
            return split
    return _as_written(slots, metric, at) if all(slot.pieces for slot in slots) else metric.pieces(at, ticks)


def _as_written(slots: Sequence, metric: Metric, at: int) -> tuple[Atom, ...]:  # type: ignore[type-arg]  # of Slot
    atoms = []
    for slot in slots:
        for piece in slot.pieces:
            ticks = int(piece.quarters * metric.divisions)
            atoms.append(Atom(at, ticks, piece.written))
            at += ticks
    return tuple(atoms)
