"""Where things stand on the pages of a PDF: by the boxes in its structure (ISO 32000-1, 14.8.5.4.3), and by what pdfium draws."""

from __future__ import annotations

import pypdfium2
import pytest
import typst

from tabforge.book.pdf.lightening import lighter
from tabforge.pages.options import MARGIN, PAPERS
from tests.book.pdf_book import bound, trial

POINT = 25.4 / 72
PAPER = pytest.mark.parametrize("paper", sorted(PAPERS))


@PAPER
def test_every_picture_has_words(paper: str) -> None:
    _, _, made = trial(paper)
    spoken = [figure.alt for figure in bound(paper).figures()]
    assert all(spoken)
    for part in (part for each in made for part in each.parts):
        for system in part.sheet.systems if part.sheet else ():
            assert system.label in spoken
        for picture in part.pictures:
            assert picture.label in spoken
    assert spoken.count("The sign of bend on staff and TAB") == 1


@PAPER
def test_no_picture_leaves_its_margins_or_meets_another(paper: str) -> None:
    width, height = (side / POINT for side in PAPERS[paper])
    edge = MARGIN / POINT - 0.1
    figures = [each for each in bound(paper).figures() if each.page > 0]
    assert len(figures) > 15
    for each in figures:
        assert each.left >= edge and each.right <= width - edge and each.bottom >= edge and each.top <= height - edge
    for number, one in enumerate(figures):
        for other in figures[number + 1 :]:
            apart = one.left >= other.right or other.left >= one.right or one.bottom >= other.top or other.bottom >= one.top
            assert one.page != other.page or apart, (one, other)


@PAPER
def test_nothing_is_drawn_off_the_page(paper: str) -> None:
    document = pypdfium2.PdfDocument(bound(paper).data)
    try:
        for page in list(document)[1:]:
            width, height = page.get_size()
            for drawn in page.get_objects():
                left, bottom, right, top = drawn.get_bounds()
                assert left >= 0 and bottom >= 0 and right <= width and top <= height
    finally:
        document.close()


@PAPER
def test_a_heading_stands_over_its_first_music(paper: str) -> None:
    figures = [each for each in bound(paper).figures() if "notation and TAB" in each.alt]
    assert figures
    for _, title, page in bound(paper).outline():
        if title[:1].isdigit() and "." in title.split()[0]:
            assert any(figure.page == page - 1 for figure in figures), title


def drawn(svg: str) -> bytes:
    """The grey values of a picture as the typesetter sets it and pdfium draws it."""
    main = b'#set page(width: 200mm, height: 60mm, margin: 1mm)\n#image("a.svg")'
    document = pypdfium2.PdfDocument(typst.compile({"main.typ": main, "a.svg": svg.encode()}, ignore_system_fonts=True, timestamp=0))
    try:
        return bytes(document[0].render(scale=1.5, grayscale=True).buffer)
    finally:
        document.close()


def test_lighter_pictures_look_the_same() -> None:
    for each in trial()[2]:
        svg = each.parts[0].sheet.systems[0].svg
        less = lighter(svg)
        assert less.count("<") < 0.75 * svg.count("<")
        one, other = drawn(svg), drawn(less)
        assert min(one) < 60 and max(abs(a - b) for a, b in zip(one, other, strict=True)) < 60  # lines that touch are blended once
    picture = trial()[2][0].parts[0].pictures[0].svg
    assert lighter(picture) == picture
