"""The indexes at the end of a book: by scale, by technique, by level, by instrument and tuning."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from tabforge.book.model import LEVELS, Exercise, Facts, Made


@dataclass(frozen=True, slots=True)
class Entry:
    """A word with the exercises it stands for, in the order of the book."""

    word: str
    exercises: tuple[Exercise, ...]


@dataclass(frozen=True, slots=True)
class Index:
    """One index."""

    title: str
    entries: tuple[Entry, ...]


_Keys = Callable[[Facts], Iterable[str]]

_WORDS: Final[tuple[tuple[str, _Keys], ...]] = (
    ("Scales", lambda facts: facts.scales),
    ("Techniques", lambda facts: facts.techniques),
    ("Levels", lambda facts: (facts.level,) if facts.level else ()),
    ("Instruments and tunings", lambda facts: (f"{facts.instrument}: {facts.tuning}",)),
)


def indexes(exercises: Sequence[Exercise], made: Sequence[Made]) -> tuple[Index, ...]:
    """The indexes that have entries, words in alphabetical order, levels in order of difficulty."""
    found = []
    for title, words in _WORDS:
        gathered: dict[str, list[Exercise]] = {}
        for exercise, each in zip(exercises, made, strict=True):
            for word in words(each.facts) if each.facts else ():
                gathered.setdefault(word, []).append(exercise)
        if gathered:
            ordered = sorted(gathered, key=_order)
            found.append(Index(title, tuple(Entry(word, tuple(gathered[word])) for word in ordered)))
    return tuple(found)


def _order(word: str) -> tuple[int, str, str]:
    return (LEVELS.index(word) if word in LEVELS else 0, word.casefold(), word)
