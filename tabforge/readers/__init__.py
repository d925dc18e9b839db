"""Name to function: each reader turns a source into a document and its origins."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import PurePath
from typing import Final

from tabforge.readers.decoding import decode
from tabforge.readers.reading import Reading
from tabforge.source import Source


def _riff(source: Source) -> Reading:
    from tabforge.readers.riff import read  # noqa: PLC0415  # one run mostly reads one format

    return read(source)


def _json(source: Source) -> Reading:
    from tabforge.readers.json_reader import read  # noqa: PLC0415

    return read(source)


READERS: Final[dict[str, Callable[[Source], Reading]]] = {"riff": _riff, "json": _json}
"""A format's name → its reader. A reader takes any text whatever and raises nothing."""

SUFFIXES: Final[dict[str, str]] = {".riff": "riff", ".json": "json"}
"""A file's suffix → the reader it is for."""


def reader_for(filename: str) -> str | None:
    """The reader a file is for by its suffix, in any case; None if it does not say."""
    return SUFFIXES.get(PurePath(filename).suffix.lower())


__all__ = ["READERS", "SUFFIXES", "Reading", "decode", "reader_for"]
