"""book: what is written, what is said, which code it ends with; and that a build that is killed leaves the last good book and goes on."""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from typer.testing import Result

from tests.bench.bench_book import write_book
from tests.cli.conftest import environment

Run = Callable[..., Result]
TRIAL = Path(__file__).parents[1] / "book" / "trial"
MANIFEST = "trial/harbour.toml"


@pytest.fixture
def trial(tmp_path: Path) -> Path:
    return Path(shutil.copytree(TRIAL, tmp_path / "trial"))


def change(path: Path, old: str, new: str) -> None:
    text = path.read_text()
    assert old in text
    path.write_text(text.replace(old, new, 1))


def test_a_book_is_built_and_then_let_be(tabforge: Run, tmp_path: Path, trial: Path) -> None:
    result = tabforge("book", MANIFEST, "--to", "zip")
    assert (result.exit_code, result.stdout) == (0, "")
    assert result.stderr == "7 exercises: 7 made (7: it is new).\nbooks/harbour.zip written.\n"
    first = (tmp_path / "books" / "harbour.zip").read_bytes()
    assert sorted(path.name for path in (tmp_path / "books").iterdir()) == [".tabforge", "harbour.zip"]
    again = tabforge("book", MANIFEST, "--to", "zip")
    assert (again.exit_code, again.stderr) == (0, "7 exercises: all as before.\nbooks/harbour.zip is as it should be.\n")
    assert tabforge("book", MANIFEST, "--to", "zip", "--into", "other", "--jobs", "1", "-q").stderr == ""
    assert (tmp_path / "other" / "harbour.zip").read_bytes() == first
    (tmp_path / "books" / "harbour.zip").unlink()
    assert "zip written" in tabforge("book", MANIFEST, "--to", "zip").stderr
    assert (tmp_path / "books" / "harbour.zip").read_bytes() == first


def test_why(tabforge: Run, tmp_path: Path, trial: Path) -> None:
    tabforge("book", MANIFEST, "--to", "zip")
    change(trial / "studies" / "deep-water.riff", "tempo       66", "tempo       60")
    change(trial / "harbour.toml", "tempo = 60", "tempo = 61")
    asked = ("book", MANIFEST, "--to", "zip", "--why")
    check = tabforge(*asked, "--check")
    said = "2.1  rope-work: its options changed\n2.2  deep-water: its text changed\n"
    counted = "7 exercises: 2 {} (1: its options changed; 1: its text changed), 5 as before.\n"
    assert check.exit_code == 3
    assert check.stderr == f"{said}books/harbour.zip is not what would be built.\n{counted.format('would be made')}"
    assert tabforge(*asked).stderr == f"{said}{counted.format('made')}books/harbour.zip written.\n"
    assert tabforge(*asked).stderr == "7 exercises: all as before.\nbooks/harbour.zip is as it should be.\n"


def test_check_writes_nothing(tabforge: Run, tmp_path: Path, trial: Path) -> None:
    result = tabforge("book", MANIFEST, "--to", "zip", "--check", "-q")
    assert (result.exit_code, result.stderr) == (3, "books/harbour.zip is not what would be built.\n")
    assert not (tmp_path / "books").exists()
    tabforge("book", MANIFEST, "--to", "zip")
    assert tabforge("book", MANIFEST, "--to", "zip", "--check").exit_code == 0
    change(trial / "harbour.toml", "Trial Evenings", "Trial Mornings")
    result = tabforge("book", MANIFEST, "--to", "zip", "--check")
    assert (result.exit_code, result.stderr) == (
        3, "books/harbour.zip is not what would be built.\n7 exercises: all as before.\n",
    )


def test_errors_keep_the_last_good_book(tabforge: Run, tmp_path: Path, trial: Path) -> None:
    tabforge("book", MANIFEST, "--to", "zip")
    before = (tmp_path / "books" / "harbour.zip").read_bytes()
    change(trial / "studies" / "deep-water.riff", "q q q q", "q q q z")
    for option in ([], ["-q"], ["--jobs", "1"]):
        result = tabforge("book", MANIFEST, "--to", "zip", *option)
        assert result.exit_code == 1
        assert result.stderr.startswith("exercise 2.2, studies/deep-water.riff:\nstudies/deep-water.riff:7:18  error T109\n")
        assert result.stderr.endswith("1 exercise has errors, so the book was not bound. books/harbour.zip stays as before.\n")
        assert (tmp_path / "books" / "harbour.zip").read_bytes() == before
    assert tabforge("book", MANIFEST, "--to", "zip", "--check").exit_code == 1
    change(trial / "harbour.toml", 'blocks = ["Landing"]', 'blocks = ["Landin"]')
    result = tabforge("book", MANIFEST, "--to", "zip")
    assert "exercise 1.4, studies/quay-steps.riff:\nThis study has no block “Landin”. Did you mean “Landing”?\n" in result.stderr
    assert "2 exercises have errors" in result.stderr


def test_what_is_wrong_in_the_manifest_is_told_at_its_place(tabforge: Run, tmp_path: Path, trial: Path) -> None:
    (tmp_path / "out.riff").write_text("title Out\n")
    (trial / "studies" / "link.riff").symlink_to(tmp_path / "out.riff")
    (trial / "studies" / "inside.riff").symlink_to(trial / "studies" / "deep-water.riff")
    change(trial / "harbour.toml", "quay-steps.riff", "quay-step.riff")
    change(trial / "harbour.toml", "studies/rope-work.riff", "studies/link.riff")
    change(trial / "harbour.toml", "studies/deep-water.riff", "studies/inside.riff")
    change(trial / "harbour.toml", '"studies/rope-work.riff"', '"../out.riff"')
    result = tabforge("book", MANIFEST, "--to", "zip")
    assert result.exit_code == 1
    for line in (
        "trial/harbour.toml:15:9  error B603", "did you mean studies/quay-steps.riff?", "trial/harbour.toml:27:9  error B602",
        "studies/link.riff leads out of the book's folder", "../out.riff leaves the book's folder", "trial/harbour.toml: 3 errors.",
    ):
        assert line in result.stderr
    assert not (tmp_path / "books").exists()


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("nowhere.toml",), 4, "nowhere.toml cannot be read: no such file or directory."),
        (("trial",), 4, "trial is a folder: name the manifest in it, a file that ends in .toml or .json."),
        ((MANIFEST, "--to", "pfd"), 2, "There is no form 'pfd'. Did you mean pdf?"),
        ((MANIFEST, "--jobs", "2", "--cluster", "tcp://x:1"), 2, "give one of the two"),
        ((MANIFEST, "--to", "zip", "--cluster", "lantern://x"), 2, "There is no cluster at lantern://x"),
        ((MANIFEST, "--jobs", "0"), 2, "--jobs"),
        ((MANIFEST, "--to", "zip", "--into", "trial/harbour.toml"), 4, "cannot be"),
    ],
)
def test_what_cannot_be_done(tabforge: Run, trial: Path, arguments: tuple[str, ...], code: int, words: str) -> None:
    result = tabforge("book", *arguments)
    assert result.exit_code == code
    assert words in result.stderr


def test_without_an_extra_it_says_how_to_get_it(tabforge: Run, trial: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from dataclasses import replace

    from tabforge.book.installation import tool
    from tabforge.cli import booking

    bare = replace(tool(), packages={"zlib": "1"})
    monkeypatch.setattr(booking, "tool", lambda: bare)
    result = tabforge("book", MANIFEST, "--to", "html")
    told = "This book needs markdown-it-py and verovio. Install with: pip install 'tabforge[book,pages]'\n"
    assert (result.exit_code, result.stderr) == (2, told)


def test_a_build_that_is_killed_leaves_the_book_and_goes_on_where_it_was(tmp_path: Path, program: Any) -> None:
    """Two processes at work, killed with SIGKILL (POSIX) when some exercises are made; the workers must not live on."""
    write_book(tmp_path, 40)
    asked = ("book", "bench.toml", "--to", "zip", "--jobs", "2", "--into", "out")
    assert program(*asked).returncode == 0
    book = tmp_path / "out" / "bench.zip"
    kept = tmp_path / "out" / ".tabforge" / "bench"
    before, had = book.read_bytes(), set(kept.glob("*.made"))
    for study in tmp_path.glob("*.riff"):
        change(study, "tempo 96", "tempo 90")
    running = subprocess.Popen(
        [sys.executable, "-m", "tabforge", *asked], cwd=tmp_path, env=environment(), stderr=subprocess.DEVNULL, start_new_session=True
    )
    until = time.monotonic() + 60
    while len(set(kept.glob("*.made")) - had) < 8 and running.poll() is None and time.monotonic() < until:
        time.sleep(0.002)
    os.kill(running.pid, signal.SIGKILL)
    assert running.wait() == -signal.SIGKILL
    made = set(kept.glob("*.made")) - had
    assert 8 <= len(made) < 40
    assert book.read_bytes() == before
    _wait_for_the_end_of(running.pid)
    goes_on = program(*asked)
    assert goes_on.returncode == 0
    assert goes_on.stderr.decode().startswith(f"40 exercises: {40 - len(made)} made ({40 - len(made)}: its text changed), {len(made)} as")
    assert {path.suffix for path in kept.iterdir()} == {".made", ".json"}, "nothing half-written is left"
    assert len(list(kept.glob("*.made"))) == 40
    fresh = program("book", "bench.toml", "--to", "zip", "--jobs", "1", "--into", "fresh")
    assert fresh.returncode == 0
    assert (tmp_path / "fresh" / "bench.zip").read_bytes() == book.read_bytes() != before


def _wait_for_the_end_of(session: int) -> None:
    """Until no process of a session that was begun for the test is left."""
    until = time.monotonic() + 20
    while time.monotonic() < until:
        try:
            os.killpg(session, 0)
        except ProcessLookupError:
            return
        time.sleep(0.05)
    os.killpg(session, signal.SIGKILL)
    pytest.fail("the workers of a build that was killed live on")
