"""What is wrong with a bar of cells that does not fit its row."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tabforge.diagnostics import nearest
from tabforge.schema.naming import shown
from tabforge.syntax import grammar

MOST: Final = 20
"""Cells of one bar that are told."""

_OPENING: Final = re.compile(grammar.OPEN_TEXT)
_CLOSING: Final = re.compile(grammar.CLOSE_TEXT)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A fault of a bar; ``token`` is the number of the token it lies in, or None for the bar as a whole, ``length`` that token's."""

    headline: str
    expected: str
    token: int | None = None
    length: int = 0
    suggestion: str | None = None
    help: str | None = None


def faults(word: str, bar: str) -> Iterator[Fault]:
    """The faults of a bar of the row ``word`` that does not match its pattern: its wrong cells, or else how they are set out."""
    row = grammar.ROWS[word]
    if row.per_bar:
        yield Fault(headline=f"{shown(bar)} cannot stand in the row of {word}", expected=row.says, suggestion=nearest(bar, row.samples))
        return
    tokens = grammar.tokens(bar, row.plain)
    wrong = [index for index, token in enumerate(tokens) if not _fits(word, token)]
    for index in wrong[:MOST]:
        token = tokens[index]
        yield Fault(
            headline=f"{shown(token)} cannot stand in the row of {word}",
            expected=row.says,
            token=index,
            length=len(token),
            suggestion=nearest(token, row.samples),
            help=_help(token),
        )
    if not wrong:
        mended = grammar.joined(tokens)
        yield Fault(
            headline=f"this bar of {word} is not set out as cells with one space between them",
            expected="cells, or groups such as (1 3 5)*2, with one space between and none at the ends",
            suggestion=mended if re.search(grammar.bar_pattern(word), mended) else None,
        )


def _fits(word: str, token: str) -> bool:
    if not grammar.ROWS[word].plain:
        if _OPENING.fullmatch(token):
            return word == "rhythm" or token == "("
        if _CLOSING.fullmatch(token):
            return True
    return grammar.cell_regex(word).fullmatch(token) is not None


def _help(token: str) -> str | None:
    if token.startswith("%"):
        return "% is the bar before again and stands alone in its bar; for several bars, write several"
    if "|" in token:
        return "each bar is a text of its own; bar lines that are not plain go into “barlines”"
    return None
