"""What stands after the last chapter: the glossary of signs and the indexes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.book.glossing import Gloss, sign
from tabforge.book.indexing import Index
from tabforge.book.pdf.album import Album
from tabforge.book.pdf.script import Code, call
from tabforge.book.signs import drawing
from tabforge.pages import Engraver

GLOSSARY: Final = "The signs in this book"
INDEX: Final = "Index"

_HEAD: Final = 3
_COLUMN: Final = 40
"""Lines that the heading of an index takes, and those of a page's column, with some to spare for entries of two lines."""


def glossary_of(glosses: Sequence[Gloss], album: Album, *, typed: bool) -> Iterator[Code]:
    """The signs used, each drawn. ``typed``: their letters in ASCII tab are told too."""
    if not glosses:
        return
    engraver = Engraver()
    entries = [
        call(
            "gloss",
            album.picture(drawing(each.technique, album.family, engraver)),
            each.technique.name.capitalize(),
            sign(each.technique) if typed else None,
            each.meaning,
            [exercise.id for exercise in each.exercises],
        )
        for each in glosses
    ]
    yield call("part", GLOSSARY, GLOSSARY, call("glossary", album.layout.columns, entries))


def index_of(indexes: Sequence[Index], album: Album) -> Iterator[Code]:
    """The indexes, with the pages of each word."""
    if indexes:
        groups = [[each.title, [[entry.word, [one.id for one in entry.exercises]] for entry in each.entries]] for each in indexes]
        yield call("part", INDEX, INDEX, call("index", album.layout.columns, _turn(indexes, album.layout.columns), groups))


def _turn(indexes: Sequence[Index], columns: int) -> int | None:
    """How many of some indexes stand in the first of two columns, so that both are about as long; None if they fill more than a page."""
    lines = [len(each.entries) + _HEAD for each in indexes]
    ways = [(max(sum(lines[:turn]), sum(lines[turn:])), turn) for turn in range(1, len(lines))]
    if columns == 1 or not ways or min(ways)[0] > _COLUMN:
        return None
    return min(ways)[1]
