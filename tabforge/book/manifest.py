"""From a manifest to a Book: what it says, with the manifests it includes and the texts it names.

Pure but for ``fetch``, which the caller gives: it opens files in the book's folder.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import product
from pathlib import PurePosixPath
from typing import Any, Final

from tabforge.book.model import Book, BookStudy, Chapter, StudyOptions
from tabforge.book.parsed import Parsed, parse
from tabforge.diagnostics import Code, Diagnostic, nearest
from tabforge.diagnostics.catalogue import book as codes
from tabforge.diagnostics.core import only_errors, ordered
from tabforge.readers import SUFFIXES, decode
from tabforge.source import NOWHERE, Source
from tabforge.syntax.origins import Pointer, written

MANIFESTS: Final = (".toml", ".json")
"""How the name of a manifest ends."""

_TEXTS: Final = (".md",)
_FONTS: Final = (".ttf", ".otf", ".ttc", ".otc")


@dataclass(frozen=True, slots=True)
class Absent:
    """Why a file cannot be had, in a few words; ``outside``: it lies, or a link leads, out of the book's folder."""

    why: str
    outside: bool = False
    near: str | None = None


Fetch = Callable[[str], "bytes | Absent"]
"""Opens a file by its path from the book's folder."""

Findings = tuple[tuple[Source, tuple[Diagnostic, ...]], ...]
"""What was found in each source, those with nothing left out."""


@dataclass(slots=True)
class _Desk:
    """What is gathered while manifests are read."""

    fetch: Fetch
    found: dict[str, tuple[Source, list[Diagnostic]]] = field(default_factory=dict)
    seen: set[tuple[str, StudyOptions, str | None]] = field(default_factory=set)

    def tell(
        self, parsed: Parsed, code: Code, headline: str, pointer: Pointer, *, near: str | None = None, hint: str | None = None
    ) -> None:
        diagnostic = Diagnostic(
            code=code, headline=headline, span=parsed.origins.span(pointer), suggestion=near, help=hint, pointer=written(pointer)
        )
        self.found[parsed.source.name][1].append(diagnostic)

    def take(self, parsed: Parsed) -> None:
        self.found[parsed.source.name] = (parsed.source, list(parsed.diagnostics))


def read_book(name: str, data: bytes, fetch: Fetch) -> tuple[Book | None, Findings]:
    """The book a manifest describes, or None if anything in it is wrong; and what was found, by file, the manifest first.

    ``name`` is what the user is shown. Every file that the manifest names is fetched once, so that what is missing is told at its place;
    of studies the bytes are not kept.
    """
    desk = _Desk(fetch)
    parsed = parse(name, data)
    desk.take(parsed)
    book = _book(parsed, desk) if parsed.document is not None else None
    findings = tuple((source, tuple(ordered(found))) for source, found in desk.found.values() if found)
    return (None if any(only_errors(found) for _, found in findings) else book), findings


def _book(parsed: Parsed, desk: _Desk) -> Book:
    said = parsed.document or {}
    chapters = _chapters(parsed, desk, (PurePosixPath(parsed.source.name.replace("\\", "/")).name,))
    if not chapters and not any(only_errors(found) for _, found in desk.found.values()):
        desk.tell(parsed, codes.NO_EXERCISES, "this book has no exercises", ("title",), hint="add [[chapters]] with [[chapters.studies]]")
    fonts = said.get("fonts", {})
    for number, file in enumerate(fonts.get("files", ())):
        _have(parsed, desk, file, ("fonts", "files", number), _FONTS, "a font")
    if "cover-study" in said:
        _have(parsed, desk, said["cover-study"], ("cover-study",), tuple(SUFFIXES), "a study")
    return Book(
        title=said["title"],
        chapters=chapters,
        **{word: said.get(word) for word in ("subtitle", "author", "edition", "licence", "date", "front")},
        language=said.get("language", "en"),
        paper=said.get("paper", "a4"),
        text_font=fonts.get("text"),
        heading_font=fonts.get("headings"),
        font_files=tuple(fonts.get("files", ())),
        cover=tuple(said.get("cover", ())),
        cover_study=said.get("cover-study"),
        front_text=_text(parsed, desk, said.get("front"), ("front",)),
        cautions=tuple(said.get("cautions", ())),
    )


def _chapters(parsed: Parsed, desk: _Desk, above: tuple[str, ...]) -> tuple[Chapter, ...]:
    """A manifest's own chapters, then those of the ones it includes. ``above`` are the files that led here."""
    said = parsed.document or {}
    usual = _options(said.get("defaults", {}))
    chapters = []
    for number, each in enumerate(said.get("chapters", ())):
        at: Pointer = ("chapters", number)
        studies = (_study(parsed, desk, study, (*at, "studies", place), usual) for place, study in enumerate(each["studies"]))
        chapters.append(
            Chapter(
                title=each["title"],
                studies=tuple(studies),
                introduction=each.get("introduction"),
                text=_text(parsed, desk, each.get("introduction"), (*at, "introduction")),
                span=parsed.origins.span(at),
            )
        )
    for number, file in enumerate(said.get("include", ())):
        chapters += _included(parsed, desk, file, ("include", number), above)
    return tuple(chapters)


def _included(parsed: Parsed, desk: _Desk, file: str, at: Pointer, above: tuple[str, ...]) -> tuple[Chapter, ...]:
    path = str(PurePosixPath(file))
    if path in above:
        headline = f"{file} includes itself" if path == above[-1] else f"{file} is one of those that include this one"
        desk.tell(parsed, codes.CIRCLE, headline, at, hint="take it out of one of them")
        return ()
    if path in desk.found:
        desk.tell(parsed, codes.CIRCLE, f"{file} is included twice", at, hint="take one of the two out")
        return ()
    data = _have(parsed, desk, file, at, MANIFESTS, "a manifest")
    if data is None:
        return ()
    inner = parse(path, data)
    desk.take(inner)
    return _chapters(inner, desk, (*above, path)) if inner.document is not None else ()


def _study(parsed: Parsed, desk: _Desk, said: Mapping[str, Any], at: Pointer, usual: Mapping[str, Any]) -> BookStudy:
    file, title = said["file"], said.get("title")
    _have(parsed, desk, file, (*at, "file"), tuple(SUFFIXES), "a study")
    own = {**usual, **_options(said), "blocks": tuple(said.get("blocks", ()))}
    tunings = [tuple(each) if isinstance(each, list) else each for each in said.get("tunings", [None])]
    each = tuple(StudyOptions(key=key, tuning=tuning, **own) for key, tuning in product(said.get("keys", [None]), tunings))
    for options in each:
        if (file, options, title) in desk.seen:
            desk.tell(parsed, codes.SAME_EXERCISE, f"{file} stands in the book twice in the same way", (*at, "file"))
        desk.seen.add((file, options, title))
    return BookStudy(file=file, each=each, title=title, span=parsed.origins.span((*at, "file")))


def _options(said: Mapping[str, Any]) -> dict[str, Any]:
    words = ("instrument", "tempo", "hand", "level", "fingering", "tab", "diagrams", "plan", "tracks")
    return {word: said[word] for word in words if word in said}


def _text(parsed: Parsed, desk: _Desk, file: str | None, at: Pointer) -> str:
    data = _have(parsed, desk, file, at, _TEXTS, "a Markdown file") if file is not None else None
    if file is None or data is None:
        return ""
    source, found = decode(file, data)
    if found:
        desk.found.setdefault(file, (source, []))[1].extend(found)
    return source.text


def _have(parsed: Parsed, desk: _Desk, file: str, at: Pointer, endings: tuple[str, ...], kind: str) -> bytes | None:
    """The bytes of a file that the manifest names, or None once it has been told why they cannot be had."""
    path = PurePosixPath(file)
    if path.is_absolute() or ".." in path.parts or "\\" in file or ":" in path.parts[0]:
        hint = "write the path from the book's folder, with / between its steps"
        desk.tell(parsed, codes.OUTSIDE, f"{file} leaves the book's folder", at, hint=hint)
        return None
    if path.suffix.lower() not in endings:
        desk.tell(parsed, codes.NOT_A_STUDY, f"{file} is not {kind}", at, hint=f"it must be a file that ends in {' or '.join(endings)}")
        return None
    got = desk.fetch(str(path))
    if isinstance(got, Absent):
        headline = f"{file} leads out of the book's folder" if got.outside else f"{file}: {got.why}"
        desk.tell(parsed, codes.OUTSIDE if got.outside else codes.MISSING_FILE, headline, at, near=got.near)
        return None
    return got


def near_file(file: str, files: list[str]) -> str | None:
    """The file whose path is most like one that is not there."""
    return nearest(file, files)


__all__ = ["MANIFESTS", "NOWHERE", "Absent", "Fetch", "Findings", "near_file", "read_book"]
