"""A service that watches a folder, its page in a real browser, and studies to put there."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from tests.browser import Open, Watched, missing
from tests.service.conftest import Running, start

CLIMB = """title  Little climb
scale  A2 dorian
tempo  120

riff "Up"
  rhythm   e e e e q q | q q h
  degrees  1 2 3 4 5 6 | 7 6 5
  marks    . . . . . b1 | . . .

riff "Down"
  rhythm   q q q q | h h
  degrees  8 7 6 5 | 3 1
"""
"""Two blocks of two bars, 4/4, at 120 quarters a minute: a bar lasts 2 seconds."""

HOSTILE = """title  <img src=x onerror="window.pierced=1"><script>window.pierced=2</script>
author  "><svg onload="window.pierced=3">
text  <iframe src="javascript:window.pierced=4"></iframe>
scale  A2 dorian
tempo  120

riff "<b onclick=pierced>Up</b>"
  text     <a href="https://example.com/">&amp;</a>
  rhythm   q q q q | h h
  degrees  8 7 6 5 | 3 1
  words    <i> <u>b</u> & c | "d" e
"""


@dataclass
class Stand:
    """The page of a running service. ``folder`` is what it watches."""

    service: Running
    folder: Path
    open: Open

    def write(self, name: str, text: str) -> None:
        """Save a study as editors do: a new file in the old one's place."""
        beside = self.folder / f"{name}.part"
        beside.write_text(text)
        beside.replace(self.folder / name)

    def show(self, name: str, text: str, **how: Any) -> Watched:
        """The page with a study of the folder on the stand; the caution before the first sound has been read."""
        self.write(name, text)
        seen = self.open(self.service.address, **how)
        seen.page.set_default_timeout(12_000)
        seen.page.evaluate("localStorage.setItem('tabforge-cared', 'yes')")
        seen.page.reload()
        if not seen.page.locator("#drawer").is_visible():
            seen.page.click("#drawer-open")
        seen.page.locator(f"[data-study]:has(small:text-is('{name}'))").click()
        seen.page.wait_for_selector(f"#script-name:text-is('{name}')")
        return seen


@pytest.fixture(scope="module", name="serving")
def serving_fixture(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Running, Path]]:
    if missing() is not None:  # the fixture ``browser`` tells why, and skips or fails
        yield Running(None, "", 0), Path()  # type: ignore[arg-type]
        return
    folder = tmp_path_factory.mktemp("stand")
    made = start(str(folder), "--quiet")
    try:
        yield made, folder
    finally:
        made.end()


@pytest.fixture(name="stand")
def stand_fixture(opened: Open, serving: tuple[Running, Path]) -> Stand:
    return Stand(serving[0], serving[1], opened)


def until(page: Any, holds: Callable[[], bool], seconds: float = 15) -> None:
    """Wait for something that the page tells only when it is asked."""
    for _ in range(int(seconds / 0.05)):
        if holds():
            return
        page.wait_for_timeout(50)
    raise AssertionError("it has not come to be")


def tab_numbers(page: Any) -> list[tuple[int, int]]:
    """String and fret of each TAB number of the sheet, in the order of the text."""
    script = "[...document.querySelectorAll('#music .tab')].map((n) => [n.dataset.string, n.textContent])"
    return [(int(string), int(fret)) for string, fret in page.evaluate(script)]
