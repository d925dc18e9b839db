"""How explanations are laid out as text."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Sequence
from typing import Final

WIDTH: Final = 100
"""Characters in a line at most."""


HARD: Final = "\u00a0"
"""A space at which no line is broken."""


def kept(text: str) -> str:
    """A text that is not broken at the end of a line."""
    return text.replace(" ", HARD)


def wrapped(text: str, first: str, then: str) -> list[str]:
    """A text as lines; ``first`` and ``then`` stand before the first and the others."""
    lines = textwrap.wrap(text, WIDTH, initial_indent=first, subsequent_indent=then, break_on_hyphens=False, break_long_words=False)
    return [line.replace(HARD, " ") for line in lines]


def listed(words: Iterable[str], last: str = "and") -> str:
    """Words in a sentence: ``a, b and c``."""
    said = list(words)
    return f"{', '.join(said[:-1])} {last} {said[-1]}" if len(said) > 1 else "".join(said)


def counted(count: int) -> str:
    """How often: ``once``, ``twice``, ``3 times``."""
    return {1: "once", 2: "twice"}.get(count, f"{count} times")


def entries(rows: Iterable[tuple[str, str]], indent: int = 2, width: int = 13) -> list[str]:
    """Words with what is to be said of each beside it, long sayings wrapped; entries without a saying are left out.

    ``width`` is that of the words, or more if one is longer.
    """
    lines = []
    told = [(word, said) for word, said in rows if said]
    width = max([width, *(len(word) for word, _ in told)])
    for word, said in told:
        head = " " * indent + f"{word:<{width}}  "
        lines += wrapped(said, head, " " * len(head))
    return lines


def table(rows: Sequence[Sequence[str]], indent: int = 2, gap: int = 2) -> list[str]:
    """Rows in aligned columns; a column with nothing under its head is left out."""
    used = [at for at in range(len(rows[0])) if any(row[at] for row in rows[1:])]
    widths = [max(len(row[at]) for row in rows) for at in used]
    between = " " * gap
    return [
        (" " * indent + between.join(f"{row[at]:<{width}}" for at, width in zip(used, widths, strict=True))).rstrip() for row in rows
    ]
