"""From a file's bytes to its text."""

from __future__ import annotations

import codecs
import re
from typing import Final

from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import document as codes
from tabforge.limits import MAX_SOURCE_BYTES
from tabforge.source import Source, Span

_MIB: Final = 1024 * 1024

_OTHERS: Final = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
"""Byte order marks of other encodings (The Unicode Standard, section 23.8), the longer first."""

_PROBE: Final = 4096
"""Bytes looked at to tell UTF-16 without its mark: its Latin letters are zero bytes by half."""

_SAVE_AGAIN: Final = "save the file again with the encoding UTF-8"
_LONE_CR: Final = re.compile(r"\r(?!\n)")


def too_large() -> Diagnostic:
    """The finding that a source has more than MAX_SOURCE_BYTES."""
    headline = f"the file has more than {MAX_SOURCE_BYTES // _MIB} MiB, the most a study may have"
    return Diagnostic(code=codes.TOO_LARGE, headline=headline, span=Span(0, 0), help="split it into several files")


def decode(name: str, data: bytes) -> tuple[Source, tuple[Diagnostic, ...]]:
    """The text of a file in UTF-8, with or without a byte order mark; ``name`` is what the user is shown.

    If the diagnostics have an error, the source is only good to show it in: what is not UTF-8 is U+FFFD there, and a file that is
    too large is left out. Line breaks may be LF, CR LF or CR; a CR alone becomes LF, so that lines are counted alike everywhere.
    """
    if len(data) > MAX_SOURCE_BYTES:
        return Source(name, ""), (too_large(),)
    text = data.removeprefix(codecs.BOM_UTF8).decode("utf-8", "replace")
    source = Source(name, _LONE_CR.sub("\n", text))
    found = _another_encoding(data) or (_not_utf8(data, source) if "\ufffd" in text else None)
    return source, (found,) if found else ()


def _another_encoding(data: bytes) -> Diagnostic | None:
    other = next((encoding for mark, encoding in _OTHERS if data.startswith(mark)), None)
    probe = data[:_PROBE]
    if other is None and probe.count(0) * 4 > len(probe):
        other = "UTF-16"
    if other is None:
        return None
    return Diagnostic(
        code=codes.NOT_UTF8,
        headline=f"the file is stored in {other}, not in UTF-8",
        span=Span(0, 0),
        expected="UTF-8",
        help=_SAVE_AGAIN,
    )


def _not_utf8(data: bytes, source: Source) -> Diagnostic | None:
    try:
        data.decode("utf-8")
    except UnicodeDecodeError as error:
        offset = len(data[: error.start].removeprefix(codecs.BOM_UTF8).decode("utf-8"))
        line, column = source.position(offset)
        byte = data[error.start]
        meant = bytes([byte]).decode("cp1252", "ignore")
        return Diagnostic(
            code=codes.NOT_UTF8,
            headline=f"the byte {byte:02X} (hexadecimal) in line {line}, column {column} is not UTF-8",
            span=Span(offset, offset + 1),
            expected="UTF-8",
            help=_SAVE_AGAIN + (f"; in Windows-1252 this byte is “{meant}”" if meant and meant.isprintable() else ""),
        )
    return None
