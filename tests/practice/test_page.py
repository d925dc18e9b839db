"""The page: well-formed, whole in itself, readable by everybody. Contrast is computed as WCAG 2.1 does (formula from memory)."""

from __future__ import annotations

import re
from itertools import pairwise
from pathlib import Path
from typing import Final

import pytest
from lxml import etree, html

from tabforge.practice import PlanOptions, plan_of, plan_page
from tabforge.practice.sheet import CSS, DARK, LIGHT, PRINT
from tests.practice.planning import EXAMPLES, example, plain, score_of

XHTML: Final = "{http://www.w3.org/1999/xhtml}"
VOID: Final = {"meta"}


def page(**asked: object) -> str:
    return plan_page(plan_of(plain(), PlanOptions(**asked)))  # type: ignore[arg-type]  # a test's own words


def tree(text: str) -> etree._Element:
    return etree.fromstring(text.encode())


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_page_is_whole_and_in_order(path: Path) -> None:
    text = plan_page(plan_of(example(path)))
    root = tree(text)
    assert html.document_fromstring(text.encode()).get("lang") == "en"
    assert not root.xpath("//*[@src or @href]")
    assert not re.search(r"url\(|@import|https?:(?!//www\.w3\.org/1999/xhtml)", text)
    assert {element.tag for element in root.iter() if isinstance(element.tag, str)}.isdisjoint({f"{XHTML}script", f"{XHTML}link"})
    assert set(re.findall(r"<(\w+)[^>]*/>", text)) <= VOID  # as HTML, other elements need an end tag
    levels = [int(each.tag[-1]) for each in root.iter() if re.fullmatch(rf"{XHTML}h[1-6]", str(each.tag))]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after - before <= 1 for before, after in pairwise(levels))


def test_tables_have_heads_and_whole_rows() -> None:
    root = tree(page())
    for table in root.iter(f"{XHTML}table"):
        rows = list(table.iter(f"{XHTML}tr"))
        assert {len(row) for row in rows} == {4}
        assert all(cell.get("scope") == "col" for cell in rows[0])
        assert all([cell.get("scope") for cell in row if cell.tag == f"{XHTML}th"] == ["row"] for row in rows[1:])


def test_each_rung_has_a_box_for_each_time() -> None:
    for times, boxes in ((1, 1), (3, 3), (6, 6), (7, 1)):
        root = tree(page(times=times))
        rungs = root.xpath("//*[@class='rung']")
        assert rungs
        assert {len(rung) for rung in rungs} == {boxes}
        assert all(box.get("aria-hidden") == "true" for rung in rungs for box in rung)


def test_the_minutes_on_the_page_add_up() -> None:
    for table in tree(page(minutes=60)).iter(f"{XHTML}table"):
        *parts, whole = [int(cell.text or "") for cell in table.xpath(".//*[local-name()='td'][@class='min']")]
        assert sum(parts) == whole == 60


def luminance(colour: str) -> float:
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.03928 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@pytest.mark.parametrize("sheet", [LIGHT, DARK, PRINT])
def test_words_stand_out_from_the_paper(sheet: dict[str, str]) -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast(sheet["ink"], sheet["paper"]) >= 7
    assert all(contrast(sheet[name], sheet["paper"]) >= 4.5 for name in ("soft", "mark"))


def test_the_style_uses_no_colour_but_those_and_no_size_of_paper() -> None:
    rules = re.sub(r"--\w+: #[0-9a-f]{6};", "", CSS)
    assert not re.search(r"#[0-9a-f]{3,8}\b", rules)
    assert all(each in CSS for each in ("prefers-color-scheme: dark", "@media print"))
    assert "size:" not in CSS.split("@page", 1)[1].split("}", 1)[0]


def test_what_a_teacher_writes_is_not_markup() -> None:
    score = score_of('title A & <b>B</b>\nscale C3 major\ntempo 90\nriff "R & <i>S</i>"\n rhythm q q q q\n degrees 1 2 3 4\n')
    text = plan_page(plan_of(score))
    root = tree(text)
    assert root.findtext(f".//{XHTML}h1") == "A & <b>B</b>"
    assert "<i>" not in text
