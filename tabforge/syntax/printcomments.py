"""Comments put back where they stood: before, beside and at the end of what they belong to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Protocol

from tabforge.syntax.document import Comment
from tabforge.syntax.lines import comment_start


class Item(Protocol):
    """A line (``kind`` "line"), a blank line ("blank"), or the "start" or "end" of something; see ``printer.Item``."""

    @property
    def kind(self) -> str: ...  # noqa: D102
    @property
    def at(self) -> str: ...  # noqa: D102
    @property
    def indent(self) -> str: ...  # noqa: D102
    @property
    def text(self) -> str: ...  # noqa: D102


def with_comments(items: Sequence[Item], comments: Iterable[Comment]) -> list[str]:
    """The lines of a text. A comment whose place is not printed goes to the nearest place around it that is: none is lost."""
    before: dict[str, list[str]] = {item.at: [] for item in items if item.kind in ("line", "start")}
    beside: dict[str, list[str]] = {item.at: [] for item in items if item.kind == "line"}
    end: dict[str, list[str]] = {item.at: [] for item in items if item.kind == "end"}
    for comment in comments:
        at, place = comment["at"], comment["place"]
        texts = [text.rstrip() for text in comment["text"].splitlines()] or [""]
        if place == "beside" and at in beside and not beside[at] and len(texts) == 1:
            beside[at] += texts
            continue
        shelf = end if place == "end" else before
        while at not in shelf:
            at = at.rpartition("/")[0]
        shelf[at] += texts
    lines: list[str] = []
    for item in items:
        if item.kind == "blank":
            lines.append("")
        elif item.kind == "end":
            if not item.at and end[""] and lines:
                lines.append("")
            lines += [_comment(item.indent, text) for text in end[item.at]]
        else:
            lines += [_comment(item.indent, text) for text in before.pop(item.at, ())]
            if item.kind == "line":
                lines += _line(item, beside[item.at])
    return lines


def _line(item: Item, beside: Sequence[str]) -> list[str]:
    """A line with the comment beside it; before it, where quotation marks would swallow the comment."""
    line = (item.indent + item.text).rstrip()
    if not beside:
        return [line]
    comment = _comment("  ", beside[0])
    whole = line + comment
    if comment_start(whole, 0, len(whole)) != len(line) + 2:
        return [_comment(item.indent, beside[0]), line]
    return [whole]


def _comment(indent: str, text: str) -> str:
    return f"{indent}// {text}".rstrip()
