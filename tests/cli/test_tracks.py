"""tracks: which files come of what is asked for, and what is said."""

from __future__ import annotations

import io
import sys
import wave
from collections.abc import Callable
from pathlib import Path

import pytest
import soundfile
from typer.testing import Result

from tabforge.cli.tracking import CAUTION
from tests.cli.conftest import GOOD, WRONG
from tests.cli.test_startup import HEAVY, loaded

Run = Callable[..., Result]

STUDY = """\
title    Lantern Bay
tempo    120

riff "Climb"
  scale    C3 major
  rhythm   q q q q
  degrees  1 2 3 4

riff "Slack water"
  rhythm   h h
  notes    A2 E3
"""

BAR, REST, TAIL = 2.0, 0.25, 1.5


@pytest.fixture
def study(tmp_path: Path) -> str:
    (tmp_path / "lantern.riff").write_text(STUDY)
    return "lantern.riff"


def seconds(path: Path) -> float:
    with wave.open(str(path)) as file:
        return file.getnframes() / file.getframerate()


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_study_becomes_a_track_with_a_bar_counted_before_each_block(tabforge: Run, study: str, tmp_path: Path) -> None:
    result = tabforge("tracks", study)
    assert (result.exit_code, result.stdout) == (0, "")
    assert names(tmp_path / "tracks") == ["lantern.wav"]
    assert seconds(tmp_path / "tracks" / "lantern.wav") == pytest.approx(REST + 4 * BAR + TAIL, abs=1e-3)
    assert result.stderr.startswith("tracks/lantern.wav written: 0:10 min, peak -")
    assert result.stderr.endswith(CAUTION + "\n")
    again = tabforge("tracks", study)
    assert again.stderr.startswith("tracks/lantern.wav is as it should be: ")


def test_the_caution_says_what_it_must() -> None:
    for word in ("low volume", "headphones", "breaks", "ears ring", "clinician"):
        assert word in CAUTION


@pytest.mark.parametrize(("said", "bars"), [("0", 2), ("2", 6), (None, 4)])
def test_nobody_counts_where_the_study_says_so(tabforge: Run, tmp_path: Path, said: str | None, bars: int) -> None:
    line = "" if said is None else f"count-in {said}\n"
    (tmp_path / "lantern.riff").write_text(line + STUDY)
    assert tabforge("tracks", "lantern.riff").exit_code == 0
    assert seconds(tmp_path / "tracks" / "lantern.wav") == pytest.approx(REST + bars * BAR + TAIL, abs=1e-3)


@pytest.mark.parametrize(("option", "length"), [
    (("--count-in", "0"), 2 * BAR),
    (("--count-in", "2"), 6 * BAR),
    (("--block", "climb"), 2 * BAR),
    (("--block", "2", "--count-in", "0"), BAR),
    (("--block", "climb", "--times", "5"), 6 * BAR),
    (("--block", "climb", "--ladder", "50"), 4 * BAR),
])
def test_options_change_how_long_it_is(tabforge: Run, study: str, tmp_path: Path, option: tuple[str, ...], length: float) -> None:
    assert tabforge("tracks", study, "--into", "out", *option).exit_code == 0
    (made,) = (tmp_path / "out").iterdir()
    assert seconds(made) == pytest.approx(REST + length + TAIL, abs=1e-3)


def test_a_ladder_with_a_file_for_each_rung_and_part(tabforge: Run, study: str, tmp_path: Path) -> None:
    options = ("--block", "Slack water", "--ladder", "62.5,100", "--split", "--stems", "--to", "mp3", "--into", ".")
    assert tabforge("tracks", study, *options).exit_code == 0
    rungs = [f"lantern-slack-water.{rung}{part}.mp3" for rung in ("062_5", "100") for part in ("", ".line", ".click")]
    assert names(tmp_path) == sorted([study, *rungs])
    signal, rate = soundfile.read(io.BytesIO((tmp_path / "lantern-slack-water.100.mp3").read_bytes()))
    assert len(signal) / rate == pytest.approx(REST + 2 * BAR + TAIL, abs=1e-3)


def test_a_drone_and_a_click_are_added_and_left_out(tabforge: Run, study: str, tmp_path: Path) -> None:
    def parts(*options: str) -> list[str]:
        result = tabforge("tracks", study, "--block", "climb", "--stems", "--into", "out", *options)
        assert result.exit_code == 0, result.stderr
        found = [name.split(".")[1] for name in names(tmp_path / "out") if name.count(".") == 2]
        for path in (tmp_path / "out").iterdir():
            path.unlink()
        return found

    assert parts() == ["click", "line"]  # the click is the count-in
    assert parts("--drone") == ["click", "drone", "line"]
    assert parts("--drone", "--no-line") == ["click", "drone"]
    assert parts("--no-click", "--count-in", "0") == ["line"]
    assert parts("--click", "--count-in", "0") == ["click", "line"]


def test_tuning_changes_the_sound(tabforge: Run, study: str, tmp_path: Path) -> None:
    made = []
    for a4 in ("440", "432"):
        tabforge("tracks", study, "--a4", a4)
        made.append((tmp_path / "tracks" / "lantern.wav").read_bytes())
    assert made[0] != made[1]


def test_a_drone_without_a_root_is_told(tabforge: Run, study: str) -> None:
    result = tabforge("tracks", study, "--block", "slack water", "--drone")
    assert result.exit_code == 0
    assert "a block without a scale has none" in result.stderr


def test_standard_input_and_folders(tabforge: Run, tmp_path: Path) -> None:
    assert tabforge("tracks", "-", "--into", "out", stdin=STUDY).exit_code == 0
    (tmp_path / "in" / "deep").mkdir(parents=True)
    (tmp_path / "in" / "deep" / "a.riff").write_text(STUDY)
    (tmp_path / "in" / "b.riff").write_text(WRONG)
    result = tabforge("tracks", "in", "--into", "out", "-q")
    assert result.exit_code == 1
    assert CAUTION not in result.stderr
    assert names(tmp_path / "out") == ["deep", "study.wav"]
    assert names(tmp_path / "out" / "deep") == ["a.wav"]


@pytest.mark.parametrize(("options", "said"), [
    (("--ladder", "60..120"), "is no rung"),
    (("--ladder", "5"), "10 to 400 %"),
    (("--a4", "300"), "400 to 480 Hz"),
    (("--times", "0"), "1 to 100 times"),
    (("--block", "climbing"), "Did you mean 'Climb'?"),
    (("--no-line", "--count-in", "0"), "nothing to hear"),
    (("--ladder", "10", "--times", "100"), "15:00 min"),
])
def test_what_cannot_be_made_is_said(tabforge: Run, study: str, tmp_path: Path, options: tuple[str, ...], said: str) -> None:
    result = tabforge("tracks", study, *options)
    assert result.exit_code == 2
    assert said in result.stderr
    assert CAUTION not in result.stderr
    assert not (tmp_path / "tracks").exists()


def test_a_block_is_of_one_study(tabforge: Run, study: str, tmp_path: Path) -> None:
    (tmp_path / "other.riff").write_text(STUDY)
    result = tabforge("tracks", study, "other.riff", "--block", "climb")
    assert (result.exit_code, result.stderr) == (2, "--block names a block of one study: give one.\n")


def test_files_that_are_not_there(tabforge: Run, study: str, tmp_path: Path) -> None:
    result = tabforge("tracks", "none.riff", study)
    assert result.exit_code == 4
    assert "none.riff: there is no such file" in result.stderr
    (tmp_path / "blocked").write_text("")
    assert "cannot be written" in tabforge("tracks", study, "--into", "blocked").stderr


def test_without_the_extra_its_command_is_told(tabforge: Run, study: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "soundfile", None)  # type: ignore[arg-type]  # None makes its import fail
    result = tabforge("tracks", study, "--to", "mp3")
    assert (result.exit_code, result.stderr) == (2, "Practice tracks need soundfile. Install with: pip install 'tabforge[sound]'\n")
    assert tabforge("tracks", study).exit_code == 0


def test_wav_loads_numpy_and_nothing_else_that_is_dear(tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text(GOOD)
    modules = {name.partition(".")[0] for name in loaded(tmp_path, "tracks", "a.riff")}
    assert "soundfile" not in modules
    assert modules & HEAVY - {"asyncio", "unittest", "xml", "http"} == {"numpy"}
