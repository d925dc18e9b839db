"""SVG: well-formed, said in words too, told apart by shape as by colour, and every mark where its string and fret are."""

from __future__ import annotations

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lxml import etree

from tabforge.diagrams.canvas import label_text
from tabforge.diagrams.grips import grip
from tabforge.diagrams.marks import BLACK, MARKS, WHITE
from tabforge.diagrams.model import Diagram, Role
from tabforge.diagrams.shapes import Frets
from tabforge.diagrams.svg import svg
from tabforge.fretboard.neck import Neck
from tabforge.theory.chords import parse_chord
from tests.diagrams.making import run, whole
from tests.fretboard.necks import GUITAR, UKULELE, necks

NAMESPACE = "{http://www.w3.org/2000/svg}"

# The eight colours as Okabe and Ito publish them (Color Universal Design, revised 2008; from memory).
OKABE_ITO = {"#000000", "#e69f00", "#56b4e9", "#009e73", "#f0e442", "#0072b2", "#d55e00", "#cc79a7"}


def luminance(colour: str) -> float:
    """Relative luminance (WCAG 2.1, definition)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio (WCAG 2.1, definition)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_measure_of_contrast_is_that_of_the_standard() -> None:
    # Black on white is 21:1, and #767676 is the lightest grey that has 4.5:1 on white (WCAG 2.1 and its usual examples).
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") > 4.5 > contrast("#777777", "#ffffff")


@pytest.mark.parametrize("role", Role)
def test_marks_stand_out_from_any_paper_and_labels_from_their_marks(role: Role) -> None:
    mark = MARKS[role]
    assert mark.colour in OKABE_ITO
    assert contrast(mark.colour, WHITE) >= 3
    assert contrast(mark.colour, BLACK) >= 3
    assert contrast(mark.ink, mark.colour) >= 4.5


def test_roles_are_told_apart_by_shape_by_colour_and_by_characters_each_alone() -> None:
    for one, other in combinations(MARKS.values(), 2):
        assert one.shape != other.shape
        assert one.colour != other.colour
        assert one.around("5") != other.around("5")


def tree(picture: str) -> etree._Element:
    return etree.fromstring(picture.encode())


SHAPES = {"circle": "circle", "rect": "square", "polygon": "polygon"}


def marks(picture: str) -> list[tuple[str, float, float, str]]:
    """Label, place and shape of every note of a picture of one diagram: a label belongs to the mark before it."""
    found = []
    for group in tree(picture).iter(f"{NAMESPACE}g"):
        children = list(group)
        for mark, label in pairwise(children):
            kind = etree.QName(mark).localname
            if kind in SHAPES and etree.QName(label).localname == "text" and label.get("font-weight") == "bold":
                found.append((label.text or "", float(label.get("x", "")), float(label.get("y", "")), kind))
    return found


@given(necks(), st.booleans())
def test_every_note_is_drawn_once_in_its_row_and_column(neck: Neck, left: bool) -> None:
    diagram = whole("Bb2 lydian", neck, left_handed=left)
    found = marks(svg([diagram]))
    assert sorted(label for label, *_ in found) == sorted(label_text(dot.label) for dot in diagram.dots)
    columns = sorted({x for _, x, _, _ in found}, reverse=left)
    frets = sorted({dot.fret for dot in diagram.dots})
    assert len(columns) == len(frets)
    for label, x, _, kind in found:
        fret = frets[columns.index(x)]
        near = [dot for dot in diagram.dots if dot.fret == fret and label_text(dot.label) == label]
        assert near
        assert (kind == "rect") == (near[0].role is Role.ROOT)


def test_a_string_is_a_row_and_string_1_is_on_top() -> None:
    diagram = whole("C4 major", UKULELE, Frets(0, 3))
    found = marks(svg([diagram]))
    by_height: dict[float, list[tuple[float, str]]] = {}
    for label, x, y, _ in found:
        row = next((each for each in by_height if abs(each - y) < 6), y)
        by_height.setdefault(row, []).append((x, label))
    rows = [" ".join(label for _, label in sorted(by_height[y])) for y in sorted(by_height)]
    assert rows == ["6 7 1", "3 4 5", "1 2", "5 6"]  # A B C, E F G, C D, G A


def test_left_handed_is_the_same_in_a_mirror() -> None:
    right, left = (whole("A2 minor pentatonic", GUITAR, Frets(0, 5), left_handed=turned) for turned in (False, True))
    width = max(x for _, x, _, _ in marks(svg([right]))) + min(x for _, x, _, _ in marks(svg([left])))
    assert sorted((label, round(width - x, 2), y, kind) for label, x, y, kind in marks(svg([left]))) == sorted(
        (label, round(x, 2), y, kind) for label, x, y, kind in marks(svg([right]))
    )


def chart(left: bool = False) -> Diagram:
    return grip((None, 3, 2, 0, 1, 0), GUITAR, chord=parse_chord("C"), left_handed=left)


def test_in_a_chart_the_lowest_string_stands_at_the_left_and_the_nut_is_on_top() -> None:
    for left in (False, True):
        found = marks(svg([chart(left)]))
        across = [label for label, *_ in sorted(found, key=lambda each: each[1], reverse=left)]
        assert across == ["1", "3", "5", "1", "3"]  # C E G C E from the fifth string
        assert [label for label, *_ in sorted(found, key=lambda each: each[2])] in (["5", "3", "1", "3", "1"], ["3", "5", "1", "3", "1"])


@pytest.mark.parametrize("bare", [False, True])
@pytest.mark.parametrize("made", [lambda: [whole("Bb2 lydian", GUITAR)], lambda: [chart(), chart()]])
def test_a_picture_says_what_it_shows(made, bare: bool) -> None:  # type: ignore[no-untyped-def]  # a maker of diagrams
    diagrams = made()
    picture = tree(svg(diagrams, bare))
    assert picture.tag == f"{NAMESPACE}svg"
    assert picture.get("role") == "img"
    assert [child.tag for child in picture][:2] == [f"{NAMESPACE}title", f"{NAMESPACE}desc"]
    assert picture[0].text == diagrams[0].title
    assert all(diagram.alt in (picture[1].text or "") for diagram in diagrams)
    assert (picture.get("color") is None) == bare  # lines take the page's own colour
    assert bool(picture.findall(f"{NAMESPACE}rect[@fill='#ffffff']")) != bare
    assert {line.get("stroke") for line in picture.iter(f"{NAMESPACE}line")} == {"currentColor"}
    assert picture.get("font-family") == "sans-serif"


def test_nothing_lies_outside_the_picture() -> None:
    for diagram in (whole("Bb2 lydian", GUITAR), whole("Bb2 lydian", GUITAR, left_handed=True), chart(), chart(left=True)):
        picture = tree(svg([diagram]))
        width = float(picture.get("width", ""))
        for line in picture.iter(f"{NAMESPACE}line"):
            assert all(0 <= float(line.get(end, "")) <= width for end in ("x1", "x2"))


def test_titles_are_escaped_and_the_bytes_are_always_the_same() -> None:
    diagram = run("C3 major", "position 5")
    odd = Diagram(title='A <&> "B"\x00', subtitle="x & y", strings=diagram.strings, first=4, last=8, dots=diagram.dots, alt="<b>")
    picture = tree(svg([odd]))
    assert picture[0].text == 'A <&> "B"'
    assert svg([odd]) == svg([odd])
