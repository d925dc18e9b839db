"""The music on the cover of a book."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from tabforge.book.model import Book, Exercise, Made

if TYPE_CHECKING:
    from tabforge.pages import System


def cover_music(
    book: Book, exercises: Sequence[Exercise], made: Sequence[Made], beside: Mapping[str, bytes]
) -> tuple[System | None, tuple[str, ...]]:
    """The first line of music of the study that the cover shows, and what is told if it cannot be had."""
    if book.cover_study is None:
        return None, ()
    for exercise, each in zip(exercises, made, strict=True):
        if exercise.file == book.cover_study:
            for part in each.parts:
                if part.sheet is not None:
                    return part.sheet.systems[0], ()
    data = beside.get(book.cover_study)
    system = _engraved(book, book.cover_study, data) if data is not None else None
    if system is None:
        return None, (f"the cover has no music, for {book.cover_study} has none that can be engraved",)
    return system, ()


def _engraved(book: Book, name: str, data: bytes) -> System | None:
    from tabforge.pages import PageOptions, engrave  # noqa: PLC0415  # needs the extra
    from tabforge.pipeline import study_from  # noqa: PLC0415

    outcome = study_from(name, data)
    if outcome.score is None:
        return None
    sheets, _ = engrave(replace(outcome.score, sections=outcome.score.sections[:1]), PageOptions.on(book.paper))
    return sheets[0].systems[0] if sheets else None
