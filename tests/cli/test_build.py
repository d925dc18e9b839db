"""build: the right files in the right places, and the last good ones kept whatever goes wrong."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import fields
from pathlib import Path

import pytest
from typer.testing import Result

from tabforge.cli import disk
from tabforge.cli.building import Tally, summary
from tabforge.cli.exits import Exits
from tabforge.pipeline import build
from tabforge.writers import WRITERS
from tabforge.writers.options import WriteOptions
from tests.cli.conftest import GOOD, WRONG

Run = Callable[..., Result]

JSON = (
    '{"study": 1, "title": "Lantern Bay", "scale": {"root": "C3", "name": "major"}, "meter": "4/4", "blocks": '
    '[{"kind": "riff", "name": "Climb", "systems": [{"rhythm": ["q q q q"], "degrees": ["1 2 3 4"]}]}]}'
)


def _write(folder: Path, **files: str) -> None:
    for name, text in files.items():
        path = folder / name.replace("__", "/").replace("_json", ".json")
        path = path if path.suffix == ".json" else path.with_suffix(".riff")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def _files(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_folders_are_searched_and_keep_their_shape(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, studies__one=GOOD, studies__week__two=GOOD, studies__week__three_json=JSON, studies___hidden__x=GOOD)
    (tmp_path / "studies" / ".git").mkdir()
    _write(tmp_path / "studies" / ".git", no=GOOD)
    _write(tmp_path, studies__settings_json='{"colour": "red"}')
    result = tabforge("build", "studies", "--into", "out")
    assert result.exit_code == 0
    assert _files(tmp_path / "out") == [
        "_hidden/x.musicxml", "_hidden/x.tab.txt", "one.musicxml", "one.tab.txt",
        "week/three.musicxml", "week/three.tab.txt", "week/two.musicxml", "week/two.tab.txt",
    ]
    assert result.stderr == "4 studies: 8 files written to out.\n"
    assert result.stdout == ""
    assert (tmp_path / "out/week/three.musicxml").read_bytes() == (tmp_path / "out/week/two.musicxml").read_bytes()


def test_files_go_straight_into_the_folder_and_exports_is_the_usual_one(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, a__b__deep=GOOD)
    assert tabforge("build", "a/b/deep.riff", "--to", "tab").exit_code == 0
    assert _files(tmp_path / "exports") == ["deep.tab.txt"]


def test_the_bytes_are_those_of_the_pipeline(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, a=GOOD)
    assert tabforge("build", "a.riff", *(f"--to={name}" for name in WRITERS)).exit_code == 0
    built = build("a.riff", GOOD.encode(), WRITERS)
    for name, data in built.files.items():
        assert (tmp_path / f"exports/a{WRITERS[name].suffix}").read_bytes() == data
    assert len(built.files) == len(WRITERS)


def test_a_study_with_errors_keeps_its_last_exports_and_the_others_are_built(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, s__a=GOOD, s__b=GOOD)
    assert tabforge("build", "s", "--into", "out").exit_code == 0
    kept = (tmp_path / "out/a.musicxml").read_bytes()
    _write(tmp_path, s__a=WRONG, s__b=GOOD.replace("1 2 3 4", "1 2 3 5"))
    result = tabforge("build", "s", "--into", "out")
    assert result.exit_code == Exits.ERRORS
    assert (tmp_path / "out/a.musicxml").read_bytes() == kept
    assert "s/a.riff:6:18  error T" in result.stderr
    assert result.stderr.endswith("2 studies: 2 files written to out; 1 study has errors and keeps the exports it had.\n")


def test_a_file_whose_bytes_do_not_change_is_not_written(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, a=GOOD)
    tabforge("build", "a.riff")
    path = tmp_path / "exports/a.musicxml"
    os.utime(path, (1, 1))
    result = tabforge("build", "a.riff")
    assert path.stat().st_mtime == 1
    assert result.stderr == "1 study: 0 files written to exports, 2 already as they should be.\n"


def test_check_tells_what_is_missing_what_differs_and_what_nothing_builds(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, s__a=GOOD, s__b=GOOD)
    result = tabforge("build", "s", "--into", "out", "--check")
    assert result.exit_code == Exits.DIFFERS
    assert not (tmp_path / "out").exists()
    assert "out/a.musicxml: is missing\n" in result.stderr
    tabforge("build", "s", "--into", "out")
    assert tabforge("build", "s", "--into", "out", "--check").exit_code == 0
    before = (tmp_path / "out/a.tab.txt").read_bytes()
    _write(tmp_path, s__a=GOOD.replace("Lantern", "Latern"))
    (tmp_path / "s/b.riff").unlink()
    (tmp_path / "out/readme.txt").write_text("not an export")
    result = tabforge("build", "s", "--into", "out", "--check")
    assert result.exit_code == Exits.DIFFERS
    assert "out/a.tab.txt: is not what would be built\n" in result.stderr
    assert "out/b.musicxml: no study builds it\n" in result.stderr
    assert "readme" not in result.stderr
    assert (tmp_path / "out/a.tab.txt").read_bytes() == before


def test_an_option_that_changes_the_bytes_makes_check_differ(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, a=GOOD)
    tabforge("build", "a.riff")
    assert tabforge("build", "a.riff", "--check", "--staves", "tab").exit_code == Exits.DIFFERS


RICH = """\
title    Kölner Straße
scale    D3 dorian
riff "Long way"
  rhythm   e*8
  degrees  1 2 3 4 5 6 7 8 | %*11
  marks    pm - - . . . . .
"""

OTHER = {
    "staves": ("--staves", "parts"), "exact_mode": ("--exact-mode",), "width": ("--width", "60"), "ascii_only": ("--ascii-only",),
    "rhythm_line": ("--no-rhythm-line",), "legend": ("--no-legend",), "headings": ("--no-headings",),
}


@pytest.mark.parametrize("option", [field.name for field in fields(WriteOptions)])
def test_every_setting_of_the_writers_is_an_option_with_an_effect(tabforge: Run, tmp_path: Path, option: str) -> None:
    _write(tmp_path, a=RICH)
    tabforge("build", "a.riff", "--into", "usual")
    tabforge("build", "a.riff", "--into", "other", *OTHER[option])
    usual, other = ([(tmp_path / folder / name).read_bytes() for name in ("a.musicxml", "a.tab.txt")] for folder in ("usual", "other"))
    assert usual != other


def test_two_studies_for_one_file_are_refused_and_nothing_is_built(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, s__a=GOOD, s__a_json=JSON, s__c=GOOD)
    result = tabforge("build", "s", "--into", "out")
    assert result.exit_code == Exits.USAGE
    assert "s/a.json and s/a.riff would both be written to out/a.*\n" in result.stderr
    assert not (tmp_path / "out").exists()
    _write(tmp_path, t__x=GOOD, u__X=GOOD)
    assert "t/x.riff and u/X.riff would both be written" in tabforge("build", "t", "u").stderr


def test_a_study_named_twice_is_built_once(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, s__a=GOOD)
    (tmp_path / "link.riff").symlink_to(tmp_path / "s/a.riff")
    assert tabforge("build", "s", "s/a.riff", "./s/../s", "link.riff").stderr.startswith("1 study: ")


def test_the_folder_of_exports_is_not_searched_for_studies(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, s__a=GOOD, s__out__old=GOOD)
    assert tabforge("build", "s", "--into", "s/out").stderr.startswith("1 study: ")


@pytest.mark.parametrize(
    ("arguments", "code", "told"),
    [
        (("nowhere",), Exits.FILES, "nowhere: there is no such file or folder.\n"),
        (("empty",), Exits.FILES, "empty: there are no studies in this folder."),
        (("a.riff", "--into", "a.riff"), Exits.FILES, "The folder a.riff cannot be made: file exists.\n"),
        (("a.riff", "--into", "a.riff/x"), Exits.FILES, "The folder a.riff/x cannot be made: not a directory.\n"),
        (("a.riff", "--to", "musixml"), Exits.USAGE, "There is no format 'musixml'. Did you mean musicxml?\n"),
        (("a.riff", "--to", "parchment"), Exits.USAGE, "There are: musicxml, "),
        (("-", "a.riff"), Exits.USAGE, "Standard input (-) is built alone"),
        (("-",), Exits.USAGE, "Standard output takes one format"),
        (("-", "--to", "tab", "--to", "mxl"), Exits.USAGE, "Standard output takes one format"),
        (("a.riff", "--width", "3"), Exits.USAGE, "--width"),
        (("",), Exits.FILES, "there is no such file or folder"),
    ],
)
def test_mistakes_are_told_in_words(tabforge: Run, tmp_path: Path, arguments: tuple[str, ...], code: int, told: str) -> None:
    _write(tmp_path, a=GOOD)
    (tmp_path / "empty").mkdir()
    result = tabforge("build", *arguments)
    assert (result.exit_code, result.stdout) == (code, "")
    assert told in result.stderr


def test_a_missing_file_does_not_keep_the_others_from_being_built(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, a=GOOD)
    (tmp_path / "dangling.riff").symlink_to("gone.riff")
    result = tabforge("build", "nowhere", "dangling.riff", "a.riff")
    assert result.exit_code == Exits.FILES
    assert "dangling.riff cannot be read: no such file or directory.\n" in result.stderr
    assert "1 study: 2 files written" in result.stderr


@pytest.mark.skipif(os.geteuid() == 0, reason="the superuser may read and write everything")
def test_what_may_not_be_read_or_written_is_told(tabforge: Run, tmp_path: Path) -> None:
    _write(tmp_path, s__a=GOOD, t__b=GOOD)
    (tmp_path / "s").chmod(0)
    (tmp_path / "out").mkdir(mode=0o500)
    try:
        result = tabforge("build", "s", "t", "--into", "out")
    finally:
        (tmp_path / "s").chmod(0o700)
    assert result.exit_code == Exits.FILES
    assert "this folder cannot be read: permission denied" in result.stderr
    assert "out/b.musicxml cannot be written: permission denied" in result.stderr


def test_standard_input_goes_to_standard_output(tabforge: Run, tmp_path: Path) -> None:
    for text in (GOOD, JSON):
        result = tabforge("build", "-", "--to", "musicxml", stdin=text)
        assert result.exit_code == 0
        assert result.stdout_bytes == build("<stdin>", text.encode(), ["musicxml"]).files["musicxml"]
        assert result.stderr == ""
    wrong = tabforge("build", "-", "--to", "tab", stdin=WRONG)
    assert (wrong.exit_code, wrong.stdout) == (Exits.ERRORS, "")
    assert wrong.stderr.startswith("<stdin>:6:18  error ")
    assert _files(tmp_path) == []


def test_standard_input_goes_to_a_folder_that_is_named(tabforge: Run, tmp_path: Path) -> None:
    assert tabforge("build", "-", "--into", "out", stdin=GOOD).exit_code == 0
    assert _files(tmp_path / "out") == ["study.musicxml", "study.tab.txt"]
    assert tabforge("build", "-", "--into", "out", "--check", stdin=GOOD).exit_code == 0


def test_quiet_says_nothing_but_errors(tabforge: Run, tmp_path: Path) -> None:
    advised = GOOD.replace("C3 major", "G#2 lydian")
    _write(tmp_path, a=advised, b=WRONG)
    assert "A501" in tabforge("build", "a.riff").stderr
    assert tabforge("build", "a.riff", "-q").stderr == ""
    shown = tabforge("build", "a.riff", "b.riff", "--quiet").stderr
    assert "A501" not in shown
    assert "b.riff: 1 error.\n" in shown
    assert "written" not in shown


def test_a_name_that_could_steer_the_terminal_is_made_visible(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a\x1b[31m.riff").write_text(WRONG)
    shown = tabforge("build", "a\x1b[31m.riff", "n\x07").stderr
    assert "\x1b" not in shown
    assert "\x07" not in shown
    assert "a<U+001B>[31m.riff:6:18" in shown


@pytest.mark.parametrize("stop", [KeyboardInterrupt, OSError])
def test_a_stop_in_the_middle_leaves_the_old_file_and_no_half_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, stop: type[BaseException]
) -> None:
    path = tmp_path / "a.txt"
    path.write_bytes(b"old")

    def halt(self: Path, target: Path) -> None:
        raise stop

    monkeypatch.setattr(Path, "replace", halt)
    with pytest.raises(stop):
        disk.write(path, b"new")
    assert path.read_bytes() == b"old"
    assert _files(tmp_path) == ["a.txt"]


def test_writing_keeps_permissions_and_links(tmp_path: Path) -> None:
    real, link = tmp_path / "real.txt", tmp_path / "link.txt"
    real.write_bytes(b"old")
    real.chmod(0o640)
    link.symlink_to(real)
    disk.write(link, b"new")
    assert link.is_symlink()
    assert real.read_bytes() == b"new"
    assert real.stat().st_mode & 0o777 == 0o640
    fresh = tmp_path / "deep" / "er" / "fresh.txt"
    disk.write(fresh, b"x")
    umask = os.umask(0)
    os.umask(umask)
    assert fresh.stat().st_mode & 0o777 == 0o666 & ~umask


def test_the_summary_counts_in_words() -> None:
    into = Path("out")
    assert summary(Tally(studies=1, written=1), into, check=False) == "1 study: 1 file written to out."
    told = summary(Tally(studies=3, written=2, same=2, failed=1), into, check=False)
    assert told == "3 studies: 2 files written to out, 2 already as they should be; 1 study has errors and keeps the exports it had."
    told = summary(Tally(studies=4, failed=2), into, check=False)
    assert told == "4 studies: 0 files written to out; 2 studies have errors and keep the exports they had."
    told = summary(Tally(studies=2, same=4), into, check=True)
    assert told == "2 studies checked against out: all files are as they would be built."
    told = summary(Tally(studies=2, failed=1, differing=["x"]), into, check=True)
    assert told == "2 studies checked against out: 1 file differs; 1 study has errors."


def test_a_pipe_is_written_into_and_not_replaced(tmp_path: Path) -> None:
    # Moving a file onto a pipe or a device such as /dev/null would put an ordinary file in its place, for every program.
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    try:
        disk.write(pipe, b"new")
        assert os.read(reader, 10) == b"new"
    finally:
        os.close(reader)
    assert pipe.is_fifo()
