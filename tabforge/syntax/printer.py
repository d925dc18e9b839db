"""The formatter: a document as text in its one canonical layout, comments included.

Settings stand in the order of the grammar's table, values in one column, blocks apart, rows of a system with their columns and bar
lines under one another. What a text can say is printed so that reading it gives the same document again.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, NamedTuple

from tabforge.syntax.blocks import is_name
from tabforge.syntax.document import Block, Study, System
from tabforge.syntax.grammar import SETTINGS
from tabforge.syntax.printcomments import with_comments
from tabforge.syntax.printrows import rows_of, system_lines
from tabforge.syntax.printvalues import printed

COLUMN: Final = 7
"""Values stand two spaces behind words of this length, or behind longer ones where there are any."""

INDENT: Final = "  "


class Item(NamedTuple):
    """A line, or (with no text) the beginning or the end of something that comments may belong to; ``at`` is its JSON pointer."""

    kind: str
    at: str
    indent: str
    text: str = ""


def print_study(study: Study) -> str:
    """A valid document as text."""
    return "".join(f"{line}\n" for line in with_comments(list(_study(study)), study.get("comments", [])))


def _study(study: Study) -> Iterator[Item]:
    yield Item("start", "", "")
    width = _width(study)
    yield from _settings(study, "", "", width)
    for index, block in enumerate(study["blocks"]):
        if index or any(word in study for word in SETTINGS):
            yield Item("blank", "", "")
        yield from _block(block, f"/blocks/{index}")
    yield Item("end", "", "")


def _width(part: Any, *words: str) -> int:
    return max((COLUMN, *(len(word) for word in SETTINGS if word in part), *(len(word) for word in words))) + 2


def _settings(part: Any, at: str, indent: str, width: int) -> Iterator[Item]:
    for word in SETTINGS:
        if word not in part or (word == "text" and part.get("kind") == "text"):
            continue
        if SETTINGS[word].many:
            for index, text in enumerate(part[word]):
                shown = indent or (INDENT if is_name(text) else "")  # at the margin it would be taken for a block
                yield Item("line", f"{at}/{word}/{index}", shown, f"{word:<{width}}{text}")
        else:
            yield Item("line", f"{at}/{word}", indent, f"{word:<{width}}{printed(word, part[word])}")


def _block(block: Block, at: str) -> Iterator[Item]:
    kind = block["kind"]
    yield Item("line", at, "", f'{kind} "{block["name"]}"' if "name" in block else kind)
    if kind == "text":
        for index, text in enumerate(block["lines"]):
            yield Item("line", f"{at}/lines/{index}", INDENT, text)
    else:
        systems = block.get("systems", [])
        words = {word for system in systems for part in (system, system.get("voice2", {})) for word in rows_of(part)}
        width = _width(block, *words)
        yield from _settings(block, at, INDENT, width)
        for index, system in enumerate(systems):
            if index:
                yield Item("blank", "", "")
            yield from _system(system, f"{at}/systems/{index}", width, index == 0)
    yield Item("end", at, INDENT)


def _system(system: System, at: str, width: int, first: bool) -> Iterator[Item]:
    yield Item("start", at, INDENT)
    lines = system_lines(system, first)
    for second, word, cells in lines:
        if not second:
            yield Item("line", f"{at}/{word}", INDENT, f"{word:<{width}}{cells}")
    if "voice2" in system:
        yield Item("line", f"{at}/voice2", INDENT, "voice 2")
        for second, word, cells in lines:
            if second:
                yield Item("line", f"{at}/voice2/{word}", INDENT, f"{word:<{width}}{cells}")
    yield Item("end", at, INDENT)
