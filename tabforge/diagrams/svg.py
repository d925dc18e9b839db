"""Diagrams as an SVG picture: self-contained, the same bytes for the same diagrams, with a title and a description for screen readers.

Lines and words are drawn in the text's own colour. The picture brings its white paper and black ink along, so that it can be read on a page
of any colour; a ``bare`` one, to be put into a page as it stands, has no paper and takes the page's own colour.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.diagrams.canvas import RADIUS, cross, escape, line, note, number, words
from tabforge.diagrams.grid import BESIDE, MARGIN, NAMES, Grid
from tabforge.diagrams.marks import BLACK, MARKS, WHITE
from tabforge.diagrams.model import Diagram, Role

TITLE: Final = 17
SUBTITLE: Final = 12
NAME: Final = 12
"""Font sizes."""

_PER_ROW: Final = 4
"""Charts that stand side by side."""

_LETTER: Final = 0.6
"""Width of a letter against its size, as far as one knows without the font."""


class Picture:
    """Elements in a box."""

    __slots__ = ("elements", "height", "width")

    def __init__(self, width: float, height: float, elements: list[str]) -> None:
        self.width = width
        self.height = height
        self.elements = elements


def svg(diagrams: Sequence[Diagram], bare: bool = False) -> str:
    """One picture of one or more diagrams: charts side by side, shapes under one another, and what the marks mean."""
    rows: list[list[Picture]] = []
    row: list[Picture] = []
    for diagram in diagrams:
        if not diagram.upright or len(row) == _PER_ROW:
            row = []
        if not row:
            rows.append(row)
        row.append(_picture(diagram))
        if not diagram.upright:
            row = []
    key = _legend(diagrams)
    if key is not None:
        rows.append([key])
    width = max(sum(each.width for each in row) for row in rows)
    height, body = 0.0, []
    for row in rows:
        x = 0.0
        for each in row:
            body += [f'<g transform="translate({number(x)} {number(height)})">', *each.elements, "</g>"]
            x += each.width
        height += max(each.height for each in row)
    size = f'width="{number(width)}" height="{number(height)}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 {number(width)} {number(height)}" role="img"'
    ink = "" if bare else f' color="{BLACK}"'
    paper = [] if bare else [f'<rect {size} fill="{WHITE}"/>']
    title = ", ".join(dict.fromkeys(diagram.title for diagram in diagrams))
    alt = " ".join(diagram.alt for diagram in diagrams)
    said = [f"<title>{escape(title)}</title>", f"<desc>{escape(alt)}</desc>"]
    return "\n".join([f'{head}{ink} font-family="sans-serif">', *said, *paper, *body, "</svg>", ""])


def _picture(diagram: Diagram) -> Picture:
    """A diagram under its title."""
    grid = Grid(diagram)
    top = MARGIN + TITLE + (SUBTITLE + 6 if diagram.subtitle else 0) + (0 if diagram.upright else 6)
    headings = [words(diagram.title, MARGIN, MARGIN + TITLE - 3, TITLE, anchor="start", bold=True)]
    if diagram.subtitle:
        headings.append(words(diagram.subtitle, MARGIN, MARGIN + TITLE + SUBTITLE + 4, SUBTITLE, anchor="start"))
    wide = max(len(diagram.title) * TITLE * 1.05, len(diagram.subtitle) * SUBTITLE) * _LETTER + 2 * MARGIN
    drawn = [f'<g transform="translate(0 {number(top)})">', *_neck(grid), *_names(grid), *_notes(grid), "</g>"]
    return Picture(max(wide, grid.width), top + grid.height, [*headings, *drawn])


def _neck(grid: Grid) -> Iterator[str]:
    """Strings and frets. A short string and the frets before it are not drawn where it is not."""
    diagram = grid.diagram
    begins = [string.begins for string in diagram.strings]
    for string, begin in enumerate(begins, 1):
        yield line(*grid.point(grid.wire(begin) if begin else 0, string), *grid.point(grid.length, string), 1.2)
        if diagram.first <= begin < diagram.last:
            x, y = grid.point(grid.wire(begin), string)
            yield line(x, y - 7, x, y + 7, 4) if not grid.upright else line(x - 7, y, x + 7, y, 4)
    for fret in range(diagram.first - 1, diagram.last + 1):
        thick = 5 if fret == 0 else 1.2
        run: list[int] = []
        for string in range(1, len(begins) + 2):
            if string <= len(begins) and (begins[string - 1] <= fret):
                run.append(string)
                continue
            if len(run) > 1:
                yield line(*grid.point(grid.wire(fret), run[0]), *grid.point(grid.wire(fret), run[-1]), thick)
            run = []


def _names(grid: Grid) -> Iterator[str]:
    """Names of the strings before the neck, fret numbers beside it."""
    diagram = grid.diagram
    for number_, string in enumerate(diagram.strings, 1):
        x, y = grid.point(NAMES / 2 - grid.before, number_)
        yield words(string.name, x, y + 0.36 * NAME, NAME)
    outer = len(diagram.strings) if grid.upright else len(diagram.strings) + 0.95
    for fret in range(diagram.first, diagram.last + 1):
        x, y = grid.point(grid.fret(fret), outer)
        if grid.upright:
            x += 24 if diagram.left_handed else -24
        yield words(str(fret), x, y + 0.36 * NAME, NAME)


def _notes(grid: Grid) -> Iterator[str]:
    diagram = grid.diagram
    aside = -BESIDE / 2
    for barre in diagram.barres:
        ends = (*grid.point(grid.fret(barre.fret), barre.low), *grid.point(grid.fret(barre.fret), barre.high))
        yield line(*ends, RADIUS)
    for string in range(1, len(diagram.strings) + 1):
        opened = diagram.beside(string)
        if opened is not None:
            yield note(MARKS[opened.role], opened.label, *grid.point(aside, string), hollow=True)
        elif string in diagram.muted:
            yield cross(*grid.point(aside, string))
        for fret in range(diagram.first, diagram.last + 1):
            dot = diagram.drawn_at(string, fret)
            if dot is not None:
                yield note(MARKS[dot.role], dot.label, *grid.point(grid.fret(fret), string), hollow=dot.fret == 0)


def _legend(diagrams: Sequence[Diagram]) -> Picture | None:
    """What the marks mean that occur; None if all notes are plain ones."""
    used = {role for diagram in diagrams for role in diagram.roles}
    if used <= {Role.TONE}:
        return None
    x, y, drawn = float(MARGIN + RADIUS), RADIUS + 4.0, list[str]()
    for role in (role for role in Role if role in used):
        drawn.append(note(MARKS[role], "", x, y))
        drawn.append(words(role.value, x + RADIUS + 7, y + 0.36 * NAME, NAME, anchor="start"))
        x += 2 * RADIUS + 24 + len(role.value) * NAME * _LETTER
    return Picture(x, y + RADIUS + MARGIN, drawn)
