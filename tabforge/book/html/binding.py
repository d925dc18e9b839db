"""A book as one page of HTML."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from tabforge.book.covers import cover_music
from tabforge.book.glossing import glossary as glosses_of
from tabforge.book.html.back import glossary, imprint, index
from tabforge.book.html.exercises import chapters
from tabforge.book.html.front import before, contents, cover
from tabforge.book.html.markup import element, together
from tabforge.book.html.names import MAIN
from tabforge.book.html.page import page
from tabforge.book.html.pictures import Gallery
from tabforge.book.indexing import indexes
from tabforge.book.model import Book, Exercise, Made
from tabforge.book.naming import titles_of

NOTHING: Final[Mapping[str, bytes]] = MappingProxyType({})


def bind(
    book: Book, exercises: Sequence[Exercise], made: Sequence[Made], beside: Mapping[str, bytes] = NOTHING
) -> tuple[bytes, tuple[str, ...]]:
    """The book as one HTML file, and what the user is told of what could not be had, in sentences. The same arguments give the same bytes.

    ``made`` are ``exercises`` made, one for one. ``beside`` has files of the book's folder by path: its ``cover_study``, unless that is an
    exercise too. The page asks the network for nothing and forbids itself to; its pictures take the colour of the text around them. It is
    read without its script, which only searches, remembers whether the page is dark, and lets one track sound at a time.

    Raises MissingMarkdownError, and MissingEngraverError if signs are to be drawn and the extra ``pages`` is not there.
    """
    gallery = Gallery()
    places = {each.id for each in exercises}
    music, told = cover_music(book, exercises, made, beside)
    glosses = glosses_of(exercises, made)
    found = indexes(exercises, made)
    titles = {exercise.id: title for exercise, title in zip(exercises, titles_of(made), strict=True)}
    has = {"signs": bool(glosses), "index": bool(found)}
    head = cover(book, music, gallery)
    inside = chapters(book, exercises, made, gallery, places)
    after = (glossary(glosses, gallery), index(found, lambda exercise: titles[exercise.id]))
    main = element("main", together((before(book, places), inside.markup, *after), "\n"), id=MAIN, tabindex="-1")
    sheet = element("div", contents(book, exercises, made, **has), main, class_="sheet")
    body = together((head, sheet, imprint(book)), "\n")
    return page(book, body, gallery.signs(), inside.steps, glossary=has["signs"], index=has["index"]), told
