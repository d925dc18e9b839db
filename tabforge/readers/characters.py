"""Characters that no text may hold, taken out before a text is read."""

from __future__ import annotations

import re
from collections import Counter
from typing import Final

from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import document as codes
from tabforge.source import Source, Span
from tabforge.syntax.grammar import UNSEEN_TEXT

UNSEEN: Final = re.compile(f"[{UNSEEN_TEXT}]")


def cleaned(source: Source) -> tuple[Source, tuple[Diagnostic, ...]]:
    """The source with each unseen character read as a space, so that offsets stay, and a piece of advice for each kind of them."""
    first = UNSEEN.search(source.text)
    if first is None:
        return source, ()
    counted: Counter[str] = Counter()
    places: dict[str, int] = {}
    for found in UNSEEN.finditer(source.text, first.start()):
        counted[found[0]] += 1
        places.setdefault(found[0], found.start())
    advice = tuple(_advice(character, at, counted[character] - 1) for character, at in places.items())
    return Source(source.name, UNSEEN.sub(" ", source.text)), advice


def _advice(character: str, at: int, more: int) -> Diagnostic:
    help = "take it out"
    if more:
        help = f"take it out, here and in {more:,} more {'place' if more == 1 else 'places'}"
    return Diagnostic(
        code=codes.UNSEEN_CHARACTER,
        headline=f"a character that cannot be seen (U+{ord(character):04X}) is read as a space",
        span=Span(at, at + 1),
        help=help,
    )
