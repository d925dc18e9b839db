"""Two ways to run the command line: inside this process, and as a real program."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner, Result

from tabforge.cli.app import app

ROOT = Path(__file__).parents[2]

GOOD = """\
title    Lantern Bay
scale    C3 major
meter    4/4

riff "Climb"
  rhythm   q q q q
  degrees  1 2 3 4
"""

WRONG = GOOD.replace("rhythm   q q q q", "rhythm   q q q z")


def environment(**more: str) -> dict[str, str]:
    """The surroundings of a real run: the package of this tree, no colour asked for or refused."""
    kept = {name: value for name, value in os.environ.items() if name not in ("NO_COLOR", "FORCE_COLOR", "TERM")}
    return kept | {"PYTHONPATH": str(ROOT), "TERM": "xterm", "COLUMNS": "80"} | more


@pytest.fixture
def program(tmp_path: Path) -> Callable[..., subprocess.CompletedProcess[bytes]]:
    """Run ``python -m tabforge`` in the test's own folder."""

    def run(*arguments: str, stdin: bytes = b"", **more: Any) -> subprocess.CompletedProcess[bytes]:
        return subprocess.run(
            [sys.executable, "-m", "tabforge", *arguments],
            cwd=tmp_path, input=stdin, capture_output=True, timeout=60, env=environment(), check=False, **more,
        )

    return run


@pytest.fixture
def tabforge(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[..., Result]:
    """Run a command inside this process, in the test's own folder. An exception is a failure of the test."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")

    def run(*arguments: str, stdin: str | bytes = b"") -> Result:
        result = CliRunner().invoke(app, list(arguments), input=stdin, prog_name="tabforge")
        if result.exception and not isinstance(result.exception, SystemExit):
            raise result.exception
        return result

    return run
