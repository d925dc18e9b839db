"""Bars of text as columns: repeat counts and groups written out."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from tabforge.limits import MAX_EVENTS
from tabforge.syntax.grammar import tokens


@dataclass(frozen=True, slots=True)
class Cells:
    """A bar's cells with repeats written out.

    ``texts`` holds one text a column; ``places`` the index among the bar's tokens each came from. ``trouble`` names what could
    not be written out: "unbalanced" (parentheses), "too many" (more than the event limit); ``texts`` is then cut short.
    """

    texts: tuple[str, ...]
    places: tuple[int, ...]
    trouble: str | None = None


def split_count(token: str) -> tuple[str, int]:
    """A token without its repeat count, and the count (1 if it has none)."""
    body, star, count = token.rpartition("*")
    return (body, int(count)) if star and count.isdigit() else (token, 1)


@lru_cache(maxsize=4096)
def cells(bar: str, plain: bool = False) -> Cells:
    """The columns of a bar. ``plain`` rows (words) know no repeats. Tuplet openings are for ``durations`` and are not looked at here."""
    parts = tokens(bar, plain)
    if plain or not ("*" in bar or "(" in bar or ")" in bar):
        return Cells(tuple(parts), tuple(range(len(parts))))
    stack: list[list[tuple[str, int]]] = [[]]
    trouble = None
    for index, part in enumerate(parts):
        if part.endswith("("):
            stack.append([])
            continue
        if part.startswith(")"):
            if len(stack) == 1:
                trouble = "unbalanced"
                break
            group, count = stack.pop(), split_count(part)[1]
        else:
            body, count = split_count(part)
            group = [(body, index)]
        if len(group) * count + len(stack[-1]) > MAX_EVENTS:
            trouble = "too many"
            break
        stack[-1].extend(group * count)
    if trouble is None and len(stack) > 1:
        trouble = "unbalanced"
    flat = [cell for level in stack for cell in level]
    return Cells(tuple(text for text, _ in flat), tuple(place for _, place in flat), trouble)
