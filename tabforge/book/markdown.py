"""Markdown as every binder reads it: CommonMark with tables, raw HTML shown as it is written, and where links may lead."""

from __future__ import annotations

from collections.abc import Container, Sequence
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from markdown_it.tree import SyntaxTreeNode

ABROAD: Final = ("http://", "https://", "mailto:")
"""How links out of the book begin."""

HOW_TO_INSTALL: Final = "A book needs markdown-it-py. Install with: pip install 'tabforge[book]'"


class MissingMarkdownError(Exception):
    """The library that reads Markdown is not installed; its text says how it comes."""


def parse(text: str) -> Sequence[SyntaxTreeNode]:
    """The blocks of a text, as markdown-it-py names them. Raises MissingMarkdownError."""
    try:
        from markdown_it import MarkdownIt  # noqa: PLC0415  # only where there is something to set
        from markdown_it.tree import SyntaxTreeNode  # noqa: PLC0415
    except ImportError as error:
        raise MissingMarkdownError(HOW_TO_INSTALL) from error
    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    return SyntaxTreeNode(reader.parse(text)).children


def link_target(node: SyntaxTreeNode, places: Container[str]) -> str | None:
    """Where a link leads: ``#`` and the name of one of ``places``, or an address out of the book; None if it may not lead there."""
    target = str(node.attrs.get("href", ""))
    if target[:1] == "#":
        return target if target[1:] in places else None
    return target if target.lower().startswith(ABROAD) else None
