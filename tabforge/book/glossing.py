"""The signs that a book uses, in a student's words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from tabforge.book.model import Exercise, Made
from tabforge.model.techniques import TECHNIQUES, Amount, Technique

_TYPED: Final = "; - "
"""What follows tells how the technique is typed."""


@dataclass(frozen=True, slots=True)
class Gloss:
    """A technique with what it means and the exercises that use it."""

    technique: Technique
    meaning: str
    exercises: tuple[Exercise, ...]


def glossary(exercises: Sequence[Exercise], made: Sequence[Made]) -> tuple[Gloss, ...]:
    """The techniques that some exercises use, in the order of TECHNIQUES."""
    used: dict[str, list[Exercise]] = {}
    for exercise, each in zip(exercises, made, strict=True):
        for name in each.facts.techniques if each.facts else ():
            used.setdefault(name, []).append(exercise)
    return tuple(Gloss(each, meaning(each), tuple(used[each.name])) for each in TECHNIQUES if each.name in used)


def meaning(technique: Technique) -> str:
    """What a technique means, as a sentence; its amount is called n."""
    said = technique.meaning.partition(_TYPED)[0].replace("#", "n")
    said = said[0].upper() + said[1:]
    if technique.amount is Amount.NONE or "n is" in said:
        return f"{said}."
    return f"{said}; n is the number written with the sign." if " n " in f" {said} " else f"{said}."


def sign(technique: Technique) -> str:
    """Its sign in ASCII tab; a number is called n."""
    return technique.sign.replace("#", "n")
