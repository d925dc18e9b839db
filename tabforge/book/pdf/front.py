"""What stands before the first chapter: cover, imprint, contents, cautions and the book's own front matter."""

from __future__ import annotations

from collections.abc import Container, Iterator, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from tabforge.book.cautions import HEADING, cautions_of
from tabforge.book.model import Book, Exercise, Made
from tabforge.book.pdf.album import Album
from tabforge.book.pdf.markdown import headed, typeset
from tabforge.book.pdf.script import Code, call, millimetres
from tabforge.book.pdf.wording import Day, breakable, short
from tabforge.pages.options import PAPERS

if TYPE_CHECKING:
    from tabforge.pages import System

COVER_WIDTH: Final = 0.76
"""Of the paper's width, for the music on the cover."""

_LONG_TITLE: Final = 45
"""Letters of a title that takes a smaller type."""

_LEAD: Final = "Playing is work for hands and ears. What follows is common sense among teachers of fretted instruments."
_END: Final = "This is common practice, no medical advice: a teacher who hears you, or a clinician, knows better than any book."
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
    yield call("part", HEADING, HEADING, call("cautions", [breakable(each) for each in cautions_of(book)], _LEAD, _END))


def _preface(text: str, album: Album, places: Container[str]) -> Iterator[Code]:
    """The book's own front matter, under its first heading if it begins with one."""
    title, rest = headed(text)
    words = call("prose", millimetres(album.layout.measure), typeset(rest, above=1, places=places))
    name = title or _PREFACE
    yield call("part", breakable(name), short(name, album.layout.running), words)


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


def _title_size(title: str) -> float:
    """The size of the title on the cover, in sizes of the text."""
    return 3.3 if len(title) <= _LONG_TITLE else 2.4 if len(title) <= 2 * _LONG_TITLE else 1.6


def _said(words: str | None) -> str | None:
    return breakable(words) if words else None
