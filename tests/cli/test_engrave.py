"""engrave: which pictures come of what is asked for, and what is said."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import etree
from typer.testing import Result

from tests.cli.conftest import GOOD, WRONG

SVG = "{http://www.w3.org/2000/svg}"
LINES = GOOD + '\nriff "Down"\n  rhythm   q q q q\n  degrees  4 3 2 1\n'


@pytest.fixture
def study(tmp_path: Path) -> str:
    (tmp_path / "lantern.riff").write_text(LINES)
    return "lantern.riff"


def names(folder: Path) -> list[str]:
    return sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())


def test_a_picture_for_a_study(tabforge: Callable[..., Result], tmp_path: Path, study: str) -> None:
    result = tabforge("engrave", study)
    assert (result.exit_code, result.stderr) == (0, "1 study: 1 picture written to pages.\n")
    root = etree.parse(tmp_path / "pages" / "lantern.svg").getroot()
    assert root.get("width") == "210mm"
    assert len(root.findall(f"{SVG}svg")) == 2
    again = tabforge("engrave", study)
    assert again.stderr == "1 study: 0 pictures written to pages, 1 already as they should be.\n"


@pytest.mark.parametrize(("paper", "width"), [("letter", "215.9mm"), ("a5", "148mm")])
def test_papers(tabforge: Callable[..., Result], tmp_path: Path, study: str, paper: str, width: str) -> None:
    assert tabforge("engrave", study, "--paper", paper, "--into", "out", "-q").stderr == ""
    assert etree.parse(tmp_path / "out" / "lantern.svg").getroot().get("width") == width


def test_a_picture_for_each_line(tabforge: Callable[..., Result], tmp_path: Path, study: str) -> None:
    assert tabforge("engrave", study, "--systems", "--web").exit_code == 0
    assert names(tmp_path / "pages") == ["lantern-01.svg", "lantern-02.svg"]
    text = (tmp_path / "pages" / "lantern-02.svg").read_text()
    assert "currentColor" in text
    assert "#000" not in text
    assert "Down" in text, "in the words for those who hear it"
    assert ">Down</text>" not in text


def test_charts_may_be_left_out(tabforge: Callable[..., Result], tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text('riff\n  chords Am@x02210\n  rhythm w\n  frets 5:0+4:2\n')
    sizes = []
    for option in ("--charts", "--no-charts"):
        assert tabforge("engrave", "a.riff", option).exit_code == 0
        sizes.append((tmp_path / "pages" / "a.svg").read_text().count("chord-chart"))
    assert sizes == [1, 0]


def test_standard_input_folders_and_errors(tabforge: Callable[..., Result], tmp_path: Path) -> None:
    assert tabforge("engrave", "-", "--into", "out", stdin=GOOD).exit_code == 0
    assert len(names(tmp_path / "out")) == 1
    (tmp_path / "in" / "deep").mkdir(parents=True)
    (tmp_path / "in" / "deep" / "good.riff").write_text(GOOD)
    (tmp_path / "in" / "wrong.riff").write_text(WRONG)
    result = tabforge("engrave", "in", "--into", "all", "-q")
    assert result.exit_code == 1
    assert "wrong.riff" in result.stderr
    assert names(tmp_path / "all") == ["deep/good.svg"]
    assert tabforge("engrave", "none.riff").exit_code == 4
    assert tabforge("engrave", "-", "in", stdin=GOOD).exit_code == 2
    (tmp_path / "blocked").write_text("a file")
    assert "cannot be written" in tabforge("engrave", "in/deep", "--into", "blocked").stderr


def test_without_the_extra_it_says_how_to_get_it(
    tabforge: Callable[..., Result], tmp_path: Path, study: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(sys.modules, "verovio", None)
    result = tabforge("engrave", study)
    assert (result.exit_code, result.stderr) == (2, "Engraved pages need verovio. Install with: pip install 'tabforge[pages]'\n")
    assert not (tmp_path / "pages").exists()
