"""What stands before the first chapter: cover, imprint, contents, cautions and the book's own front matter."""

from __future__ import annotations

from collections.abc import Container, Iterator
from typing import TYPE_CHECKING, Final

from tabforge.book.cautions import END, HEADING, LEAD, cautions_of
from tabforge.book.model import Book
from tabforge.book.pdf.album import Album
from tabforge.book.pdf.markdown import headed, typeset
from tabforge.book.pdf.script import Code, call, millimetres
from tabforge.book.wording import Day, breakable, short
from tabforge.pages.options import PAPERS

if TYPE_CHECKING:
    from tabforge.pages import System

COVER_WIDTH: Final = 0.76
"""Of the paper's width, for the music on the cover."""

_LONG_TITLE: Final = 45
"""Letters of a title that takes a smaller type."""

_PREFACE: Final = "About this book"
_NOTE: Final = "Numbers on TAB are frets. The signs used in this book are explained at its end."


def front(book: Book, day: Day | None, album: Album, music: System | None, places: Container[str], signs: bool) -> Iterator[Code]:
    """The calls that set it. ``signs``: the book has a glossary."""
    shown = album.picture(music, COVER_WIDTH * PAPERS[book.paper][0]) if music else None
    yield call(
        "cover",
        title_words=breakable(book.title),
        size=Code(f"{_title_size(book.title)}em"),
        subtitle=_said(book.subtitle),
        author=_said(book.author),
        edition=_said(book.edition),
        lines=[breakable(line) for line in book.cover],
        music=shown,
    )
    rows = [book.subtitle, book.author, book.edition, day.words if day else None]
    notes = [f"Licence: {book.licence}" if book.licence else None, _NOTE if signs else None]
    yield call("imprint", breakable(book.title), [_said(row) for row in rows if row], [_said(note) for note in notes if note])
    yield call("contents")
    if book.front_text.strip():
        yield from _preface(book.front_text, album, places)
    yield call("part", HEADING, HEADING, call("cautions", [breakable(each) for each in cautions_of(book)], LEAD, END))


def _preface(text: str, album: Album, places: Container[str]) -> Iterator[Code]:
    """The book's own front matter, under its first heading if it begins with one."""
    title, rest = headed(text)
    words = call("prose", millimetres(album.layout.measure), typeset(rest, above=1, places=places))
    name = title or _PREFACE
    yield call("part", breakable(name), short(name, album.layout.running), words)


def _title_size(title: str) -> float:
    """The size of the title on the cover, in sizes of the text."""
    return 3.3 if len(title) <= _LONG_TITLE else 2.4 if len(title) <= 2 * _LONG_TITLE else 1.6


def _said(words: str | None) -> str | None:
    return breakable(words) if words else None
