"""Rhythm text as slots: how long each column lasts and how the writer wrote it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Final, NamedTuple

from tabforge.compile.cells import split_count
from tabforge.limits import MAX_EVENTS, MAX_TUPLET_DEPTH, MAX_TUPLET_NUMBER
from tabforge.model.values import BY_LETTER, VALUES, NoteValue, Ratio, Written
from tabforge.syntax.grammar import tokens


class Piece(NamedTuple):
    """One written value of a slot and its real length in quarter notes."""

    written: Written
    quarters: Fraction


class Slot(NamedTuple):
    """A column of rhythm. ``pieces`` has more than one for a sum; none for a length no writer wrote (a line cut at a bar line).

    ``group`` numbers the outermost tuplet it is in (-1: none), ``grace`` is None, "before" or "on"; ``place`` its token's index.
    """

    quarters: Fraction
    pieces: tuple[Piece, ...]
    group: int = -1
    grace: str | None = None
    place: int = 0


@dataclass(frozen=True, slots=True, eq=False)
class RhythmBar:
    """The slots of a bar. Compared by identity, so that what is computed from it can be kept by it.

    ``troubles`` are (kind, token index, detail): "unbalanced", "too many", "tuplet" (not filled; the detail says what is missing), "depth",
    "number", "unknown" (a token reported before). ``quarters`` is the whole length.
    """

    slots: tuple[Slot, ...]
    quarters: Fraction
    troubles: tuple[tuple[str, int, str], ...] = ()


PARTNER: Final[dict[int, int]] = {2: 3, 3: 2, 4: 3, 5: 4, 6: 4, 7: 4, 8: 6, 9: 8}
"""How many in the time of which, when the ratio is not written (common practice, no source; 2, 4 and 8 are the compound meters' own)."""

_VALUE: Final = re.compile(r"([whqest])(\.{0,2})")
_GRACE: Final = re.compile(r"g([qest]?)(!?)")


def partner(actual: int) -> int:
    """The usual ``normal`` of a tuplet written with one number."""
    if actual in PARTNER:
        return PARTNER[actual]
    power = 1
    while power * 2 < actual:
        power *= 2
    return power


def value_of(text: str) -> tuple[NoteValue, int] | None:
    """``q.`` as its value and number of dots."""
    found = _VALUE.fullmatch(text)
    return (BY_LETTER[found[1]], len(found[2])) if found else None


def length_of(text: str) -> Fraction | None:
    """A duration such as ``q.`` or ``e+s`` in quarter notes."""
    total = Fraction(0)
    for part in text.split("+"):
        value = value_of(part)
        if value is None:
            return None
        total += Written(value=value[0], dots=value[1]).quarters
    return total


@dataclass(slots=True)
class _Group:
    ratio: Ratio | None
    place: int
    items: list[_Item]


_Value = tuple[NoteValue, int, list[_Group]]
"""A value, its dots, and the tuplets around it from the inside out."""
_Item = tuple[list[_Value], str | None, int]
"""A column: the values of its sum, whether it is a grace note, its token's index."""
_Troubles = list[tuple[str, int, str]]


@lru_cache(maxsize=8192)
def rhythm_bar(text: str) -> RhythmBar:
    """The slots of a bar of rhythm. Cached: equal texts give the same object."""
    troubles: _Troubles = []
    stack = [_Group(None, 0, [])]
    for index, token in enumerate(tokens(text)):
        if token.endswith("("):
            stack.append(_open(token, index, sum(group.ratio is not None for group in stack), troubles))
        elif token.startswith(")"):
            if len(stack) == 1:
                troubles.append(("unbalanced", index, ""))
                break
            group = stack.pop()
            items = group.items
            if group.ratio is not None:
                items = [([(v, d, [*inside, group]) for v, d, inside in values], grace, at) for values, grace, at in items]
                detail = _unfilled(group)
                if detail:
                    troubles.append(("tuplet", group.place, detail))
            if not _extend(stack[-1], items, split_count(token)[1], troubles, index):
                break
        else:
            body, count = split_count(token)
            if not _extend(stack[-1], [_column(body, index, troubles)], count, troubles, index):
                break
    else:
        if len(stack) > 1:
            troubles.append(("unbalanced", stack[-1].place, ""))
    slots = _slots([item for group in stack for item in group.items])
    return RhythmBar(slots, sum((slot.quarters for slot in slots), Fraction(0)), tuple(troubles))


def _extend(into: _Group, items: list[_Item], count: int, troubles: _Troubles, index: int) -> bool:
    if len(into.items) + len(items) * count > MAX_EVENTS:
        troubles.append(("too many", index, ""))
        return False
    for _ in range(count):
        # Each repetition of a tuplet is a tuplet of its own, so that its bracket closes.
        copies: dict[int, _Group] = {}
        for values, grace, at in items:
            again = [(v, d, [copies.setdefault(id(g), _Group(g.ratio, g.place, g.items)) for g in inside]) for v, d, inside in values]
            into.items.append((again, grace, at))
    return True


def _open(token: str, index: int, depth: int, troubles: _Troubles) -> _Group:
    numbers = token[:-1]
    if not numbers:
        return _Group(None, index, [])
    actual, _, normal = numbers.partition(":")
    ratio = Ratio(actual=int(actual), normal=int(normal) if normal else partner(int(actual)))
    if max(ratio.actual, ratio.normal) > MAX_TUPLET_NUMBER:
        troubles.append(("number", index, numbers))
        return _Group(None, index, [])
    if depth >= MAX_TUPLET_DEPTH:
        troubles.append(("depth", index, numbers))
        return _Group(None, index, [])
    return _Group(ratio, index, [])


def _column(body: str, index: int, troubles: _Troubles) -> _Item:
    grace = _GRACE.fullmatch(body)
    if grace:
        return ([(BY_LETTER[grace[1] or "e"], 0, [])], "on" if grace[2] else "before", index)
    values: list[_Value] = []
    for part in body.split("+"):
        value = value_of(part)
        if value is None:
            troubles.append(("unknown", index, body))
            value = (BY_LETTER["q"], 0)
        values.append((value[0], value[1], []))
    return (values, None, index)


def _inside_length(group: _Group) -> Fraction:
    """Length of what a tuplet holds, counted in its own notes: inner tuplets applied, itself not."""
    total = Fraction(0)
    for values, grace, _ in group.items:
        if grace is None:
            for value, dots, inside in values:
                total += _real(value, dots, [each.ratio for each in inside if each.ratio is not None])
    return total


def _real(value: NoteValue, dots: int, ratios: list[Ratio]) -> Fraction:
    return Written(value=value, dots=dots, tuplets=tuple(ratios)).quarters


def _unit(group: _Group) -> NoteValue | None:
    assert group.ratio is not None
    length = _inside_length(group) / group.ratio.actual
    return next((value for value in VALUES if value.quarters == length), None)


def _unfilled(group: _Group) -> str | None:
    """What is wrong with a tuplet whose notes are not so many of one value, in words; None if nothing is."""
    if _unit(group) is not None:
        return None
    ratio = group.ratio
    assert ratio is not None
    written = [value for values, grace, _ in group.items if grace is None for value, _, _ in values]
    usual = max(written, key=lambda value: (written.count(value), -value.quarters), default=VALUES[3])
    return f"{ratio.actual} {usual.spoken}s in the time of {ratio.normal}"


def _slots(items: list[_Item]) -> tuple[Slot, ...]:
    numbers: dict[int, int] = {}
    sounding = [(c, p, groups[::-1]) for c, (values, _, _) in enumerate(items) for p, (_, _, groups) in enumerate(values)]
    opens: dict[tuple[int, int], list[int]] = {}
    closes: dict[tuple[int, int], list[int]] = {}
    for at, (c, p, groups) in enumerate(sounding):
        before = [id(g) for g in sounding[at - 1][2]] if at else []
        after = [id(g) for g in sounding[at + 1][2]] if at + 1 < len(sounding) else []
        opens[c, p] = [level for level, g in enumerate(groups) if id(g) not in before]
        closes[c, p] = [level for level, g in enumerate(groups) if id(g) not in after]
    slots = []
    for column, (values, grace, place) in enumerate(items):
        pieces = []
        for part, (value, dots, inside) in enumerate(values):
            around = inside[::-1]
            written = Written(
                value=value,
                dots=dots,
                tuplets=tuple(g.ratio for g in around if g.ratio is not None),
                units=tuple(_unit(g) or value for g in around),
                opens=tuple(opens[column, part]),
                closes=tuple(closes[column, part]),
            )
            pieces.append(Piece(written, Fraction(0) if grace else written.quarters))
        outer = values[0][2][-1] if values[0][2] else None
        group = numbers.setdefault(id(outer), len(numbers)) if outer is not None else -1
        slots.append(Slot(sum((piece.quarters for piece in pieces), Fraction(0)), tuple(pieces), group, grace, place))
    return tuple(slots)
