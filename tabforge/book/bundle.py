"""A book as a zip of files for other programs: MusicXML, MIDI, tab and tracks of every exercise, in a folder for each chapter.

The format is PKWARE's APPNOTE 6.3; all times are the earliest it knows, so that the same book gives the same bytes.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from io import BytesIO
from typing import Any, Final

from tabforge.book.model import Book, Exercise, Made
from tabforge.book.plan import safe_name

_EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
_UNIX: Final = 3
_PACKED: Final = frozenset({".mp3"})
"""Files that do not get smaller."""


def bind(book: Book, exercises: Sequence[Exercise], made: Sequence[Made]) -> bytes:
    """The zip: ``index.txt`` to read, ``index.json`` for programs, and ``NN-chapter/ID.suffix`` for every file of every exercise."""
    from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo  # noqa: PLC0415  # only this form pays for the import

    buffer = BytesIO()
    with ZipFile(buffer, "w") as archive:
        for name, data in _files(book, exercises, made):
            entry = ZipInfo(name, _EARLIEST)
            entry.compress_type = ZIP_STORED if name.endswith(tuple(_PACKED)) else ZIP_DEFLATED
            entry.create_system = _UNIX
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, data)
    return buffer.getvalue()


def _files(book: Book, exercises: Sequence[Exercise], made: Sequence[Made]) -> Iterator[tuple[str, bytes]]:
    folders = folders_of(book)
    yield "index.txt", _words(book, exercises, made, folders).encode()
    yield "index.json", _index(book, exercises, made, folders)
    for exercise, each in zip(exercises, made, strict=True):
        for suffix, data in each.files.items():
            yield f"{folders[exercise.chapter]}/{exercise.id}{suffix}", data


def folders_of(book: Book) -> tuple[str, ...]:
    """The name of each chapter's folder: its number, so that they stand in order, and its title."""
    digits = max(2, len(str(len(book.chapters))))
    return tuple(f"{number:0{digits}}-{safe_name(chapter.title)}" for number, chapter in enumerate(book.chapters, 1))


def _words(book: Book, exercises: Sequence[Exercise], made: Sequence[Made], folders: Sequence[str]) -> str:
    lines = [line for line in (book.title, book.subtitle, book.author, book.edition, book.licence) if line]
    chapter = -1
    width = max((len(exercise.number) for exercise in exercises), default=0)
    for exercise, each in zip(exercises, made, strict=True):
        if exercise.chapter != chapter:
            chapter = exercise.chapter
            lines += ["", f"{chapter + 1}. {book.chapters[chapter].title}"]
        facts = each.facts
        about = [facts.key, facts.meter, facts.tempo, facts.instrument, facts.tuning, facts.level] if facts else []
        lines.append(f"  {exercise.number:<{width}}  {each.title}")
        lines.append(f"  {'':<{width}}  {', '.join(word for word in about if word)}")
        lines.append(f"  {'':<{width}}  {folders[chapter]}/{exercise.id} {' '.join(each.files)}")
    return "\n".join(lines) + "\n"


def _index(book: Book, exercises: Sequence[Exercise], made: Sequence[Made], folders: Sequence[str]) -> bytes:
    words = ("title", "subtitle", "author", "edition", "licence", "language", "date")
    listed: list[dict[str, Any]] = []
    for exercise, each in zip(exercises, made, strict=True):
        folder = folders[exercise.chapter]
        listed.append(
            {
                "id": exercise.id,
                "number": exercise.number,
                "chapter": book.chapters[exercise.chapter].title,
                "title": each.title,
                **(asdict(each.facts) if each.facts else {}),
                "files": {suffix.lstrip("."): f"{folder}/{exercise.id}{suffix}" for suffix in each.files},
            }
        )
    whole = {**{word: getattr(book, word) for word in words if getattr(book, word)}, "exercises": listed}
    return (json.dumps(whole, ensure_ascii=False, indent=1) + "\n").encode()
