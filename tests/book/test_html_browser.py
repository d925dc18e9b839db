"""The page of a book in a real browser: what it shows, asks for and lets people do. Accessibility is judged by axe-core."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any, Final

import pytest

from tabforge.book.html import bind
from tests.book.web_book import hostile, trial
from tests.browser import Open, missing

SHOW_ALL: Final = """() => {
  for (const each of document.querySelectorAll('.exercise')) each.style.contentVisibility = 'visible';
  for (const each of document.querySelectorAll('details')) each.open = true;
}"""
SPACE: Final = 180
"""Units of a picture between two lines of a staff (see ``pages/engraver.py``)."""


@pytest.fixture(scope="module")
def url(tmp_path_factory: pytest.TempPathFactory) -> str:
    return written(tmp_path_factory, "book.html", bind(*trial())[0])


@pytest.fixture(scope="module")
def hostile_url(tmp_path_factory: pytest.TempPathFactory) -> str:
    return written(tmp_path_factory, "hostile.html", bind(*hostile())[0])


def written(factory: pytest.TempPathFactory, name: str, data: bytes) -> str:
    path: Path = factory.mktemp("page") / name
    path.write_bytes(data)
    return path.as_uri()


def test_the_proof_of_a_commit_has_a_browser() -> None:
    assert not os.environ.get("CI") or missing() is None


@pytest.mark.parametrize("width", [360, 800, 1400])
def test_it_asks_for_nothing_and_complains_of_nothing(url: str, opened: Open, width: int) -> None:
    seen = opened(url, width=width)
    seen.page.evaluate(SHOW_ALL)
    seen.page.wait_for_timeout(100)
    assert [each for each in seen.requests if not each.startswith("data:")] == []
    assert seen.complaints == []


def test_a_policy_that_is_broken_is_noticed(url: str, opened: Open) -> None:
    seen = opened(url)
    seen.page.evaluate("() => { const each = new Image(); each.src = 'https://example.org/lamp.png'; document.body.append(each); }")
    seen.page.wait_for_timeout(100)
    assert any("Content Security Policy" in each for each in seen.complaints)


def test_hostile_words_do_nothing(hostile_url: str, opened: Open) -> None:
    seen = opened(hostile_url, width=360)
    dialogs: list[Any] = []
    seen.page.on("dialog", lambda dialog: dialogs.append(dialog))  # noqa: PLW0108  # a builtin cannot be hung on
    seen.page.reload()
    seen.page.evaluate(SHOW_ALL)
    assert dialogs == [] and seen.complaints == []


@pytest.mark.parametrize("width", [320, 360, 800])
@pytest.mark.parametrize("which", ["url", "hostile_url"])
def test_the_page_is_never_wider_than_the_screen(request: pytest.FixtureRequest, opened: Open, which: str, width: int) -> None:
    page = opened(request.getfixturevalue(which), width=width).page
    page.evaluate(SHOW_ALL)
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_music_can_be_read_on_a_phone(url: str, opened: Open) -> None:
    """Lines of a staff at least 5 CSS pixels apart, as on a printed page of small notes (common practice, no source)."""
    page = opened(url, width=360).page
    page.evaluate(SHOW_ALL)
    scales = page.evaluate(
        "[...document.querySelectorAll('.music .system')].map((each) => each.getBoundingClientRect().width / each.viewBox.baseVal.width)"
    )
    assert len(scales) >= 8
    assert min(scales) * SPACE >= 5


def test_what_is_wider_than_the_screen_is_scrolled_by_keys(url: str, opened: Open) -> None:
    page = opened(url, width=360).page
    page.evaluate(SHOW_ALL)
    page.wait_for_timeout(200)
    states = page.evaluate(
        "[...document.querySelectorAll('.scroll')].map((each) => [each.scrollWidth > each.clientWidth + 1, each.tabIndex === 0])"
    )
    assert [True, True] in states and [False, False] in states
    assert all(wide == focusable for wide, focusable in states)


@pytest.mark.parametrize("width", [360, 1400])
@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("which", ["url", "hostile_url"])
def test_axe_finds_nothing(request: pytest.FixtureRequest, opened: Open, which: str, dark: bool, width: int) -> None:
    """All rules of axe-core, contrast of words (WCAG 2.1, 1.4.3) among them."""
    from axe_playwright_python.sync_playwright import Axe

    page = opened(request.getfixturevalue(which), width=width, dark=dark, bypass_csp=False).page
    page.evaluate(SHOW_ALL)
    page.wait_for_timeout(200)
    found = Axe().run(page)
    assert found.violations_count == 0, found.generate_report()
    assert len(found.response["passes"]) > 20


def test_axe_finds_what_is_wrong(url: str, opened: Open) -> None:
    from axe_playwright_python.sync_playwright import Axe

    page = opened(url).page
    page.evaluate("() => { document.querySelector('.system').removeAttribute('aria-label'); }")
    page.evaluate("() => { document.querySelector('.cautions p').style.color = '#ddd'; }")
    rules = {each["id"] for each in Axe().run(page).response["violations"]}
    assert {"svg-img-alt", "color-contrast"} <= rules


def luminance(colour: str) -> float:
    """Relative luminance of ``rgb(r, g, b)`` (WCAG 2.1, definition of relative luminance)."""
    channels = [int(each) / 255 for each in colour.removeprefix("rgb(").removesuffix(")").split(",")]
    red, green, blue = (each / 12.92 if each <= 0.03928 else ((each + 0.055) / 1.055) ** 2.4 for each in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_music_stands_out_from_the_paper(url: str, opened: Open, dark: bool) -> None:
    """Lines and letters of the music against the page at 7:1 (WCAG 2.1, 1.4.6), whichever they are drawn with."""
    page = opened(url, dark=dark).page
    page.evaluate(SHOW_ALL)
    paper = luminance(page.evaluate("getComputedStyle(document.documentElement).backgroundColor"))
    assert (paper < 0.1) is dark
    inks = page.evaluate("""[...new Set([...document.querySelectorAll('.system *')].flatMap((each) => {
      const style = getComputedStyle(each);
      return [style.fill, style.stroke];
    }))].filter((each) => each !== 'none')""")
    assert inks
    for ink in inks:
        lighter, darker = sorted((luminance(ink), paper), reverse=True)
        assert (lighter + 0.05) / (darker + 0.05) >= 7, ink


def test_the_switch_turns_the_page_and_is_remembered(url: str, opened: Open) -> None:
    page = opened(url).page
    switch = page.get_by_role("button", name="Dark page")
    paper = "getComputedStyle(document.documentElement).backgroundColor"
    light = page.evaluate(paper)
    assert switch.get_attribute("aria-pressed") == "false"
    switch.click()
    assert switch.get_attribute("aria-pressed") == "true"
    dark = page.evaluate(paper)
    assert luminance(dark) < 0.05 < luminance(light)
    page.reload()
    assert page.evaluate(paper) == dark
    page.get_by_role("button", name="Dark page").click()
    assert page.evaluate(paper) == light


def test_a_dark_device_and_the_switch_give_the_same_page(url: str, opened: Open) -> None:
    every = """[...document.styleSheets[0].cssRules].length && ['--paper', '--sheet', '--ink', '--soft', '--line', '--accent'].map(
      (name) => getComputedStyle(document.documentElement).getPropertyValue(name))"""
    device = opened(url, dark=True).page
    other = opened(url).page
    other.get_by_role("button", name="Dark page").click()
    assert device.evaluate(every) == other.evaluate(every)
    device.get_by_role("button", name="Dark page").click()
    assert device.evaluate(every) == opened(url).page.evaluate(every)


def test_keys_go_through_the_page_in_its_order_and_can_be_seen(url: str, opened: Open) -> None:
    page = opened(url).page
    page.evaluate("""() => { window.met = []; addEventListener('focusin', (event) => {
      const each = event.target, last = met.at(-1)?.[2];
      met.push([each.textContent.trim() || each.name || each.tagName,
        !last || Boolean(last.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_FOLLOWING), each,
        getComputedStyle(each).outlineStyle !== 'none' && parseFloat(getComputedStyle(each).outlineWidth) >= 2]);
    }); }""")
    for _ in range(60):
        page.keyboard.press("Tab")
    met = page.evaluate("met.map(([name, after, , seen]) => [name, after, seen])")
    assert len(met) >= 55
    assert met[0][0] == "Skip to the exercises"
    assert [name for name, after, _ in met if not after] == []
    assert [name for name, _, seen in met if not seen] == []


def test_the_skip_link_leads_past_the_contents(url: str, opened: Open) -> None:
    page = opened(url).page
    page.keyboard.press("Tab")
    page.keyboard.press("Enter")
    page.keyboard.press("Tab")
    assert page.evaluate("Boolean(document.activeElement.closest('main'))")


def shown(page: Any) -> list[str]:
    return list(page.evaluate("[...document.querySelectorAll('.exercise:not([hidden])')].map((each) => each.id)"))


def test_exercises_are_found_by_words_level_and_technique(url: str, opened: Open) -> None:
    page = opened(url).page
    everything = shown(page)
    told = page.locator(".search output")
    page.get_by_label("Level").select_option("settled")
    assert shown(page) == ["climb", "deep"]
    assert told.inner_text() == "2 exercises fit."
    page.get_by_label("Words").fill("BASS")
    assert shown(page) == ["deep"]
    assert told.inner_text() == "1 exercise fits."
    page.get_by_role("button", name="Show all").click()
    page.wait_for_function("document.querySelectorAll('.exercise:not([hidden])').length === 6")
    page.get_by_label("Technique").select_option("bend")
    assert shown(page) == ["ropes"]
    assert not page.locator("#chapter_1").is_visible()
    page.locator(".group a", has_text="1.1").first.click()  # a link to one that the search has hidden
    page.wait_for_function("document.querySelectorAll('.exercise:not([hidden])').length === 6")
    assert shown(page) == everything
    page.get_by_label("Words").fill("nothing at all")
    assert shown(page) == []
    assert told.inner_text() == "No exercise fits."


def test_it_can_be_read_without_its_script(url: str, opened: Open) -> None:
    page = opened(url, java_script_enabled=False).page
    assert not page.locator("form").is_visible()
    assert not page.locator("#page_dark").is_visible()
    assert page.locator(".exercise").count() == 6
    page.locator(".contents a", has_text="Rope Work").click()
    assert page.locator("#ropes h3").is_visible()


def test_links_save_the_files(url: str, opened: Open) -> None:
    _, _, made = trial()
    page = opened(url, accept_downloads=True).page
    with page.expect_download() as waiting:
        page.locator("#ropes .files a", has_text="MIDI").click()
    saved = waiting.value
    assert saved.suggested_filename == "ropes.mid"
    (ropes,) = (each for each in made if each.id == "ropes")
    assert Path(saved.path()).read_bytes() == ropes.files[".mid"]


def test_tracks_sound_low_and_one_at_a_time(url: str, opened: Open) -> None:
    page = opened(url).page
    assert page.evaluate("[...document.querySelectorAll('audio')].map((each) => each.volume)") == [0.3, 0.3]
    seconds = page.evaluate("""() => new Promise((told, wrong) => {
      const track = document.querySelector('audio');
      track.onloadedmetadata = () => told(track.duration);
      track.onerror = () => wrong(track.error.message);
      track.preload = 'metadata';
      track.load();
    })""")
    assert seconds > 5
    page.evaluate("""async () => {
      const [one, two] = document.querySelectorAll('audio');
      one.muted = two.muted = true;
      await one.play();
      await two.play();
    }""")
    assert page.evaluate("[...document.querySelectorAll('audio')].map((each) => each.paused)") == [True, False]


def test_print_cuts_no_music_and_leaves_out_what_paper_cannot_do(url: str, opened: Open) -> None:
    page = opened(url, dark=True).page
    page.emulate_media(media="print")
    style = "(name) => [...new Set([...document.querySelectorAll('.system, .shape')].map((each) => getComputedStyle(each)[name]))]"
    assert page.evaluate("getComputedStyle(document.querySelector('.system')).breakInside") == "avoid"
    assert page.evaluate(f"({style})('color')") == ["rgb(0, 0, 0)"]
    for hidden in (".bar", ".search", ".track", ".files", ".back"):
        assert not page.locator(hidden).first.is_visible(), hidden
    assert page.evaluate("[...document.querySelectorAll('.scroll')].every((each) => getComputedStyle(each).overflowX === 'visible')")
    seen = "[...document.querySelectorAll('.exercise')].every((each) => getComputedStyle(each).contentVisibility === 'visible')"
    assert page.evaluate(seen)


def test_printed_it_has_every_exercise_with_its_music_on_the_same_page(url: str, opened: Open) -> None:
    import pypdfium2

    _, exercises, made = trial()
    page = opened(url).page
    document = pypdfium2.PdfDocument(page.pdf(prefer_css_page_size=True))
    try:
        assert [round(each) for each in document[0].get_size()] == [595, 842]  # A4 in points
        texts = [document[number].get_textpage().get_text_bounded() for number in range(len(document))]
    finally:
        document.close()
    for exercise, each in zip(exercises, made, strict=True):
        (at,) = (number for number, text in enumerate(texts) if f"{exercise.number} {each.title}" in text and "Contents" not in text)
        first = next(part for part in each.parts if part.sheet)
        assert first.title in texts[at]
