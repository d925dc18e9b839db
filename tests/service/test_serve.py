"""``tabforge serve``: what it says, what it refuses, and how it ends."""

from __future__ import annotations

import importlib.util
import re
import socket
import subprocess
import sys
from importlib.machinery import ModuleSpec
from pathlib import Path

import httpx2
import pytest
from typer.testing import CliRunner

from tabforge.cli.app import app
from tabforge.service.settings import PREFIX
from tests.service.conftest import ROOT, start


def told(*arguments: str, code: int) -> str:
    result = CliRunner().invoke(app, ["serve", *arguments])
    assert result.exit_code == code, result.output
    assert not result.stdout
    return result.stderr


def test_it_says_its_address_in_a_line(tmp_path: Path) -> None:
    running = start(str(tmp_path))
    assert httpx2.get(f"{running.address}/").headers["content-type"].startswith("text/html")
    assert httpx2.get(f"{running.address}{PREFIX}/health").json()["ok"]
    code, out, _ = running.end()
    assert (code, out) == (0, "")  # the line has been read


def test_quiet_logs_nothing_of_requests() -> None:
    running = start("--quiet")
    assert httpx2.get(f"{running.address}{PREFIX}/studies").json() == {"watching": False, "studies": []}
    assert running.end() == (0, "", "")


def test_a_port_that_is_taken() -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        said = told("--port", str(port), code=4)
    assert said == f"http://127.0.0.1:{port} cannot be listened on: address already in use. Another --port may be free.\n"


@pytest.mark.parametrize("host", ["0.0.0.0", "::", "192.0.2.1", "example.invalid", ""])
def test_others_do_not_reach_it_without_a_token(host: str) -> None:
    assert "--token" in told("--host", host, code=2)


@pytest.mark.parametrize("token", ["short", "", "sixteen and more characters", "0123456789abcd\u00e9f", "0123456789abcdef\n"])
def test_a_token_that_can_be_tried_out_is_refused(token: str) -> None:
    assert "16 characters or more" in told("--token", token, code=2)


def test_a_host_that_is_none() -> None:
    assert "cannot be listened on" in told("--host", "no such host", "--token", "0123456789abcdef", code=4)


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    assert told(str(tmp_path / "none"), code=4).endswith("none: there is no such folder.\n")


def test_a_missing_extra_says_how_to_install_it(monkeypatch: pytest.MonkeyPatch) -> None:
    found = importlib.util.find_spec

    def without(name: str, package: str | None = None) -> ModuleSpec | None:
        return None if name in ("fastapi", "watchfiles") else found(name, package)

    monkeypatch.setattr(importlib.util, "find_spec", without)
    assert told(code=2) == "The service needs fastapi and watchfiles. Install with: pip install 'tabforge[service]'\n"


def test_the_link_brings_the_token_where_no_server_sees_it() -> None:
    """What follows # stays in the browser (RFC 3986, section 3.5)."""
    command = [sys.executable, "-m", "tabforge", "serve", "--port", "0", "--token", "0123456789abcdef", "--host", "0.0.0.0"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, cwd=ROOT) as process:
        assert process.stdout is not None
        line = process.stdout.readline()
        process.send_signal(2)
        process.communicate(timeout=20)
    # What listens on all addresses is opened by one of them.
    address, _, rest = line.removeprefix("tabforge serves ").partition("/#")
    assert re.sub(r"\d+$", "", address) == "http://127.0.0.1:" and rest == "token=0123456789abcdef  (Ctrl-C ends it)\n"


def test_nothing_of_it_is_loaded_by_other_commands() -> None:
    program = "import sys, tabforge.cli.app, tabforge.cli.command_serve, tabforge.service; print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", program], check=True, capture_output=True, text=True, cwd=ROOT)
    loaded = set(done.stdout.split())
    assert not {"fastapi", "uvicorn", "pydantic", "watchfiles", "asyncio"} & loaded
