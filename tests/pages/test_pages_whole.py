"""Engraved pages as files: well formed, the same bytes each time, complete in themselves, in words too."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from lxml import etree

from tabforge.model.score import BACKINGS, Backing
from tabforge.pages import PAPERS, Engraver, PageOptions, engrave, score_page, share_glyphs
from tabforge.pages.breaking import line_starts
from tabforge.source import Span
from tests.pages.drawn import ROOT, STUDIES, SVG, engraver, score_of, sheets, study

EVERY = pytest.mark.parametrize("path", STUDIES, ids=lambda path: path.stem)
EXAMPLE = ROOT / "examples" / "15-lighthouse-round.riff"


@EVERY
def test_every_picture_is_well_formed_and_needs_no_music_font(path: Path) -> None:
    """XML 1.0 by libxml2; private characters (U+E000 to U+F8FF, Unicode 15, 23.5) mean a music font."""
    for sheet in sheets(path):
        for system in sheet.systems:
            root = etree.fromstring(system.svg)
            assert re.search("[\ue000-\uf8ff]", system.svg) is None
            assert {each.get("id") for each in root.iter(f"{SVG}path") if each.get("id")} == {
                use.get("href")[1:] for use in root.iter(f"{SVG}use")
            }
            assert all(len(each.get("d")) > 5 for each in root.iter(f"{SVG}path"))
            ids = [each.get("id") for each in root.iter() if each.get("id")]
            assert len(ids) == len(set(ids))


@EVERY
def test_systems_follow_each_other_without_a_gap(path: Path) -> None:
    _, score = study(path)
    for sheet in sheets(path):
        at = 0
        for system in sheet.systems:
            assert system.first_bar == at
            at = system.last_bar + 1
            root = etree.fromstring(system.svg)
            assert (root.get("width"), root.get("height")) == ("180mm", f"{system.height:.3f}mm")
            _, _, width, height = map(float, root.get("viewBox").split())
            assert system.height / system.width == pytest.approx(height / width, rel=1e-3)
        assert at == len(score.sections[sheet.section].bars)


def test_the_flavours_differ_in_colour_alone() -> None:
    score = study(EXAMPLE)[1]
    printed = engrave(score, PageOptions(), engraver())[0][0].systems[0].svg
    web = engrave(score, PageOptions(flavour="web"), engraver())[0][0].systems[0].svg
    assert "currentColor" not in printed
    assert web.replace(' fill="currentColor"', "", 1).replace("currentColor", "#000") == printed


def test_a_picture_speaks() -> None:
    sheet = sheets(EXAMPLE)[0]
    assert sheet.label == "Lighthouse round, A natural minor, 4/4 time, quarter note = 76"
    root = etree.fromstring(sheet.systems[0].svg)
    assert root.get("role") == "img"
    assert root.get("aria-label") == root.find(f"{SVG}title").text == f"{sheet.label}, notation and TAB, bars 1 to 3"


def test_glyphs_are_kept_once() -> None:
    pictures = [system.svg for sheet in sheets(ROOT / "examples" / "01-lantern-climb.riff") for system in sheet.systems]
    signs, bare = share_glyphs(pictures)
    kept = {each.get("id") for each in etree.fromstring(signs).iter(f"{SVG}path")}
    assert len(bare) == len(pictures)
    for picture, whole in zip(bare, pictures, strict=True):
        root = etree.fromstring(picture)
        assert root.find(f"{SVG}defs") is None
        assert {use.get("href")[1:] for use in root.iter(f"{SVG}use")} <= kept
        assert len(picture) < len(whole)
    assert len(signs) + sum(map(len, bare)) < 0.9 * sum(map(len, pictures))


PROGRAM = """
import hashlib, pathlib, sys
from tabforge.pages import Engraver, PageOptions, engrave, score_page
from tabforge.pipeline import study_from
engraver = Engraver()
for name in sys.argv[1:]:
    score = study_from("a.riff", pathlib.Path(name).read_bytes()).score
    page = score_page(score, engrave(score, PageOptions(), engraver)[0], PageOptions(), engraver)
    print(hashlib.sha256(page.encode()).hexdigest())
"""


def test_the_bytes_are_the_same_in_every_process_and_order() -> None:
    paths = [str(EXAMPLE), str(ROOT / "examples" / "03-undertow.riff")]

    def run(order: list[str]) -> list[str]:
        done = subprocess.run([sys.executable, "-c", PROGRAM, *order], check=True, capture_output=True, text=True, cwd=ROOT, timeout=60)
        return done.stdout.split()

    assert run(paths) == run(paths[::-1])[::-1]


def test_an_engraver_may_be_used_again_or_be_new() -> None:
    score = study(EXAMPLE)[1]
    assert engrave(score, PageOptions(), Engraver()) == engrave(score, PageOptions(), engraver())


def test_titles_and_text_are_the_typesetters() -> None:
    score = study(EXAMPLE)[1]
    sheet = sheets(EXAMPLE)[0]
    assert (sheet.title, sheet.text) == (score.sections[0].title, score.sections[0].text)
    assert "Lighthouse round</text>" not in sheet.systems[0].svg
    page = score_page(score, sheets(EXAMPLE), PageOptions(), engraver())
    root = etree.fromstring(page)
    assert [each.text for each in root.findall(f"{SVG}text")] == [
        "Lighthouse Round", score.subtitle, score.author, "Lighthouse round", *score.sections[0].text,
    ]  # fmt: skip
    assert len(root.findall(f"{SVG}svg")) == len(sheet.systems)


def test_papers_are_the_standards() -> None:
    """ISO 216: A4 is 210 by 297 mm, A5 148 by 210. ANSI A, "letter", is 8.5 by 11 inches of 25.4 mm."""
    sizes = {"a4": (210, 297), "a5": (148, 210), "letter": (8.5 * 25.4, 11 * 25.4)}
    assert {name: pytest.approx(size) for name, size in sizes.items()} == PAPERS


@pytest.mark.parametrize(("widths", "hinted", "starts"), [
    ([4, 4, 4], set(), [2]),
    ([4, 4, 4], {1}, [1]),
    ([4, 4, 4], {1, 2}, [1, 2]),
    ([4, 4, 4], {0}, [2]),
    ([12, 4], set(), [1]),
])  # fmt: skip
def test_lines_begin_where_they_are_told_to_or_must(widths: list[float], hinted: set[int], starts: list[int]) -> None:
    assert list(line_starts(widths, range(len(widths)), hinted, 10)) == starts


def test_lines_begin_where_the_study_says() -> None:
    path = ROOT / "tests" / "cases" / "notation" / "new-lines.riff"
    wanted = {index for index, bar in enumerate(study(path)[1].sections[0].bars) if bar.new_line}
    assert wanted
    assert wanted <= {system.first_bar for system in sheets(path)[0].systems}


def test_a_rest_of_several_bars_is_one_sign() -> None:
    path = ROOT / "tests" / "cases" / "notation" / "multi-bar-rests.riff"
    sheet = sheets(path)[0]
    assert sheet.systems[-1].last_bar == len(study(path)[1].sections[0].bars) - 1
    assert len(sheet.systems) == 1


def test_chord_shapes_are_charts() -> None:
    score = study(EXAMPLE)[1]
    assert sheets(EXAMPLE)[0].systems[0].svg.count('class="mark chord-chart"') == 3
    bare = engrave(score, PageOptions(diagrams=False), engraver())[0][0].systems[0]
    assert 'class="mark chord-chart"' not in bare.svg
    assert bare.height < sheets(EXAMPLE)[0].systems[0].height


def test_a_study_without_music_has_no_sheets() -> None:
    assert engrave(score_of("title Nothing\n"), engraver=engraver())[0] == ()


def test_a_second_part_is_told_as_a_loss() -> None:
    score = study(EXAMPLE)[1]
    assert engrave(score, engraver=engraver())[1] == ()
    section = score.sections[0]
    span = Span(3, 9)
    backed = [Backing(kind=kind, bars=tuple(bar.voices[0] for bar in section.bars), shown=kind == "drone", span=span) for kind in BACKINGS]
    sheets_, losses = engrave(replace(score, sections=(replace(section, backing=tuple(backed)),)), engraver=engraver())
    assert [(loss.span, loss.what) for loss in losses] == [(span, "a second part (drone)")]
    assert sheets_ == sheets(EXAMPLE)


def test_threads_engrave_side_by_side() -> None:
    """An engraver each: their pages are those of one thread."""
    from concurrent.futures import ThreadPoolExecutor

    scores = [study(path)[1] for path in STUDIES[:6]]
    with ThreadPoolExecutor(3) as pool:
        assert list(pool.map(engrave, scores)) == [engrave(score, PageOptions(), engraver()) for score in scores]
