"""A shape along the neck as text: a line a string, string 1 on top, as in tablature; the fret numbers beneath."""

from __future__ import annotations

from math import ceil
from typing import Final

from tabforge.diagrams.marks import MARKS
from tabforge.diagrams.model import Diagram

NARROWEST: Final = 2
"""Columns of the narrowest label: a fret of two digits stands under it."""

NUT: Final = "||"
CUT: Final = "|"
"""What the strings begin with: the nut, or a fret where the neck is cut."""


def lines(diagram: Diagram, width: int) -> list[str]:
    """The lines of a shape, of at most ``width`` columns: the frets that do not fit beside the others stand in a strip beneath them.

    ``width`` must leave room for one fret.
    """
    label = max([NARROWEST, *(len(MARKS[dot.role].around(dot.label)) for dot in diagram.dots)])
    name = max(len(string.name) for string in diagram.strings)
    beside = name + 1 + (label + 1 if diagram.has_beside else 0) + len(NUT)
    room = max(1, (width - beside) // (label + 3))
    frets = max(1, diagram.last - diagram.first + 1)  # open strings alone have none
    room = ceil(frets / ceil(frets / room))  # strips of like length
    found: list[str] = []
    for first in range(diagram.first, diagram.first + frets, room):
        if found:
            found.append("")
        found += _strip(diagram, first, min(first + room - 1, diagram.last), label, name)
    return found


def _strip(diagram: Diagram, first: int, last: int, label: int, name: int) -> list[str]:
    """The frets from one to another."""
    turned = diagram.left_handed
    begins = NUT if first == 1 else CUT
    opened = first == diagram.first and diagram.has_beside
    found = []
    for number, string in enumerate(diagram.strings, 1):
        cells = [_cell(diagram, number, fret, label) + "|" for fret in range(first, last + 1)]
        head = string.name.rjust(name) if turned else string.name.ljust(name)
        beside = [head, *([_open(diagram, number, label)] if opened else [])]
        if turned:
            found.append("".join("|" + cell[:-1] for cell in reversed(cells)) + begins + " ".join(reversed(beside)).rstrip())
        else:
            found.append(" ".join(beside) + begins + "".join(cells))
    numbers = [str(fret).center(label + 2) for fret in range(first, last + 1)]
    beside = [" " * name, *(["0".center(label)] if opened else [])]
    if turned:
        under = " " + " ".join(reversed(numbers)) + " " * len(begins) + " ".join(reversed(beside))
    else:
        under = " ".join(beside) + " " * len(begins) + " ".join(numbers)
    return [*found, under.rstrip()]


def _cell(diagram: Diagram, string: int, fret: int, label: int) -> str:
    dot = diagram.drawn_at(string, fret)
    line = "-" if fret > diagram.strings[string - 1].begins else " "
    return (MARKS[dot.role].around(dot.label) if dot else "").center(label + 2, line)


def _open(diagram: Diagram, string: int, label: int) -> str:
    dot = diagram.beside(string)
    return (MARKS[dot.role].around(dot.label) if dot else "x" if string in diagram.muted else "").center(label)
