"""Markdown (CommonMark, with tables) as the typesetter's content.

Raw HTML is shown as it is written. A link to ``#`` and an exercise's name leads to that exercise; one to the web or a mail address is a
link too, any other is only its words. Pictures are not fetched: their words stand for them.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Container, Iterator, Sequence
from typing import TYPE_CHECKING, Final

from tabforge.book.markdown import link_target, parse
from tabforge.book.pdf.script import Code, call, content

if TYPE_CHECKING:
    from markdown_it.tree import SyntaxTreeNode as Node

_DEEPEST: Final = 6
"""Depth of headings that are told apart."""

_HEAD: Final = re.compile(r"\s*#[ \t]+(\S[^\n]*?)[ \t#]*(?:\n|$)")


def headed(text: str) -> tuple[str | None, str]:
    """The words of the heading of the first level that a text begins with, and the rest; None if it begins otherwise."""
    found = _HEAD.match(text)
    return (found[1], text[found.end() :]) if found else (None, text)


def typeset(text: str, *, above: int, places: Container[str]) -> Code:
    """A text under a heading of level ``above``; ``places`` are the names that links may lead to. Headings go down one level at a time."""
    return _Setter(above, places).blocks(parse(text))


class _Setter:
    """Goes through a text. It remembers the level of the last heading, so that none is skipped, which readers aloud rely on."""

    def __init__(self, above: int, places: Container[str]) -> None:
        self._above = above
        self._level = above
        self._places = places

    def blocks(self, nodes: Sequence[Node]) -> Code:
        return content(self._block(node) for node in nodes)

    def _block(self, node: Node) -> Code:
        handler = _BLOCKS.get(node.type)
        return handler(self, node) if handler else call("raw", node.content, block=True)

    def heading(self, node: Node) -> Code:
        if not node.children or not node.children[0].content.strip():
            return content(())
        wanted = self._above + int(node.tag[1:])
        self._level = min(wanted, self._level + 1, _DEEPEST)
        return call("inner-heading", self._level, self.inner(node))

    def paragraph(self, node: Node) -> Code:
        return call("par", self.inner(node))

    def listed(self, node: Node) -> Code:
        items = [self.blocks(item.children) for item in node.children]
        if node.type == "bullet_list":
            return call("list", *items)
        return call("enum", *items, start=int(node.attrs.get("start", 1)))

    def quoted(self, node: Node) -> Code:
        return call("quote", self.blocks(node.children), block=True)

    def fenced(self, node: Node) -> Code:
        return call("raw", node.content.rstrip("\n"), block=True)

    def rule(self, _: Node) -> Code:
        return call("rule")

    def table(self, node: Node) -> Code:
        rows = [[self.inner(cell) for cell in row.children] for part in node.children for row in part.children]
        head, *body = rows
        return call("words-table", len(head), head, [cell for row in body for cell in row])

    def inner(self, node: Node) -> Code:
        """What stands in a line."""
        return content(piece for child in node.children for piece in self._inline(child))

    def _inline(self, node: Node) -> Iterator[Code | str]:
        if node.type == "inline":
            for child in node.children:
                yield from self._inline(child)
        elif node.type in _STYLES:
            yield call(_STYLES[node.type], self.inner(node))
        elif node.type == "link":
            yield self._link(node)
        elif node.type == "image":
            yield node.content
        elif node.type == "code_inline":
            yield call("raw", node.content)
        elif node.type == "hardbreak":
            yield call("linebreak")
        elif node.type == "softbreak":
            yield " "
        else:
            yield node.content

    def _link(self, node: Node) -> Code:
        target = link_target(node, self._places)
        if target is None:
            return self.inner(node)
        return call("link", call("label", f"ex-{target[1:]}") if target[0] == "#" else target, self.inner(node))


_STYLES: Final = {"em": "emph", "strong": "strong"}

_BLOCKS: Final[dict[str, Callable[[_Setter, Node], Code]]] = {
    "heading": _Setter.heading,
    "paragraph": _Setter.paragraph,
    "bullet_list": _Setter.listed,
    "ordered_list": _Setter.listed,
    "blockquote": _Setter.quoted,
    "fence": _Setter.fenced,
    "code_block": _Setter.fenced,
    "hr": _Setter.rule,
    "table": _Setter.table,
}
