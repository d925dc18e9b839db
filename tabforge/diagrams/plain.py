"""Diagrams as plain text: headings, what ``strip`` and ``chart`` draw, and what the forms mean. ASCII, where the titles are."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from typing import Final

from tabforge.diagrams import chart, strip
from tabforge.diagrams.marks import MARKS
from tabforge.diagrams.model import Diagram, Role

WIDTH: Final = 80
APART: Final = 4
"""Columns between charts that stand side by side."""


def text(diagrams: Sequence[Diagram], width: int = WIDTH) -> str:
    """Diagrams under one another, charts side by side as far as they fit; each line ends with a line break, none with spaces."""
    blocks: list[list[str]] = []
    row: list[list[str]] = []
    for diagram in diagrams:
        lines = _headed(diagram, width)
        if row and (not diagram.upright or _across([*row, lines]) > width):
            blocks.append(_beside(row))
            row = []
        row.append(lines)
        if not diagram.upright:
            blocks.append(_beside(row))
            row = []
    if row:
        blocks.append(_beside(row))
    key = legend(diagrams, width)
    if key:
        blocks.append(key)
    return "\n\n".join("\n".join(block) for block in blocks) + "\n"


def _headed(diagram: Diagram, width: int) -> list[str]:
    from textwrap import wrap  # noqa: PLC0415  # the formats that ask for a chart's frames need no headings

    indent = "   " if diagram.upright and not diagram.left_handed else ""
    head = [indent + line for each in (diagram.title, diagram.subtitle) for line in wrap(each, width - len(indent))]
    return [*head, "", *(chart.lines(diagram) if diagram.upright else strip.lines(diagram, width))]


def _across(row: list[list[str]]) -> int:
    return sum(max(map(len, block)) for block in row) + APART * (len(row) - 1)


def _beside(row: list[list[str]]) -> list[str]:
    """Blocks side by side, level at the top."""
    widths = [max(map(len, block)) for block in row]
    found = []
    for lines in zip_longest(*row, fillvalue=""):
        found.append((" " * APART).join(line.ljust(width) for line, width in zip(lines, widths, strict=True)).rstrip())
    return found


def legend(diagrams: Sequence[Diagram], width: int) -> list[str]:
    """What the forms mean that occur, in a line if it fits; nothing if all notes are plain ones."""
    used = {role for diagram in diagrams for role in diagram.roles}
    if used <= {Role.TONE}:
        return []
    said = [f"{MARKS[role].around('')} {role.value}" for role in Role if role in used]
    muted = ["x not played"] if any(diagram.muted for diagram in diagrams) else []
    line = "   ".join([*said, *muted])
    return [line] if len(line) <= width else [*said, *muted]
