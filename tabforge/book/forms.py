"""The forms a book is bound in: the home of their names."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from tabforge.book.model import Book, Exercise, Made


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form of a book. ``binder`` is the module whose function ``bind`` makes it.

    ``engraved``: it has pages; ``tracks``: it has practice tracks, where the book asks for them. ``needs`` are the libraries that its
    binder uses and whose version its bytes depend on.
    """

    name: str
    suffix: str
    summary: str
    binder: str
    engraved: bool = False
    tracks: bool = False
    needs: tuple[str, ...] = ()

    def bind(
        self, book: Book, exercises: Sequence[Exercise], made: Sequence[Made], beside: Mapping[str, bytes]
    ) -> tuple[bytes, tuple[str, ...]]:
        """The bound book, and what is to be told of it. ``beside`` has files of the book's folder by path: fonts and the cover's study.

        The same arguments give the same bytes.
        """
        binder = import_module(self.binder)
        if not self.engraved:
            return binder.bind(book, exercises, made), ()
        data, told = binder.bind(book, exercises, made, beside)
        return data, tuple(told)


FORMS: Final[dict[str, Form]] = {
    each.name: each
    for each in (
        Form(
            name="pdf", suffix=".pdf", summary="for print", binder="tabforge.book.pdf", engraved=True,
            needs=("markdown-it-py", "typst", "verovio"),
        ),
        Form(
            name="html", suffix=".html", summary="one file for the web", binder="tabforge.book.html", engraved=True, tracks=True,
            needs=("markdown-it-py", "verovio", "zlib"),
        ),
        Form(
            name="zip", suffix=".zip", summary="MusicXML, MIDI, tab and tracks of every exercise", binder="tabforge.book.bundle",
            tracks=True, needs=("zlib",),
        ),
    )
}  # fmt: skip
