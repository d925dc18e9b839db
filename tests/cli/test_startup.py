"""Starting is quick because nothing is loaded that the command does not need."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.bench.bench_startup import MOST, measure, ratios
from tests.cli.conftest import GOOD, environment

HEAVY = {"music21", "lxml", "jsonschema", "rich", "numpy", "verovio", "xml", "asyncio", "unittest", "sqlite3", "http"}

PROBE = """\
import sys
from tabforge.cli import run
sys.argv = ["tabforge", *{arguments!r}]
try:
    run()
except SystemExit as ending:
    assert not ending.code, ending.code
print("\\n".join(sorted(sys.modules)), file=sys.stderr)
"""


def loaded(folder: Path, *arguments: str) -> set[str]:
    """The modules that a successful run of a command has loaded."""
    done = subprocess.run(
        [sys.executable, "-c", PROBE.format(arguments=list(arguments))],
        cwd=folder, env=environment(), capture_output=True, text=True, check=False, timeout=60,
    )
    assert done.returncode == 0, done.stderr
    return set(done.stderr.split())


def _tops(modules: set[str]) -> set[str]:
    return {name.partition(".")[0] for name in modules}


@pytest.mark.parametrize("option", ["--version", "--help"])
def test_version_and_help_load_no_heavy_library_and_no_room_of_the_pipeline(tmp_path: Path, option: str) -> None:
    modules = loaded(tmp_path, option)
    assert not _tops(modules) & HEAVY
    rooms = ("compile", "theory", "fretboard", "syntax", "schema", "readers", "writers", "model", "check", "pipeline")
    assert not [name for name in modules if name.startswith(tuple(f"tabforge.{room}" for room in rooms))]


@pytest.mark.parametrize(
    "arguments", [("build", "a.riff"), ("build", "a.riff", "--to", "musicxml"), ("check", "a.riff"), ("tidy", "a.riff")]
)
def test_work_on_a_sound_study_loads_no_heavy_library(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    (tmp_path / "a.riff").write_text(GOOD)
    assert not _tops(loaded(tmp_path, *arguments)) & HEAVY


def test_importing_the_command_line_loads_nothing(tmp_path: Path) -> None:
    code = "import sys; before = set(sys.modules); import tabforge.cli; print(sorted(set(sys.modules) - before))"
    done = subprocess.run([sys.executable, "-c", code], env=environment(), capture_output=True, text=True, check=True, cwd=tmp_path)
    assert set(eval(done.stdout)) <= {"__future__", "atexit", "gc", "tabforge", "tabforge.cli"}


@pytest.mark.long
def test_one_page_costs_little_more_than_an_empty_command() -> None:
    assert ratios(measure())["tabforge build, one page"] <= MOST
