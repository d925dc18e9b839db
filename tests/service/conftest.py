"""A service in this process, for what is asked and answered; and one as a process of its own, for what happens on the wire."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from tabforge.service.app import create_app
from tabforge.service.settings import PREFIX, Config

BASE = "http://127.0.0.1:8765"
ROOT = Path(__file__).parents[2]

SMALL = 'title Small\nscale E2 minor\ntempo 100\n\nriff "One"\n  rhythm  q q h\n  degrees 1 3 5\n'
"""A study without advice."""

WRONG = 'scale E2 minor\nriff "One"\n  rhythm  q q h\n  degrees 1 3 zz\n'


@pytest.fixture(scope="session")
def watched(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that no test changes."""
    folder = tmp_path_factory.mktemp("watched")
    (folder / "small.riff").write_text(SMALL)
    (folder / "inside").mkdir()
    (folder / "inside" / "wrong.riff").write_text(WRONG)
    (folder / "other.json").write_text('{"no": "study of ours"}')
    return folder


@pytest.fixture(scope="session")
def client(watched: Path) -> Iterator[TestClient]:
    """A client of a service without a token, one for all tests."""
    app = create_app(Config(folder=watched, workers=1, quiet=True))
    with TestClient(app, base_url=BASE) as made:
        yield made


@dataclass
class Running:
    """A service in a process of its own."""

    process: subprocess.Popen[str]
    address: str
    port: int

    def end(self, how: int = signal.SIGINT) -> tuple[int, str, str]:
        """End it; its exit code, and what it has said."""
        self.process.send_signal(how)
        out, err = self.process.communicate(timeout=20)
        return self.process.returncode, out, err


def start(*arguments: str) -> Running:
    """Start ``tabforge serve`` on a free port, and wait until it says its address."""
    command = [sys.executable, "-m", "tabforge", "serve", "--port", "0", "--workers", "1", *arguments]
    process = subprocess.Popen(
        command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT, env={**os.environ, "PYTHONUNBUFFERED": "1"}
    )
    assert process.stdout is not None
    line = process.stdout.readline()
    found = re.search(r"http://\S+?:(\d+)/", line)
    if found is None:
        process.kill()
        raise AssertionError(line + "".join(process.communicate()))
    return Running(process, f"http://127.0.0.1:{found[1]}", int(found[1]))


@pytest.fixture
def running(tmp_path: Path) -> Iterator[Running]:
    """A service that watches ``tmp_path``."""
    made = start(str(tmp_path))
    try:
        yield made
    finally:
        if made.process.poll() is None:
            made.end()


__all__ = ["BASE", "PREFIX", "SMALL", "WRONG", "Running", "start"]
