"""Marks for the notes of a voice, such as a player could follow: for ``tests.vocabulary``.

Which mark fits which note is common practice, no source: a hammer-on leads up and a pull-off down on one string, a bend needs a fretted
note, a natural harmonic a fret with a node, a spread chord a chord.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from random import Random
from typing import Final

from tabforge.model.techniques import TECHNIQUES, Technique

NODES: Final = (12, 7, 5)
"""Frets over which an open string sounds a harmonic."""

TOUCHED: Final = ("", "12", "7", "5")
"""How many frets above the fretted note a string is touched."""

LAST: Final = 16
"""The last fret of the shortest neck in ``tests.vocabulary``, with its capo."""

AMOUNTS: Final = {
    "whole steps": ("1/4", "1/2", "3/4", "1", "5/4", "3/2", "7/4", "2"),
    "frets": ("1", "2", "4", "5", "7"),
    "strokes": ("1", "2", "3", ""),
}

ONE_OF: Final[tuple[frozenset[str], ...]] = (
    frozenset({"h", "p", "sl", "ss", "out/", "out\\", "b#", "b#r", "pb#", "pb#r", "tr#", "dip"}),
    frozenset({"in/", "in\\", "pb#", "pb#r", "rk", "gh"}),
    frozenset({"v", "wv", "b#", "b#r", "pb#", "pb#r", "tr#"}),
    *(frozenset({"x", form}) for form in ("h", "p", "sl", "ss", "in/", "in\\", "out/", "out\\", "v", "wv")),
    *(frozenset({"x", form}) for form in ("b#", "b#r", "pb#", "pb#r", "tr#", "dip")),
    frozenset({"x", "gh", "nh", "ah#", "ph", "th#", "t", "lt"}),
    frozenset({"st", "tn"}),
    frozenset({"ac", "ma"}),
    frozenset({"ar/", "ar\\", "br/", "br\\", "rk"}),
    frozenset({"8va", "8vb", "15ma"}),
    frozenset({"ba#", "hb#"}),
    frozenset({"nh", "b#", "b#r", "pb#", "pb#r", "tr#", "ba#", "hb#", "in/", "in\\", "sl", "ss", "h", "p"}),
)
"""Forms of which a note has one at most."""


@dataclass(slots=True)
class Slot:
    """A column: its length in quarter notes; string to fret of what is struck; its cell of marks; whether one of them makes it dead."""

    length: Fraction
    grace: bool = False
    rest: bool = False
    held: bool = False
    dead: bool = False
    notes: dict[int, int] = field(default_factory=dict)
    marks: str = "."
    crossed: bool = False


def give_marks(slots: list[Slot], dice: Random, base: int, *, free: bool, without: frozenset[str] = frozenset()) -> None:
    """Fill in ``marks``.

    ``base`` is the first finger's fret; ``free``: the places of the notes are not known, so no mark hangs on them; ``without``: forms that
    are not used.
    """
    running: list[str] = []
    led: set[int] = set()
    struck: dict[int, int] = {}
    for at, slot in enumerate(slots):
        of_notes = any(_technique(form).scope == "note" for form in running)
        may = slot.held or (bool(slot.notes) and not slot.grace and not slot.dead and (slot.notes == struck or not of_notes))
        goes_on = bool(running) and may and dice.random() < 0.5
        if not goes_on:
            running = []
        struck = slot.notes or struck
        own: list[str] = []
        if slot.notes:
            for technique in dice.sample(TECHNIQUES, len(TECHNIQUES)):
                if len(own) >= 3 or technique.form in without or dice.random() < 0.9:
                    continue
                if id(slot) in led and technique.form == "nh":
                    continue  # it would change the fret the note before leads to
                following = _next(slots, at)
                if _fits(technique, slot, following, free) and not _clash(technique.form, [*own, *running]):
                    own.append(technique.form)
                    if technique.leads and following is not None:
                        led.add(id(following))
        forms = {form: _written(form, slot, dice, base) for form in own}
        slot.marks = "+".join([*(["-"] if goes_on else []), *forms.values()]) or "."
        slot.crossed = "x" in own
        if "nh" in own:
            slot.notes = dict.fromkeys(slot.notes, dice.choice(NODES))
        extending = [form for form in own if _technique(form).extends]
        running = [*running, *extending]


def _technique(form: str) -> Technique:
    return next(each for each in TECHNIQUES if each.form == form)


def _next(slots: list[Slot], at: int) -> Slot | None:
    """What is struck next, if nothing but holds lies between."""
    for slot in slots[at + 1 :]:
        if not slot.held:
            return slot if slot.notes else None
    return None


def _clash(form: str, others: list[str]) -> bool:
    return form in others or any(form in group and group & set(others) for group in ONE_OF)


def _fits(technique: Technique, slot: Slot, following: Slot | None, free: bool) -> bool:
    form, frets = technique.form, list(slot.notes.values())
    if slot.dead:
        return form in {"sc", "ac", "st", "pm"}
    if slot.grace:
        return not free and form in {"h", "p", "sl", "ss"} and _leads(form, slot, following)
    if free:
        return technique.scope == "event" and (form[:2] not in {"ar", "br"} or len(frets) > 1) and form not in {"ba#", "hb#", "sc"}
    if technique.leads:
        return _leads(form, slot, following)
    if form == "sc":
        return False
    if form == "nh":
        # The note before may lead here, and this one nowhere: its fret is changed for one with a node.
        return not slot.dead and len(frets) == 1
    if form[:2] in {"ar", "br"}:
        return len(frets) > 1
    if form in {"b#", "b#r", "pb#", "pb#r", "in/", "in\\", "out/", "out\\", "v", "wv", "tr#", "gh", "t", "lt", "ph", "ah#", "th#"}:
        return all(fret > 0 for fret in frets)
    return True


def _leads(form: str, slot: Slot, following: Slot | None) -> bool:
    """Whether both are one note on one string, the second higher for a hammer-on and lower for a pull-off."""
    if following is None or following.dead or len(slot.notes) != 1 or slot.notes.keys() != following.notes.keys():
        return False
    ((fret, target),) = zip(slot.notes.values(), following.notes.values(), strict=True)
    if form == "h":
        return target > fret
    if form == "p":
        return target < fret
    return target != fret and fret > 0 and target > 0


def _written(form: str, slot: Slot, dice: Random, base: int) -> str:
    technique = _technique(form)
    amounts = TOUCHED if form in {"ah#", "th#"} else AMOUNTS.get(technique.amount.value, ("",))
    if form in {"ah#", "th#", "tr#"}:
        amounts = tuple(each for each in amounts if max(slot.notes.values()) + int(each or technique.default or 0) <= LAST)
    amount = str(base) if form in {"ba#", "hb#"} else dice.choice(amounts)
    pin = ""
    if technique.scope == "note" and not technique.leads and len(slot.notes) > 1 and dice.random() < 0.3:
        pin = f"@{dice.choice(list(slot.notes))}"
    return form.replace("#", amount) + pin
