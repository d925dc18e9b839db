"""Running the typesetter: its script and pictures in, a PDF out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from typst import Fonts

HOW_TO_INSTALL: Final = "A PDF needs typst and markdown-it-py. Install with: pip install 'tabforge[book]'"

STYLE: Final = "style.typ"


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


def standards(day: date | None) -> tuple[tuple[str, ...], ...]:
    """The standards that a PDF is held to, the strictest first: accessibility (ISO 14289-1) and archiving (ISO 19005-2, which wants a
    date); if letters are in no font it can keep to neither.
    """
    return (("ua-1", "a-2a"), ("ua-1",), ()) if day else (("ua-1",), ())


def run(files: Mapping[str, bytes], fonts: Fonts, day: date | None) -> tuple[bytes, str | None]:
    """The PDF of ``files["main.typ"]``, and why it keeps to no standard, if so. Raises UnsetError.

    ``day`` is the date it bears; without one it bears none.
    """
    import typst  # noqa: PLC0415  # the extra's

    script = {**files, STYLE: (Path(__file__).parent / STYLE).read_bytes()}
    why = None
    for asked in standards(day):
        try:
            pdf = typst.compile(script, format="pdf", font_paths=fonts, pdf_standards=list(asked), timestamp=_noon(day))  # type: ignore[call-overload]
        except typst.TypstError as error:
            why = why or str(error)
            if not asked:
                raise UnsetError(f"{error}\n{getattr(error, 'diagnostic', '')}") from error
            continue
        return pdf, why if not asked else None
    raise AssertionError("the last try asks for nothing")


def _noon(day: date | None) -> int:
    """Seconds from 1970 to noon of a day; a fixed one where there is none, for nothing may hang on the clock."""
    return ((day or date(2000, 1, 1)).toordinal() - date(1970, 1, 1).toordinal()) * 86_400 + 43_200
