"""Degree labels: a degree named against the major scale on the root, such as ``#4`` or ``bb7``."""

from __future__ import annotations

import re
from functools import cache
from typing import Final, NamedTuple

MAJOR_OFFSETS: Final = (0, 2, 4, 5, 7, 9, 11)
"""Semitones of degrees 1 to 7 of the major scale (W W H W W W H, common practice)."""

_LABEL: Final = re.compile(r"(##|#|bb|b)?([1-9][0-9]?)")
_ALTERS: Final = {"": 0, "#": 1, "##": 2, "b": -1, "bb": -2}


class Label(NamedTuple):
    """A degree: its number, 1 or more (8 is an octave above 1), and its alteration in semitones against the major scale."""

    number: int
    alter: int

    @property
    def offset(self) -> int:
        """Semitones above the root."""
        octaves, degree = divmod(self.number - 1, 7)
        return 12 * octaves + MAJOR_OFFSETS[degree] + self.alter

    def __str__(self) -> str:
        return ("#" * self.alter if self.alter > 0 else "b" * -self.alter) + str(self.number)


@cache
def parse_label(text: str) -> Label | None:
    """The degree a text such as ``b3`` or ``13`` names, or None."""
    found = _LABEL.fullmatch(text)
    return Label(int(found[2]), _ALTERS[found[1] or ""]) if found else None


def read_label(text: str) -> Label:
    """The same for a label that comes from a table. Raises ValueError if it is none."""
    label = parse_label(text)
    if label is None:
        raise ValueError(f"{text!r} is not a degree")
    return label


def spread_labels(offsets: tuple[int, ...]) -> tuple[str, ...] | None:
    """Labels of a seven-note scale, one number each: the nth note is degree n, altered as need be.

    None where that takes more than a double accidental, or there are not seven notes.
    """
    if len(offsets) != len(MAJOR_OFFSETS):
        return None
    labels = [Label(at + 1, offset - MAJOR_OFFSETS[at]) for at, offset in enumerate(offsets)]
    return tuple(map(str, labels)) if all(abs(label.alter) <= 2 for label in labels) else None


_COST: Final = {0: 0, -1: 10, 1: 11, -2: 32, 2: 33}
_RAISED_FOURTH: Final = 9
_REPEATED: Final = 15
_NEEDLESS: Final = 12


def _cost(label: Label) -> int | None:
    """What an alteration weighs; None for one that is not to be used."""
    if label == (4, 1):
        return _RAISED_FOURTH
    cost = _COST.get(label.alter)
    return cost + _NEEDLESS if cost and label.offset in MAJOR_OFFSETS else cost


def plain_labels(offsets: tuple[int, ...]) -> tuple[str, ...]:
    """Labels of a scale of any number of notes: few accidentals, numbers that do not fall, and few that come twice.

    ``offsets`` ascend from 0, each below 12. An accidental weighs 10 (a sharp a little more, but for #4), a doubled one three times
    as much, one on a note that has a plain name 12 more (#3), a number that comes twice 15: so 0 3 5 6 10 is 1 b3 4 b5 b7, and
    0 3 4 7 8 11 is 1 #2 3 5 b6 7. The weights are our own.
    """
    best: dict[int, tuple[int, tuple[Label, ...]]] = {1: (0, (Label(1, 0),))}
    for offset in offsets[1:]:
        found: dict[int, tuple[int, tuple[Label, ...]]] = {}
        for number in range(1, 8):
            label = Label(number, offset - MAJOR_OFFSETS[number - 1])
            own = _cost(label)
            if own is None:
                continue
            ways = [
                (cost + own + (_REPEATED if last == number else 0), (*way, label))
                for last, (cost, way) in best.items()
                if last <= number
            ]
            if ways:
                found[number] = min(ways, key=lambda way: way[0])
        best = found
    return tuple(map(str, min(best.values(), key=lambda way: way[0])[1]))
