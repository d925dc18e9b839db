"""Books as PDF, read back by pypdf and pdfium: what is said of structure, tags and metadata is from ISO 32000-1 and ISO 14289-1."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest

from tabforge.book.cautions import CAUTIONS
from tabforge.book.pdf import bind
from tabforge.pages.options import PAPERS
from tests.book.bound import Bound
from tests.book.pdf_book import bound, trial

POINT = 25.4 / 72
PAPER = pytest.mark.parametrize("paper", sorted(PAPERS))


@PAPER
def test_pages_have_the_size_of_the_paper(paper: str) -> None:
    for page in bound(paper).reader.pages:
        size = float(page.mediabox.width) * POINT, float(page.mediabox.height) * POINT
        assert size == pytest.approx(PAPERS[paper], abs=0.1)


@PAPER
def test_bookmarks_are_the_books_parts_chapters_and_exercises(paper: str) -> None:
    book, exercises, made = trial(paper)
    names = dict(zip(exercises, (each.title for each in made), strict=True))
    names[exercises[0]], names[exercises[1]] = "Net Loft Ladder: B♭ lydian", "Net Loft Ladder: F lydian"  # one title, two keys
    expected = [(0, "Contents"), (0, "For whom this is"), (0, "Before you play")]
    for number, chapter in enumerate(book.chapters):
        expected.append((0, f"{number + 1} {chapter.title}"))
        expected += [(1, f"{each.number} {names[each]}") for each in exercises if each.chapter == number]
    expected += [(0, "The signs in this book"), (0, "Index")]
    assert [(depth, title) for depth, title, _ in bound(paper).outline()] == expected


@PAPER
def test_the_contents_tell_the_pages_where_things_are(paper: str) -> None:
    pages = {title: page for _, title, page in bound(paper).outline() if title != "Contents"}
    listed = bound(paper).contents()
    assert dict(listed) == pages and len(listed) == len(pages)
    for title, page in listed:
        assert title in bound(paper).texts[page - 1].replace("\n", " ")
        assert str(page) in bound(paper).texts[page - 1].splitlines()


@PAPER
def test_chapters_begin_on_a_page_of_their_own(paper: str) -> None:
    for depth, title, page in bound(paper).outline():
        if depth == 0:
            assert bound(paper).texts[page - 1].startswith(title)


def test_words_come_in_the_order_of_the_book() -> None:
    book = trial()[0]
    text = "\n".join(bound().texts[3:]).replace("\n", " ")
    order = ["For whom this is", "For those who mend nets", *CAUTIONS[:1], *book.cautions, "Climb slowly", "In the loft"]
    order += ["1.1 Net Loft Ladder", "Practice plan", "Day 2", "1.2 Net Loft Ladder", "1.3 Rope Walk"]
    order += ["Low water", "2.1 Tide Gauge", "2.2 Harbour Wall"]
    places = [text.index(each) for each in order]
    assert places == sorted(places)
    assert "<blink>raw</blink>" in text and "B♭ lydian" in text and "drop D (D2 A2 D3 G3 B3 E4)" in text


def test_every_caution_is_printed() -> None:
    """Warm-up, low stretches, pain and numbness, rest, volume, teacher and clinician: the usual cautions, common practice."""
    text = " ".join(" ".join(bound().texts).split())
    assert all(each in text for each in CAUTIONS)
    said = " ".join(CAUTIONS).lower()
    usual = ("warm up", "low on the neck", "pain", "tingling", "numbness", "rest", "volume low", "teacher", "clinician")
    assert all(word in said for word in usual)


def test_links_lead_somewhere() -> None:
    links = list(bound().links())
    titles = {page - 1 for _, _, page in bound().outline()}
    inside = [target for _, target in links if isinstance(target, int)]
    assert set(inside) <= titles and len(inside) > len(titles)
    assert [target for _, target in links if isinstance(target, str)] == ["https://harbour.example/shed"]
    pages = {title: page - 1 for _, title, page in bound().outline()}
    said = pages["1 Ropes and ladders"]
    assert [target for page, target in links if page == said and isinstance(target, int)] == [pages["1.1 Net Loft Ladder: B♭ lydian"]]


def test_index_and_glossary_name_the_pages_of_exercises() -> None:
    pages = {title: page for _, title, page in bound().outline()}
    index = bound().texts[pages["Index"] - 1]
    assert f"dorian {pages['2.1 Tide Gauge']}" in index.replace("\u2002", " ").replace("  ", " ")
    assert f"fluent {pages['1.3 Rope Walk']}" in index.replace("  ", " ")
    signs = " ".join(bound().texts[pages["The signs in this book"] - 1 : pages["Index"] - 1]).replace("\n", " ")
    for name in ("Hammer-on", "Pull-off", "Bend", "Vibrato", "Palm mute", "Dead note", "Staccato"):
        assert name in signs
    assert "Tremolo" not in signs


def test_the_structure_is_tagged_and_described() -> None:
    root, structure = bound().root, bound().structure()
    assert root["/MarkInfo"]["/Marked"] and root["/Lang"] == "en-GB" and root["/ViewerPreferences"]["/DisplayDocTitle"]
    xmp = root["/Metadata"].get_object().get_data().decode()
    assert "<pdfuaid:part>1<" in xmp and "<pdfaid:part>2<" in xmp and "<pdfaid:conformance>A<" in xmp
    levels = [int(each["/S"][2:]) for each in structure if each["/S"][1:].rstrip("123456") == "H"]
    assert levels[0] == 1 and all(later <= earlier + 1 for earlier, later in pairwise(levels))
    assert {"/Title", "/TOC", "/Table", "/TH", "/L", "/Link", "/Figure"} <= {each["/S"] for each in structure}


def test_fonts_are_embedded_and_of_one_family() -> None:
    fonts = bound().fonts()
    assert fonts and all(fonts.values())
    assert {name.partition("+")[2].partition("-")[0] for name in fonts} == {"LibertinusSerif", "DejaVuSansMono"}


def test_metadata_come_from_the_manifest() -> None:
    said = bound().reader.metadata
    assert said is not None
    assert (said.title, said.author) == ("The Net Loft", "The Lantern Bay Guitar Workshop")
    assert said.creation_date is not None and said.creation_date.date().isoformat() == "2026-11-01"
    undated, _ = bind(replace(trial()[0], date=None), *trial()[1:])
    plain = Bound(undated)
    assert plain.reader.metadata is not None and plain.reader.metadata.creation_date is None
    assert "<pdfuaid:part>1<" in plain.root["/Metadata"].get_object().get_data().decode()


def test_the_same_book_gives_the_same_bytes_in_any_process() -> None:
    program = "import hashlib\nfrom tests.book.pdf_book import bound\nprint(hashlib.sha256(bound().data).hexdigest())"
    top, environment = Path(__file__).parents[2], {**os.environ, "PYTHONHASHSEED": "7", "TZ": "Asia/Tokyo"}
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, cwd=top, env=environment, timeout=120)
    assert done.stdout.decode().strip() == hashlib.sha256(bound().data).hexdigest()
    assert bind(*trial())[0] == bound().data
