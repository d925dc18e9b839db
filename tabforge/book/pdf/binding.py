"""A book as the typesetter's script, and that as PDF."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType
from typing import Final

from tabforge.book.covers import cover_music
from tabforge.book.glossing import glossary
from tabforge.book.indexing import indexes
from tabforge.book.model import Book, Exercise, Made
from tabforge.book.pdf.album import Album
from tabforge.book.pdf.back import glossary_of, index_of
from tabforge.book.pdf.body import all_of
from tabforge.book.pdf.faces import Faces, faces_of
from tabforge.book.pdf.front import front
from tabforge.book.pdf.layout import layout_of
from tabforge.book.pdf.program import STYLE, run, typefaces, unkept
from tabforge.book.pdf.script import Code, call, millimetres
from tabforge.book.wording import Day, day_of
from tabforge.pages.options import MARGIN

NOTHING: Final[Mapping[str, bytes]] = MappingProxyType({})

MAIN: Final = "main.typ"


def bind(
    book: Book, exercises: Sequence[Exercise], made: Sequence[Made], beside: Mapping[str, bytes] = NOTHING
) -> tuple[bytes, tuple[str, ...]]:
    """The book as PDF, and what the user is told of what could not be had, in sentences. The same arguments give the same bytes.

    ``made`` are ``exercises`` made, one for one. ``beside`` has files of the book's folder by path: its ``font_files``, and its
    ``cover_study`` unless that is an exercise too. The PDF is tagged, every picture with words; it keeps to PDF/UA-1 (ISO 14289-1), and if
    the book has a date to PDF/A-2a (ISO 19005-2) too, unless letters are in none of its fonts: then that is told.

    Raises MissingTypesetterError, and MissingEngraverError if signs are to be drawn and the extra ``pages`` is not there.
    """
    day = day_of(book.date) if book.date else None
    with typefaces({name: beside[name] for name in book.font_files if name in beside}) as fonts:
        faces, told = faces_of(book, fonts.families())
        files, more = script(book, exercises, made, beside, faces, day)
        pdf, why = run(files, fonts, dated=day is not None)
    told += more
    if book.date and day is None:
        told += (f"there is no day {book.date}: the book bears no date",)
    if why is not None:
        told += (unkept(why),)
    if book.language.partition("-")[0].lower() != "en":
        told += ("headings such as “Contents”, the cautions of every book and the names of keys and scales are in English",)
    return pdf, told


def script(
    book: Book, exercises: Sequence[Exercise], made: Sequence[Made], beside: Mapping[str, bytes], faces: Faces, day: Day | None
) -> tuple[dict[str, bytes], tuple[str, ...]]:
    """The files that the typesetter is given, its style apart, and what the user is told."""
    album = Album(layout_of(book.paper), faces.text)
    music, told = cover_music(book, exercises, made, beside)
    glosses = glossary(exercises, made)
    typed = any(part.tab for each in made for part in each.parts)

    def lines() -> Iterator[Code | str]:
        yield f'import "{STYLE}": *'
        yield f"show: {_setting(book, album, faces, day)}"
        yield from front(book, day, album, music, {each.id for each in exercises}, bool(glosses))
        yield from all_of(book.chapters, exercises, made, album)
        yield from glossary_of(glosses, album, typed=typed)
        yield from index_of(indexes(exercises, made), album)

    main = "".join(f"#{line}\n" for line in lines())
    return {MAIN: main.encode(), **album.files}, told


def _setting(book: Book, album: Album, faces: Faces, day: Day | None) -> Code:
    language, *rest = book.language.lower().split("-")
    region = next((each for each in rest if len(each) == 2 and each.isalpha()), None)
    layout = album.layout
    return call(
        "book.with",
        title=book.title,
        author=book.author,
        date=call("datetime", **day._asdict()) if day else None,
        keywords=["guitar", "exercises", "tablature"],
        lang=language,
        region=region,
        font=faces.text,
        headings=faces.headings,
        mono=faces.mono,
        paper=layout.paper,
        size=Code(f"{layout.size}pt"),
        margin=millimetres(MARGIN),
    )
