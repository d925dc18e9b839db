"""Which type a book is set in: the families the manifest names if they can be had, else the one that is always there."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from tabforge.book.model import Book

USUAL: Final = "Libertinus Serif"
"""The typesetter brings it along. Its letters are about as wide as those that music is measured with."""

MONO: Final = "DejaVu Sans Mono"
"""For ASCII tab; the typesetter brings it along."""

MONO_WIDTH: Final = 0.602
"""Width of its letters in parts of their size."""


@dataclass(frozen=True, slots=True)
class Faces:
    """Families of the book: words and the words in music, headings, letters of one width."""

    text: str = USUAL
    headings: str = USUAL
    mono: str = MONO


def faces_of(book: Book, families: Sequence[str]) -> tuple[Faces, tuple[str, ...]]:
    """The families to set a book in, of those that are there, and what the user is told about others."""
    known = {family.casefold(): family for family in families}
    told: list[str] = []

    def have(asked: str | None, instead: str, what: str) -> str:
        family = known.get(asked.casefold()) if asked else instead
        if family is None:
            others = _listed(name for name in families if "Math" not in name)
            told.append(f"the book has no type “{asked}” for its {what}: {instead} is taken instead. There are {others}.")
        return family or instead

    text = have(book.text_font, USUAL, "text")
    return Faces(text, have(book.heading_font, text, "headings")), tuple(told)


def _listed(names: Iterable[str]) -> str:
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
