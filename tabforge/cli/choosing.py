"""Choosing a block of a study by what the command line calls it."""

from __future__ import annotations

from tabforge.cli.exits import Exits
from tabforge.cli.screen import fail
from tabforge.diagnostics.core import nearest
from tabforge.model.score import Score, Section


def chosen(score: Score, name: str) -> Section:  # noqa: RET503  # fail does not return
    """The block of a name or a number; without one the only block there is."""
    sections = [section for section in score.sections if section.bars]
    names = [section.title or str(number) for number, section in enumerate(sections, 1)]
    if not sections:
        fail("This study has no block that plays.", Exits.USAGE)
    if not name and len(sections) == 1:
        return sections[0]
    listed = f"There are: {', '.join(names)}."
    if not name:
        fail(f"This study has {len(sections)} blocks: say which by its name or its number. {listed}", Exits.USAGE)
    for section, own in zip(sections, names, strict=True):
        if own.casefold() == name.casefold():
            return section
    if name.isdecimal() and 1 <= int(name) <= len(sections):
        return sections[int(name) - 1]
    near = nearest(name, names)
    fail(f"This study has no block {name!r}. {f'Did you mean {near!r}?' if near else listed}", Exits.USAGE)
