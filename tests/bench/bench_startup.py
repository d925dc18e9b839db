"""What starting costs, in units of an empty Typer command in the same run.

Run it by hand: ``python -m tests.bench.bench_startup``; ``pytest --long`` holds the goal, that building one page costs at most
``MOST`` empty commands. The figure of each program is the least of several runs, taken in turns, so that a noisy neighbour is met
by all alike.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
ROUNDS = 15
MOST = 1.5

EMPTY = "import typer\napp = typer.Typer(rich_markup_mode=None)\n@app.command()\ndef main() -> None:\n    pass\napp()\n"

PAGE = """\
title    Lantern Bay
scale    Bb2 lydian
tempo    96

run "Climb"
  layout   3 per string from string 6
  path     up, down
  rhythm   e

riff "Undertow"
  rhythm   e  e  e  e   q  e  e   | e e e e h
  degrees  1  1  1  3   4  5  =   | 5 4 3 1 r
  marks    pm -  -  .   b1 .  .   | p . p . .
  picks    d  d  d  u   d  u  .   | d . d . .
"""


def measure(rounds: int = ROUNDS) -> dict[str, float]:
    """Seconds of each program: the least of its runs."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "empty.py").write_text(EMPTY)
        (folder / "page.riff").write_text(PAGE)
        entry = "from tabforge.cli import run; run()"
        programs = {
            "python -c pass": ["-c", "pass"],
            "an empty Typer command": ["empty.py"],
            "tabforge --version": ["-c", entry, "--version"],
            "tabforge --help": ["-c", entry, "--help"],
            "tabforge build, one page": ["-c", entry, "build", "page.riff"],
            "tabforge check, one page": ["-c", entry, "check", "page.riff"],
            "tabforge tidy, one page": ["-c", entry, "tidy", "page.riff"],
        }
        least = dict.fromkeys(programs, float("inf"))
        for turn in range(rounds + 1):
            for label, arguments in programs.items():
                (folder / "exports" / "page.musicxml").unlink(missing_ok=True)
                start = time.perf_counter()
                done = subprocess.run(
                    [sys.executable, *arguments], cwd=folder, env={"PYTHONPATH": str(ROOT), "PATH": ""}, capture_output=True, check=False
                )
                spent = time.perf_counter() - start
                assert done.returncode == 0, done.stderr.decode()
                if turn:  # the first round writes the compiled modules
                    least[label] = min(least[label], spent)
    return least


def ratios(least: dict[str, float]) -> dict[str, float]:
    """Each program in units of an empty Typer command."""
    return {label: seconds / least["an empty Typer command"] for label, seconds in least.items()}


if __name__ == "__main__":
    for label, ratio in ratios(measure()).items():
        print(f"{label:<26} {ratio:5.2f}")
