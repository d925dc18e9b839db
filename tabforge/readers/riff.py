"""The reader of the riff language."""

from __future__ import annotations

from tabforge.readers.characters import cleaned
from tabforge.readers.reading import Reading
from tabforge.source import Source
from tabforge.syntax.parse import parse


def read(source: Source) -> Reading:
    """Read a text in the riff language. The parser recovers from every error, so there is always a document."""
    text, advice = cleaned(source)
    document, origins, found = parse(text)
    return Reading(document=document, origins=origins, diagnostics=(*advice, *found))
