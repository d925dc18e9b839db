"""What a person at a terminal meets: colour, progress, Ctrl-C, a pipe that closes."""

from __future__ import annotations

import io
import os
import pty
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from tabforge.cli.exits import Exits
from tabforge.cli.progress import Progress
from tests.cli.conftest import GOOD, WRONG, environment

Program = Callable[..., subprocess.CompletedProcess[bytes]]


def at_a_terminal(folder: Path, *arguments: str, **env: str) -> tuple[int, str]:
    """Run the program with its standard output and error on a terminal: its exit code and what the terminal got."""
    main, side = pty.openpty()
    process = subprocess.Popen(
        [sys.executable, "-m", "tabforge", *arguments],
        cwd=folder, stdin=subprocess.DEVNULL, stdout=side, stderr=side, env=environment(**env),
    )
    os.close(side)
    got = b""
    while True:
        try:
            part = os.read(main, 65536)
        except OSError:  # Linux: the other side is closed
            break
        if not part:
            break
        got += part
    os.close(main)
    return process.wait(timeout=60), got.decode()


def test_colour_is_for_a_terminal_only(tmp_path: Path, program: Program) -> None:
    (tmp_path / "a.riff").write_text(WRONG)
    code, shown = at_a_terminal(tmp_path, "check", "a.riff")
    assert code == Exits.ERRORS
    assert "\x1b[1;31merror " in shown
    assert b"\x1b" not in program("check", "a.riff").stdout
    assert b"\x1b" not in program("build", "a.riff").stderr


@pytest.mark.parametrize("env", [{"NO_COLOR": "1"}, {"TERM": "dumb"}])
def test_colour_can_be_refused(tmp_path: Path, env: dict[str, str]) -> None:
    (tmp_path / "a.riff").write_text(WRONG)
    for command in ("check", "build"):
        assert "\x1b" not in at_a_terminal(tmp_path, command, "a.riff", **env)[1]


def test_an_empty_no_color_refuses_nothing(tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text(WRONG)  # no-color.org: "when present and not an empty string"
    assert "\x1b[" in at_a_terminal(tmp_path, "check", "a.riff", NO_COLOR="")[1]


def test_help_and_mistakes_are_plain(tmp_path: Path) -> None:
    for arguments in (("--help",), ("bild",), ("build", "--to")):
        assert "\x1b[3" not in at_a_terminal(tmp_path, *arguments)[1]


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


def _progressed(stream: io.StringIO, seconds: float, quiet: bool = False, total: int = 10) -> str:
    now = [0.0]
    with Progress(total, quiet=quiet, stream=stream, clock=lambda: now[0]) as progress:
        for done in range(total):
            progress.at(done, f"study-{done}.riff")
            now[0] += seconds
    return stream.getvalue()


def test_progress_is_shown_for_long_work_on_a_terminal_and_wiped_at_the_end() -> None:
    shown = _progressed(Terminal(), seconds=0.5)
    assert "5 of 10  study-5.riff" in shown
    assert "#" * 15 + "." * 15 in shown
    assert shown.endswith("\r\x1b[K")


@pytest.mark.parametrize(
    ("stream", "seconds", "quiet", "total"),
    [(Terminal(), 0.01, False, 10), (Terminal(), 0.5, True, 10), (io.StringIO(), 0.5, False, 10), (Terminal(), 5.0, False, 1)],
)
def test_progress_is_not_shown_otherwise(stream: io.StringIO, seconds: float, quiet: bool, total: int) -> None:
    assert _progressed(stream, seconds, quiet, total) == ""


def test_a_progress_line_is_wiped_before_something_is_said(capsys: pytest.CaptureFixture[str]) -> None:
    stream = Terminal()
    now = [1.0]
    progress = Progress(3, stream=stream, clock=lambda: now[0])
    now[0] = 9.0
    progress.at(1, "a")
    progress.tell("trouble")
    assert stream.getvalue().endswith("\r\x1b[K")
    assert capsys.readouterr().err == "trouble\n"


@pytest.mark.parametrize("arguments", [("list", "scales"), ("reference",), ("check", "a.riff"), ("build", "a.riff")])
def test_a_pipe_that_closes_ends_the_program_quietly(tmp_path: Path, arguments: tuple[str, ...]) -> None:
    (tmp_path / "a.riff").write_text(WRONG)
    near, far = os.pipe()
    os.close(near)
    process = subprocess.run(
        [sys.executable, "-m", "tabforge", *arguments],
        cwd=tmp_path, stdout=far, stderr=far if arguments[0] == "build" else subprocess.PIPE, env=environment(), check=False, timeout=60,
    )
    os.close(far)
    assert not process.stderr
    assert process.returncode == Exits.FILES


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
def test_a_full_disk_is_told(tmp_path: Path) -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "tabforge", "list", "scales"],
            cwd=tmp_path, stdout=full, stderr=subprocess.PIPE, env=environment(), check=False, timeout=60,
        )
    assert done.returncode == Exits.FILES
    assert done.stderr == b"Standard output cannot be written: no space left on device.\n"


def test_ctrl_c_leaves_no_half_file_and_no_traceback(tmp_path: Path) -> None:
    studies = tmp_path / "s"
    studies.mkdir()
    long = GOOD.replace("q q q q", "e*8").replace("1 2 3 4", "1 2 3 4 5 6 7 8 | %*400")
    for number in range(60):
        (studies / f"{number:02}.riff").write_text(long)
    process = subprocess.Popen(
        [sys.executable, "-m", "tabforge", "build", "s", "--into", "out"],
        cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=environment(),
    )
    out = tmp_path / "out"
    deadline = time.monotonic() + 30
    while not list(out.glob("*.musicxml")) and time.monotonic() < deadline:
        time.sleep(0.01)
    process.send_signal(signal.SIGINT)
    _, told = process.communicate(timeout=60)
    assert process.returncode == Exits.INTERRUPTED
    assert b"Traceback" not in told
    whole = {path.read_bytes() for path in out.glob("*.musicxml")}
    assert len(whole) == 1  # all studies are alike, so every file that is there is whole
    assert not list(out.glob(".*"))
    assert len(list(out.iterdir())) < 120


def test_a_terminal_s_encoding_that_lacks_a_letter_is_no_trouble(tmp_path: Path) -> None:
    (tmp_path / "Köln.riff").write_text(WRONG.replace("Lantern", "東京"))
    done = subprocess.run(
        [sys.executable, "-m", "tabforge", "check", "Köln.riff"],
        cwd=tmp_path, capture_output=True, env=environment(PYTHONIOENCODING="ascii"), check=False, timeout=60,
    )
    assert done.returncode == Exits.ERRORS
    assert done.stdout.startswith(b"K\\xf6ln.riff:6:18")


def test_version_is_that_of_the_package(program: Program) -> None:
    from importlib.metadata import PackageNotFoundError, version

    try:
        expected = version("tabforge")
    except PackageNotFoundError:
        expected = "unknown"
    assert program("--version").stdout.decode() == f"tabforge {expected}\n"


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_shells_can_complete(tmp_path: Path, shell: str) -> None:
    words = {"bash": {"COMP_WORDS": "tabforge bu", "COMP_CWORD": "1"}}.get(shell, {"_TYPER_COMPLETE_ARGS": "tabforge bu"})
    action = {"fish": {"_TYPER_COMPLETE_FISH_ACTION": "get-args"}}.get(shell, {})
    code = "from tabforge.cli import run; run()"
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=tmp_path, capture_output=True, text=True, check=False, timeout=60,
        env=environment(_TABFORGE_COMPLETE=f"complete_{shell}", **words, **action),
    )
    assert "build" in done.stdout, done.stderr


def test_a_fault_of_the_program_is_owned_up_to(tmp_path: Path) -> None:
    code = "import tabforge.cli.command_list as c\ndef command(): 1 / 0\nc.command = command\nfrom tabforge.cli import run\nrun()"
    done = subprocess.run(
        [sys.executable, "-c", code, "list"], cwd=tmp_path, capture_output=True, text=True, env=environment(), check=False, timeout=60
    )
    assert done.returncode == Exits.FAULT
    assert "ZeroDivisionError" in done.stderr
    assert "not of your study" in done.stderr
