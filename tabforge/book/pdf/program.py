"""Running the typesetter: its script and pictures in, a PDF out."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from typst import Fonts

HOW_TO_INSTALL: Final = "A PDF needs typst and markdown-it-py. Install with: pip install 'tabforge[book]'"

STYLE: Final = "style.typ"


_NO_LETTER: Final = re.compile(r'the text `"(.+)"` could not be displayed')


class MissingTypesetterError(Exception):
    """The typesetting program is not installed; its text says how it comes."""


class UnsetError(Exception):
    """The typesetter has refused the script: a bug of ours. The text is what it says."""


@contextmanager
def typefaces(files: Mapping[str, bytes]) -> Iterator[Fonts]:
    """The fonts that the typesetter brings along, and some given as the bytes of their files, by name; none of the system's.

    Raises MissingTypesetterError. The program reads fonts from a folder and in no other way, so they are laid into one that is soon gone.
    """
    try:
        import typst  # noqa: PLC0415  # the extra's
    except ImportError as error:
        raise MissingTypesetterError(HOW_TO_INSTALL) from error
    if not files:
        yield typst.Fonts(include_system_fonts=False)
        return
    from tempfile import TemporaryDirectory  # noqa: PLC0415  # not cheap, and seldom needed

    with TemporaryDirectory(prefix="tabforge-") as folder:
        for number, name in enumerate(sorted(files)):
            (Path(folder) / f"{number}{Path(name).suffix.lower()}").write_bytes(files[name])
        yield typst.Fonts(include_system_fonts=False, font_paths=[folder])


def standards(dated: bool) -> tuple[tuple[str, ...], ...]:
    """The standards that a PDF is held to, the strictest first: accessibility (ISO 14289-1) and archiving (ISO 19005-2, which wants a
    date); if letters are in no font it can keep to neither.
    """
    return (("ua-1", "a-2a"), ("ua-1",), ()) if dated else (("ua-1",), ())


def run(files: Mapping[str, bytes], fonts: Fonts, dated: bool) -> tuple[bytes, str | None]:
    """The PDF of ``files["main.typ"]``, and why it keeps to no standard, if so. Raises UnsetError.

    ``dated``: the script gives the document its date; without one it bears none, for nothing may hang on the clock.
    """
    import typst  # noqa: PLC0415  # the extra's

    script = {**files, STYLE: (Path(__file__).parent / STYLE).read_bytes()}
    why = None
    for asked in standards(dated):
        try:
            pdf = typst.compile(script, format="pdf", font_paths=fonts, pdf_standards=list(asked), timestamp=0)  # type: ignore[call-overload]
        except typst.TypstError as error:
            why = why or str(error)
            if not asked:
                raise UnsetError(f"{error}\n{getattr(error, 'diagnostic', '')}") from error
            continue
        return pdf, why if not asked else None
    raise AssertionError("the last try asks for nothing")


def unkept(why: str) -> str:
    """What the user is told when a PDF keeps to no standard. ``why`` is what the typesetter says."""
    found = _NO_LETTER.search(why)
    if found:
        return (
            f"“{found[1]}” is in none of the book's fonts: an empty box stands in its place, and the PDF does not keep to the standard for "
            "accessible documents (PDF/UA-1). Take it out, or name a font that has it under [fonts] files"
        )
    return f"the PDF does not keep to the standard for accessible documents (PDF/UA-1): {why}"
