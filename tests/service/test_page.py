"""The live page in a real browser: it follows the file, compiles anew what is switched, points to places, gives files, tells of errors."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

from tabforge.pipeline import study_from
from tabforge.service.layouts import layout_of
from tests.proof.xsd import problems
from tests.service.stand import CLIMB, HOSTILE, Stand, serving_fixture, stand_fixture, tab_numbers, until  # noqa: F401  # fixtures

PAGE = Path(__file__).parents[2] / "tabforge" / "service" / "page"


def test_the_sheet_follows_the_file(stand: Stand) -> None:
    page = stand.show("climb.riff", CLIMB).page
    page.wait_for_selector("h1:text-is('Little climb')")
    page.wait_for_selector(".system svg")
    before = tab_numbers(page)
    page.evaluate("document.querySelector('.part:nth-child(2) .system svg').kept = true")
    stand.write("climb.riff", CLIMB.replace("Little climb", "Longer climb").replace("| 7 6 5", "| 7 8 5"))
    page.wait_for_selector("h1:text-is('Longer climb')")
    after = tab_numbers(page)
    assert [number for number, (a, b) in enumerate(zip(before, after, strict=True)) if a != b] == [7], "the eighth note is another"
    assert page.evaluate("document.querySelector('.part:nth-child(2) .system svg').kept"), "what looks as it did is not painted anew"


def test_another_key_moves_the_numbers_by_the_interval(stand: Stand) -> None:
    """A2 to C3 is three half steps; a half step is a fret (common practice, no source)."""
    closed = CLIMB.replace("degrees  1 2 3 4 5 6 | 7 6 5", "degrees  2@5 3@5 4@5 5@4 6@4 7@4 | 8@3 7@4 6@4")
    closed = closed[: closed.index('riff "Down"')]
    page = stand.show("key.riff", closed).page
    page.wait_for_selector(".system svg")
    before = tab_numbers(page)
    assert len(before) == 9
    page.select_option("#switch-key", "C")
    page.wait_for_selector("#facts:has-text('C dorian')")
    assert tab_numbers(page) == [(string, fret + 3) for string, fret in before]
    page.click("#switch-back")
    page.wait_for_selector("#facts:has-text('A dorian')")
    assert tab_numbers(page) == before


def test_tuning_tempo_and_layout_are_compiled_anew(stand: Stand) -> None:
    run = 'title Run\nscale A2 dorian\ntempo 120\n\nrun "Up"\n  layout position 5\n  path up\n  rhythm e\n'
    page = stand.show("run.riff", run).page
    page.wait_for_selector(".system svg")
    before = tab_numbers(page)
    page.select_option("#switch-layout", "3 per string from string 6")
    until(page, lambda: tab_numbers(page) != before)
    strings = [string for string, _ in tab_numbers(page)]
    assert strings[:18] == [string for string in (6, 5, 4, 3, 2, 1) for _ in range(3)]
    page.fill("#switch-tempo", "60")
    page.press("#switch-tempo", "Enter")
    page.keyboard.press("Tab")
    until(page, lambda: bool(page.evaluate("tabforge.state.view.performance.bars[0].end === 4")))  # 4/4 at 60: four seconds
    page.select_option("#switch-tuning", "drop D")
    page.wait_for_selector("#facts:has-text('D2 A2 D3 G3 B3 E4')")


def test_a_note_shows_its_line_and_a_remark_its_note(stand: Stand) -> None:
    seen = stand.show("note.riff", CLIMB.replace(" | . . .\n", " | . . v\n"))
    page = seen.page
    page.wait_for_selector(".system svg")
    page.locator("#music .tab").nth(4).click()
    assert page.locator(".line.at").get_attribute("data-line") == "7"
    assert page.locator(".line.at mark").inner_text() == "5"
    assert "Line 7" in page.inner_text("#status")
    open_string = CLIMB.replace("| 3 1", "| 3 _5").replace("h h\n", "h h\n  marks    . . . . | . v\n")
    stand.write("note.riff", open_string)
    page.locator(".remark:has-text('A510')").click()  # vibrato on an open string
    assert page.locator(".line.at mark").inner_text() == "v"
    assert page.locator(".ring.advice").count() >= 1


def test_an_error_keeps_the_last_sheet_until_it_is_mended(stand: Stand) -> None:
    seen = stand.show("wrong.riff", CLIMB)
    page = seen.page
    page.wait_for_selector(".system svg")
    before = tab_numbers(page)
    stand.write("wrong.riff", CLIMB.replace("7 6 5\n", "7 6 zz\n"))
    page.wait_for_selector("#kept:has-text('last sheet')")
    assert tab_numbers(page) == before
    assert page.locator("main.stale").count() == 1
    expected = [each.headline for each in study_from("x.riff", CLIMB.replace("7 6 5\n", "7 6 zz\n").encode()).diagnostics]
    assert expected
    assert all(headline in page.inner_text("#remarks") for headline in expected)
    assert "Line 7" in page.inner_text("#alert")
    stand.write("wrong.riff", CLIMB.replace("7 6 5\n", "7 6 4\n"))
    page.wait_for_selector("#kept", state="hidden")
    assert tab_numbers(page) != before
    assert page.locator("main.stale").count() == 0
    (stand.folder / "wrong.riff").unlink()
    page.wait_for_selector("#kept:has-text('gone')")


def test_files_are_given(stand: Stand, tmp_path: Path) -> None:
    page = stand.show("take.riff", CLIMB).page
    page.wait_for_selector(".system svg")
    with page.expect_download() as given:
        page.click("[data-format='musicxml']")
    assert given.value.suggested_filename == "take.musicxml"
    given.value.save_as(tmp_path / "take.musicxml")
    assert problems((tmp_path / "take.musicxml").read_bytes()) == []  # the W3C's schema of MusicXML 4.0
    names = page.evaluate("[...document.querySelectorAll('[data-format]')].map((each) => each.dataset.format)")
    assert {"musicxml", "mxl", "midi", "tab", "svg"} <= set(names)


def test_a_blank_sheet_is_checked_while_one_types(stand: Stand) -> None:
    page = stand.show("blank.riff", CLIMB).page
    page.click("#scratch-open")
    page.wait_for_selector("h1:text-is('First try')")
    assert page.locator(".remark").count() == 0, "the first example is without blame"
    page.fill("#draft", page.input_value("#draft").replace("rhythm   e\n", "rhythm   ö\n").replace("First try", "🎸 First"))
    remark = page.locator(".remark.error").first
    remark.click()
    assert page.evaluate("draft.value.slice(draft.selectionStart, draft.selectionEnd)") == "ö"
    page.fill("#draft", page.input_value("#draft").replace("ö", "e"))
    page.wait_for_selector("h1:text-is('🎸 First')")


def test_hostile_studies_are_shown_as_text(stand: Stand) -> None:
    seen = stand.show("hostile.riff", HOSTILE)
    page = seen.page
    page.wait_for_selector(".system svg")
    assert page.inner_text("h1").startswith("<img src=x")
    assert page.evaluate("window.pierced") is None
    assert page.locator("main img, main script, main iframe, main a").count() == 0
    assert not seen.complaints


def test_nothing_is_asked_of_another_host_and_nothing_complains(stand: Stand) -> None:
    seen = stand.show("host.riff", CLIMB)
    seen.page.wait_for_selector(".system svg")
    own = urlsplit(stand.service.address).netloc
    assert {urlsplit(each).netloc for each in seen.requests if not each.startswith("blob:")} == {own}
    assert not seen.complaints


def test_the_layouts_that_are_offered_are_layouts() -> None:
    listed = re.search(r"LAYOUTS = \[(.*?)\]", (PAGE / "switches.js").read_text(), re.DOTALL)
    assert listed is not None
    names = re.findall(r'"([^"]+)"', listed[1])
    assert len(names) > 10
    for name in names:
        layout_of(name)
