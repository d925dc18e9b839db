"""The live page for everyone: keyboard alone, judged by axe-core, on a phone, in the dark."""

from __future__ import annotations

from typing import Any

import pytest

from tests.service.stand import CLIMB, Stand, serving_fixture, stand_fixture, until  # noqa: F401  # fixtures

WRONG = CLIMB.replace("7 6 5\n", "7 6 zz\n")


def violations(page: Any) -> list[str]:
    from axe_playwright_python.sync_playwright import Axe

    found = Axe().run(page).response["violations"]
    return [f"{each['id']}: {[node['target'] for node in each['nodes']]}" for each in found]


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("width", [360, 1400])
def test_axe_finds_nothing(stand: Stand, width: int, dark: bool) -> None:
    """All rules of axe-core, contrast of words (WCAG 2.1, 1.4.3) among them; also with everything open, and with an error."""
    page = stand.show("axe.riff", CLIMB, width=width, dark=dark).page
    page.wait_for_selector(".system svg")
    assert violations(page) == []
    page.click("#more")
    page.click("#tab-leaf summary")
    assert violations(page) == []
    if width < 500:
        page.click("#shelf-open")
        assert violations(page) == []
    page.click("#keys-open")
    assert violations(page) == []
    page.click("#keys-close")
    stand.write("axe.riff", WRONG)
    page.wait_for_selector("#kept:visible")
    assert violations(page) == []
    if width < 500:
        page.click("#drawer-open")
        assert violations(page) == []
        page.keyboard.press("Escape")
    page.click("#scratch-open") if width > 500 else None
    assert violations(page) == []


def test_axe_would_find_a_fault(stand: Stand) -> None:
    page = stand.show("axe.riff", CLIMB).page
    page.wait_for_selector(".system svg")
    page.evaluate("document.querySelector('label:has(#volume)').replaceWith(document.querySelector('#volume'))")
    assert any(each.startswith("label") for each in violations(page))


@pytest.mark.parametrize("width", [360, 480, 800, 1000, 1200, 1600])
def test_no_width_scrolls_sideways(stand: Stand, width: int) -> None:
    long = CLIMB.replace("Little climb", "Averyveryveryverylongtitle" * 5).replace('"Up"', f'"{"Longname" * 12}"')
    page = stand.show("long.riff", long, width=width).page
    page.wait_for_selector(".system svg")
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    page.click("#more")
    assert page.evaluate("document.documentElement.scrollWidth") <= width


def test_on_a_phone_the_sheet_comes_first_and_is_large_enough(stand: Stand) -> None:
    page = stand.show("phone.riff", CLIMB, width=360, height=740).page
    page.wait_for_selector(".system svg")
    order = page.evaluate("['#sheet', '.margin', '#script'].map((each) => document.querySelector(each).getBoundingClientRect().top)")
    assert order == sorted(order)
    picture = "document.querySelector('.system svg')"
    staff = page.evaluate(f"{picture}.getBoundingClientRect().width / {picture}.width.baseVal.value")
    assert staff > 0.8, "a staff of some 5 mm or more, as in print"
    assert page.evaluate("Math.round(innerHeight - document.querySelector('#ledge').getBoundingClientRect().bottom)") == 0


def focused(page: Any) -> str:
    told: str = page.evaluate("document.activeElement.id || document.activeElement.dataset.study || document.activeElement.className")
    return told


def test_everything_can_be_done_with_keys_alone(stand: Stand) -> None:
    for name in ("keys-a.riff", "keys-b.riff"):
        stand.write(name, CLIMB.replace("Little climb", name))
    page = stand.show("keys-a.riff", CLIMB.replace("Little climb", "keys-a.riff")).page
    page.wait_for_selector("h1:text-is('keys-a.riff')")
    page.wait_for_selector(".system svg")
    page.locator(".skips a").last.focus()
    visited: list[str] = []
    for _ in range(60):
        page.keyboard.press("Tab")
        visited.append(focused(page))
        if visited[-1] == "more":
            break
    switches = [f"switch-{name}" for name in ("key", "tuning", "tempo", "layout")]
    wanted = [*switches, "lamp", "keys-open", "scratch-open", "lines", "play", "loop", "speed", "volume", "more"]
    assert [each for each in visited if each in wanted] == wanted, "in the order they are seen"
    assert sum(1 for each in visited if len(each) == 20) == 1, "the cards are one stop"
    page.locator("[data-study][aria-current]").focus()
    page.keyboard.press("ArrowDown")
    page.keyboard.press("Enter")
    page.wait_for_selector("h1:text-is('keys-b.riff')")
    page.locator(".bars").first.focus()
    page.keyboard.press("ArrowRight")
    assert page.locator(".bars").first.get_attribute("aria-activedescendant") == page.locator("[role=option]").nth(1).get_attribute("id")
    page.keyboard.press("Enter")
    assert "Line 7" in page.inner_text("#status")
    page.keyboard.press("Shift+ArrowLeft")
    assert page.inner_text("#status") == "Bar 1 to 2 chosen."
    page.keyboard.press("Space")
    until(page, lambda: page.inner_text("#play") == "Pause")
    page.keyboard.press("Space")
    assert page.inner_text("#play") == "Play"
    page.keyboard.press("Escape")
    assert page.locator("[aria-selected=true]").count() == 0


def test_the_light_is_chosen_and_kept(stand: Stand) -> None:
    page = stand.show("light.riff", CLIMB, dark=True).page
    assert page.get_attribute("html", "data-lamp") == "evening"
    page.select_option("#lamp", "day")
    page.reload()
    assert page.get_attribute("html", "data-lamp") == "day"


def test_a_service_that_is_gone_is_told(stand: Stand) -> None:
    page = stand.show("gone.riff", CLIMB).page
    page.wait_for_selector(".system svg")
    page.context.set_offline(True)
    page.select_option("#switch-key", "E")
    page.wait_for_selector("#lost:visible")
    assert page.locator(".system svg").count(), "what was there stays"
    page.context.set_offline(False)
    page.select_option("#switch-key", "C")
    page.wait_for_selector("#lost", state="hidden")
    page.wait_for_selector("#facts:has-text('C dorian')")
