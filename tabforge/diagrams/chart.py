"""A chord grip as text: an upright chart, the nut on top, a line a fret, the fret numbers beside it."""

from __future__ import annotations

from typing import Final

from tabforge.diagrams.marks import MARKS
from tabforge.diagrams.model import Diagram

STRING: Final = "|"
BARRE: Final = "="
NUT: Final = "="
CUT: Final = "-"
"""What lies over the frets: the nut, or the fret above where the neck is cut."""


def lines(diagram: Diagram) -> list[str]:
    """The lines of a chart: names of the strings, open and silent ones (``x``), the nut, then a line a fret. All are of one length."""
    forms = [MARKS[dot.role].around(dot.label) for dot in diagram.dots]
    widest = max(len(form) for form in (*forms, *(string.name for string in diagram.strings)))
    column = widest + 2 - widest % 2  # odd marks stand in the middle of their string, and one column is between them
    numbers = range(len(diagram.strings), 0, -1)
    order = list(reversed(numbers)) if diagram.left_handed else list(numbers)
    found = [
        _line([diagram.strings[string - 1].name.center(column) for string in order], "", diagram),
        _line([_above(diagram, string).center(column) for string in order], "", diagram),
        _line([(NUT if diagram.first == 1 else CUT) * column for _ in order], "", diagram),
    ]
    for fret in range(diagram.first, diagram.last + 1):
        found.append(_line([_cell(diagram, string, fret, column) for string in order], str(fret), diagram))
    return found


def _line(cells: list[str], fret: str, diagram: Diagram) -> str:
    across = "".join(cells)
    return f"{across} {fret:<2}" if diagram.left_handed else f"{fret:>2} {across}"


def _above(diagram: Diagram, string: int) -> str:
    dot = diagram.beside(string)
    return MARKS[dot.role].around(dot.label) if dot else "x" if string in diagram.muted else ""


def _cell(diagram: Diagram, string: int, fret: int, column: int) -> str:
    dot = diagram.drawn_at(string, fret)
    barred = diagram.barred(string, fret)
    line = STRING if fret > diagram.strings[string - 1].begins else " "
    text = MARKS[dot.role].around(dot.label) if dot else BARRE if barred else line
    if not barred:
        return text.center(column)
    # The barre runs from the middle of its outer strings to that of the others.
    left, right = _ends(diagram, string, fret)
    before = (column - len(text)) // 2 + (column - len(text)) % 2 * (column % 2)
    after = column - len(text) - before
    return (BARRE if left else " ") * before + text + (BARRE if right else " ") * after


def _ends(diagram: Diagram, string: int, fret: int) -> tuple[bool, bool]:
    """Whether a barre goes on to the left and to the right of a string as it is drawn."""
    lower, higher = diagram.barred(string + 1, fret), diagram.barred(string - 1, fret)
    return (higher, lower) if diagram.left_handed else (lower, higher)
