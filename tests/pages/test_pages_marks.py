"""Marks on engraved pages: none lies on another, on the staff or on what hangs below it."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations
from pathlib import Path

import pytest

from tabforge.pages import PageOptions, engrave
from tabforge.pages.board import Board
from tabforge.pages.composing import Composed
from tabforge.pages.engraving import lay_out
from tabforge.pages.marks.bends import amount_text
from tabforge.pages.shapes import Box, Shape
from tabforge.pages.stripping import stripped
from tests.pages.drawn import STUDIES, engraver, numerals, points, score_of, sheets, study

EVERY = pytest.mark.parametrize("path", STUDIES, ids=lambda path: path.stem)


def laid(path: Path, width: float) -> Iterator[Composed]:
    score = study(path)[1]
    for part in stripped(score)[0]:
        yield from lay_out(engraver(), score, part, PageOptions(width=width)).composed


def collisions(composed: Composed) -> list[tuple[str, str]]:
    """Marks that lie on each other, and marks over TAB that lie on what the engraver drew for the staff."""
    found = [(one, other) for (one, a), (other, b) in combinations(composed.marks, 2) if _inner(a).meets(_inner(b))]
    return found + [(name, "staff") for name, box in composed.marks for other in composed.staff if _inner(box).meets(_inner(other))]


def _inner(box: Box) -> Box:
    """A box without its outermost hair, so that what only touches does not meet."""
    return Box(box.left + 6, box.top + 6, box.right - 6, box.bottom - 6)


@pytest.mark.parametrize("width", [180.0, 118.0], ids=["A4", "A5"])
@EVERY
def test_no_mark_lies_on_another_or_on_the_staff(path: Path, width: float) -> None:
    assert [each for composed in laid(path, width) for each in collisions(composed)] == []


def test_a_collision_would_be_found() -> None:
    """The check itself: a mark laid onto another and onto the staff."""
    one, other = Box(0, 0, 100, 100), Box(50, 50, 150, 150)
    composed = Composed("", frozenset(), one, (("tap", one), ("trill", other)), (Box(-10, -10, 20, 20),))
    assert collisions(composed) == [("tap", "trill"), ("tap", "staff")]


@EVERY
def test_nothing_is_cut_off(path: Path) -> None:
    """Every point of what is drawn is inside the picture."""
    for sheet in sheets(path):
        for system in sheet.systems:
            left, top, width, height = (float(each) for each in system.svg.partition('viewBox="')[2].partition('"')[0].split())
            found = list(points(system.svg))
            assert len(found) > 20
            outside = [(x, y) for x, y in found if not (left <= x <= left + width and top <= y <= top + height)]
            assert outside == []


def test_lanes_are_filled_from_the_strings_outward() -> None:
    board = Board(0, 1000, 0, 5000, 200)

    def lane(rank: int, left: float, right: float, *, below: bool = False) -> None:
        board.stack(rank, f"{rank}", left, right, 100, lambda level: Shape("", Box(left, level, right, level)), below=below)

    lane(5, 0, 900)
    lane(1, 100, 200)
    lane(1, 150, 250)  # has no room beside the one before
    lane(1, 600, 700)
    lane(3, 2000, 2100)
    lane(1, 0, 100, below=True)
    levels = [(name, shape.box.left, shape.box.bottom) for name, shape in board.settled()]
    first = levels[0][2]
    assert levels[:2] == [("1", 100, first), ("1", 600, first)]
    assert levels[2][:2] == ("1", 150)
    assert levels[2][2] < first - 100
    assert {name: bottom for name, _, bottom in levels[3:5]}["3"] == first, "nothing is near it: it stands at the strings"
    assert {name: bottom for name, _, bottom in levels[3:5]}["5"] < levels[2][2] - 100
    assert levels[5][2] > 1000


@pytest.mark.parametrize(("steps", "text"), [
    # What players write (common practice, no source): full is a whole step.
    ("1/4", "¼"), ("1/2", "½"), ("3/4", "¾"), ("1", "full"), ("5/4", "1¼"), ("3/2", "1½"), ("7/4", "1¾"), ("2", "2"),
])  # fmt: skip
def test_amounts_of_bends(steps: str, text: str) -> None:
    assert amount_text(Fraction(steps)) == text
    svg = engrave(score_of(f"riff\n  rhythm h h\n  frets 3:7 r\n  marks b{steps} .\n"), engraver=engraver())[0][0].systems[0].svg
    assert f">{text}</text>" in svg


def test_a_chain_of_slurs_has_a_letter_for_each() -> None:
    svg = engrave(score_of("riff\n  rhythm e e e e h\n  frets 3:5 7 8 7 r\n  marks h h p . .\n"), engraver=engraver())[0][0].systems[0].svg
    assert (svg.count(">H</text>"), svg.count(">P</text>")) == (2, 1)


def test_a_tie_over_a_line_shows_its_number_again_in_parentheses() -> None:
    text = "riff\n  signs    . | newline\n  rhythm   w | w\n  frets    3:7 | =\n"
    systems = engrave(score_of(text), engraver=engraver())[0][0].systems
    assert [[each.text for each in numerals(system.svg)] for system in systems] == [["7"], ["7"]]
    assert ['class="tab bracketed"' in system.svg for system in systems] == [False, True]


def test_what_reaches_over_a_line_is_told_again() -> None:
    text = "riff\n  signs    . | newline\n  rhythm   q*4 | q*4\n  frets    6:0*4 | 6:0*4\n  marks    pm -*3 | -*4\n"
    first, second = engrave(score_of(text), engraver=engraver())[0][0].systems
    assert ">P.M.</text>" in first.svg
    assert ">(P.M.)</text>" in second.svg
