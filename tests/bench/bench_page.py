"""How long after saving a study its changed picture is seen in a browser: median and 95th percentile, in milliseconds.

A service watches a folder; a real Chromium shows a study of 16 bars, then one of 200; the file is written again and again, a note changed
each time. "Seen" is the first task after the frame in which the page was painted. Its parts: noticed (from the writing to the page's being
told), compile and engrave (as the service says in ``Server-Timing``), rest of the answer, drawing (what the page's own code takes), frame.
Run it: ``python -m tests.bench.bench_page``, with a number of savings if you like. Needs the extra ``service``, playwright and Chromium.
"""

from __future__ import annotations

import random
import shutil
import statistics
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

from tests.browser import FLAGS, NAMES, missing
from tests.service.conftest import start

BARS = (16, 200)
BODY = ("e e e e q q", "q e e h", "e e q e e q", "q q q e e")


def study(bars: int, seed: int) -> str:
    """A riff of that many bars in rows of four, another note here and there for every seed."""
    pick = random.Random(7)
    again = random.Random(seed)
    lines = ["title Bench", "scale A2 dorian", "tempo 96", "", 'riff "Bench"']
    for first in range(0, bars, 4):
        rhythms = [pick.choice(BODY) for _ in range(min(4, bars - first))]
        rows = [[str(pick.randint(1, 12)) for _ in rhythm.split()] for rhythm in rhythms]
        rows[0][0] = str(again.randint(1, 12))
        lines += ["  rhythm   " + " | ".join(rhythms), "  degrees  " + " | ".join(" ".join(row) for row in rows), ""]
    return "\n".join(lines)


def saved(page: Any, file: Path, text: str) -> dict[str, float]:
    """Write the file as editors do, beside and over it; the milliseconds until it is seen."""
    before = page.evaluate("tabforge.state.painted")
    beside = file.with_suffix(".part")
    beside.write_text(text)
    begun = time.time() * 1e3
    beside.replace(file)
    while page.evaluate("tabforge.state.painted") == before:
        page.wait_for_timeout(20)
    told = page.evaluate("tabforge.state.timings")
    parts = told["parts"]
    return {
        "whole": told["seen"] - begun,
        "noticed": told["began"] - begun,
        "compile": parts.get("compile", 0.0),
        "engrave": parts.get("engrave", 0.0),
        "rest of the answer": told["answered"] - told["began"] - parts.get("compile", 0.0) - parts.get("engrave", 0.0),
        "drawing": told["drawn"] - told["answered"],
        "frame": told["seen"] - told["drawn"],
    }


def measure(bars: int, times: int) -> None:
    """Print one study's row."""
    from playwright.sync_api import sync_playwright

    with tempfile.TemporaryDirectory() as folder, sync_playwright() as program:
        file = Path(folder, "bench.riff")
        file.write_text(study(bars, 0))
        service = start(folder, "--quiet")
        try:
            found = next(path for path in map(shutil.which, NAMES) if path)
            browser = program.chromium.launch(executable_path=found, args=list(FLAGS))
            page = browser.new_page(viewport={"width": 1400, "height": 900})
            page.goto(service.address)
            page.wait_for_selector(".system svg")
            page.wait_for_timeout(500)
            rows = [saved(page, file, study(bars, seed)) for seed in range(1, times + 4)][3:]
            browser.close()
        finally:
            service.end()
    print(f"{bars} bars, saved {times} times:")
    for part in rows[0]:
        values = sorted(row[part] for row in rows)
        print(f"  {part:<20} median {statistics.median(values):7.1f}   95th percentile {values[int(0.95 * (len(values) - 1))]:7.1f}")


def main() -> None:
    """Measure both studies."""
    why = missing()
    if why:
        sys.exit(why)
    times = int(sys.argv[1]) if len(sys.argv) > 1 else 30
    for bars in BARS:
        measure(bars, times)


if __name__ == "__main__":
    main()
