"""What stands after the last chapter: the glossary of signs and the indexes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.book.glossing import Gloss, sign
from tabforge.book.indexing import Index
from tabforge.book.pdf.album import Album
from tabforge.book.pdf.script import Code, call
from tabforge.book.pdf.signs import drawing
from tabforge.pages import Engraver

GLOSSARY: Final = "The signs in this book"
INDEX: Final = "Index"


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
    yield call("part", GLOSSARY, call("glossary", album.layout.columns, entries))


def index_of(indexes: Sequence[Index], album: Album) -> Iterator[Code]:
    """The indexes, with the pages of each word."""
    if indexes:
        groups = [[each.title, [[entry.word, [one.id for one in entry.exercises]] for entry in each.entries]] for each in indexes]
        yield call("part", INDEX, call("index", album.layout.columns, groups))
