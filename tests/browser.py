"""A real browser for pages: Chromium without a window, with nothing of anybody's profile and no errand of its own.

Where there is no Chromium the tests that want one are skipped; under ``CI=true`` a missing one is a failure.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

import pytest

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Page

NAMES: Final = ("chromium", "chromium-browser", "google-chrome")
FLAGS: Final = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip


def missing() -> str | None:
    """Why no browser can be had, or None."""
    if not any(shutil.which(name) for name in NAMES):
        return f"no browser: none of {', '.join(NAMES)} is installed (apt-get install chromium)"
    try:
        import playwright.sync_api  # noqa: F401
    except ImportError:
        return "no browser: the package playwright is not installed (pip install 'tabforge[test]')"
    return None


@dataclass
class Watched:
    """A page with all it has asked for and complained of, but for its own address."""

    page: Page
    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)

    def look(self, where: Path, **how: Any) -> None:
        """A picture of what can be seen."""
        self.page.screenshot(path=where, **how)


Open = Callable[..., "Watched"]


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """One browser for the tests of a module. Closed after them: its loop must not run while other tests run theirs."""
    why = missing()
    if why:
        if os.environ.get("CI"):
            pytest.fail(why)
        pytest.skip(why)
    from playwright.sync_api import sync_playwright

    found = next(path for path in map(shutil.which, NAMES) if path)
    with sync_playwright() as program:
        running = program.chromium.launch(executable_path=found, args=list(FLAGS))  # a new folder for its data each time
        yield running
        running.close()


@pytest.fixture
def opened(browser: Browser) -> Iterator[Open]:
    """Opens an address in a window of its own: ``opened(url, width=360, height=740, dark=True, …)``, further options as of a context."""
    contexts = []

    def open_page(url: str, *, width: int = 1000, height: int = 800, dark: bool = False, **more: Any) -> Watched:
        viewport: Any = {"width": width, "height": height}
        context = browser.new_context(viewport=viewport, color_scheme="dark" if dark else "light", reduced_motion="reduce", **more)
        contexts.append(context)
        page = context.new_page()
        watched = Watched(page)
        page.on("request", lambda request: watched.requests.append(request.url) if request.url != url else None)
        page.on("console", lambda said: watched.complaints.append(said.text) if said.type in {"error", "warning"} else None)
        page.on("pageerror", lambda error: watched.complaints.append(str(error)))
        page.goto(url)
        return watched

    yield open_page
    for context in contexts:
        context.close()
