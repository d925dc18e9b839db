"""From a book to its exercises: one for each study, key and tuning, numbered, with a name that is safe everywhere."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import PurePosixPath
from typing import Final

from tabforge.book.model import Book, Exercise, StudyOptions

_OTHER: Final = re.compile(r"[^a-z0-9]+")
_LONGEST: Final = 60


def exercises_of(book: Book) -> tuple[Exercise, ...]:
    """Every exercise in the order of the book. Numbers are ``chapter.exercise``, both from 1.

    An id is the file's name with the key and the tuning that make it another exercise; of two alike the second ends in ``-2``.
    """
    made: list[Exercise] = []
    used: set[str] = set()
    for chapter_number, chapter in enumerate(book.chapters):
        number = 0
        for study in chapter.studies:
            for options in study.each:
                number += 1
                name = _free(_name(study.file, options), used)
                used.add(name)
                made.append(
                    Exercise(
                        id=name,
                        number=f"{chapter_number + 1}.{number}",
                        chapter=chapter_number,
                        file=study.file,
                        options=options,
                        title=study.title,
                        span=study.span,
                    )
                )
    return tuple(made)


def files_of(book: Book) -> tuple[str, ...]:
    """Every file of the book's folder that it is made of besides its manifests, in the order of their first mention."""

    def named() -> Iterator[str | None]:
        yield book.cover_study
        yield book.front
        yield from book.font_files
        for chapter in book.chapters:
            yield chapter.introduction
            for study in chapter.studies:
                yield study.file

    return tuple(dict.fromkeys(file for file in named() if file))


def _name(file: str, options: StudyOptions) -> str:
    parts = [PurePosixPath(file).stem, options.instrument, options.key and "in " + options.key.replace("#", " sharp")]
    tuning = options.tuning
    parts.append(" ".join(tuning) if isinstance(tuning, tuple) else tuning)
    return "-".join(safe_name(part) for part in parts if part) or "exercise"


def safe_name(words: str) -> str:
    """Words as a part of a file's name or an anchor: small letters of ASCII, digits and hyphens."""
    import unicodedata  # noqa: PLC0415  # a library of its own to load

    plain = unicodedata.normalize("NFKD", words.replace("#", " sharp")).encode("ascii", "ignore").decode().lower()
    return _OTHER.sub("-", plain).strip("-")[:_LONGEST].strip("-") or "x"


def _free(name: str, used: set[str]) -> str:
    free, number = name, 1
    while free in used:
        number += 1
        free = f"{name}-{number}"
    return free
