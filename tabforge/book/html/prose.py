"""Markdown as HTML."""

from __future__ import annotations

from collections.abc import Callable, Container, Iterable
from typing import TYPE_CHECKING, Final

from tabforge.book.html.markup import Markup, element, link, together, words
from tabforge.book.markdown import link_target, parse

if TYPE_CHECKING:
    from markdown_it.tree import SyntaxTreeNode as Node

_DEEPEST: Final = 6
"""Depth of headings in HTML."""


def prose(text: str, *, above: int, places: Container[str]) -> Markup:
    """A text under a heading of level ``above``; ``places`` are the ids that links may lead to. Headings go down one level at a time."""
    return _Setter(above, places).blocks(parse(text))


class _Setter:
    """Goes through a text. It remembers the level of the last heading, so that none is skipped, which readers aloud rely on."""

    def __init__(self, above: int, places: Container[str]) -> None:
        self._above = above
        self._level = above
        self._places = places

    def blocks(self, nodes: Iterable[Node]) -> Markup:
        return together(self._block(node) for node in nodes)

    def _block(self, node: Node) -> Markup:
        handler = _BLOCKS.get(node.type)
        return handler(self, node) if handler else element("pre", words(node.content), tabindex="0")

    def heading(self, node: Node) -> Markup:
        self._level = min(self._above + int(node.tag[1:]), self._level + 1, _DEEPEST)
        return element(f"h{self._level}", self.inner(node))

    def paragraph(self, node: Node) -> Markup:
        inside = self.inner(node)
        return inside if node.hidden else element("p", inside)  # of a tight list

    def listed(self, node: Node) -> Markup:
        items = [element("li", self.blocks(item.children)) for item in node.children]
        start = node.attrs.get("start")
        return element(node.tag, *items, start=str(start) if start is not None else None)

    def quoted(self, node: Node) -> Markup:
        return element("blockquote", self.blocks(node.children))

    def fenced(self, node: Node) -> Markup:
        return element("pre", words(node.content), class_="scroll")

    def rule(self, _: Node) -> Markup:
        return Markup("<hr>")

    def table(self, node: Node) -> Markup:
        head, *bodies = node.children
        rows = [element("tr", *(element("th", self.inner(cell), scope="col") for cell in row.children)) for row in head.children]
        parts = [element("thead", *rows)]
        for body in bodies:
            rows = [element("tr", *(element("td", self.inner(cell)) for cell in row.children)) for row in body.children]
            parts.append(element("tbody", *rows))
        return element("div", element("table", *parts), class_="scroll")

    def inner(self, node: Node) -> Markup:
        """What stands in a line."""
        return together(self._inline(child) for child in node.children)

    def _inline(self, node: Node) -> Markup:
        if node.type in ("inline", "em", "strong"):
            inside = self.inner(node)
            return inside if node.type == "inline" else element(node.type, inside)
        if node.type == "link":
            target = link_target(node, self._places)
            inside = self.inner(node)
            return link(target, inside, rel=None if target[0] == "#" else "noreferrer") if target else inside
        if node.type == "code_inline":
            return element("code", words(node.content))
        if node.type == "hardbreak":
            return Markup("<br>")
        return Markup("\n") if node.type == "softbreak" else words(node.content)


_BLOCKS: Final[dict[str, Callable[[_Setter, Node], Markup]]] = {
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
