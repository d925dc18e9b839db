"""Titles of exercises, told apart: a study in three keys is three exercises of one title."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Final

from tabforge.book.model import Facts, Made
from tabforge.book.wording import with_signs

_WAYS: Final[tuple[Callable[[Facts], str], ...]] = (
    lambda facts: with_signs(facts.key) if facts.key else "",
    lambda facts: facts.tuning.partition(" (")[0],
    lambda facts: facts.instrument.lower(),
)
"""What may tell two exercises of one title apart, the best first."""


def titles_of(made: Sequence[Made]) -> tuple[str, ...]:
    """The title of each exercise. Those that share one have their key added, or their tuning, or their instrument, if that differs."""
    alike: dict[str, list[Made]] = {}
    for each in made:
        alike.setdefault(each.title.casefold(), []).append(each)
    return tuple(_told_apart(each, alike[each.title.casefold()]) for each in made)


def _told_apart(made: Made, alike: Sequence[Made]) -> str:
    facts = [each.facts for each in alike if each.facts]
    if made.facts is None or len(alike) == 1:
        return made.title
    for way in _WAYS:
        if way(made.facts) and len({way(each) for each in facts}) > 1:
            return f"{made.title}: {way(made.facts)}"
    return made.title
