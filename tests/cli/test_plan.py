"""plan: a plan as text or a page, to standard output or a file, and what it answers to mistakes."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from lxml import etree
from typer.testing import Result

from tabforge.cli.exits import Exits
from tests.cli.conftest import GOOD, WRONG

Run = Callable[..., Result]

TWO = GOOD + '\nriff "Fall"\n  rhythm   q q q q\n  degrees  4 3 2 1\n'


@pytest.fixture
def study(tmp_path: Path) -> str:
    (tmp_path / "lantern.riff").write_text(TWO.replace("meter", "tempo    90\nmeter"), encoding="utf-8")
    return "lantern.riff"


def test_text_to_standard_output(tabforge: Run, study: str) -> None:
    result = tabforge("plan", study)
    assert (result.exit_code, result.stderr) == (0, "")
    assert result.stdout.startswith("Practice plan: Lantern Bay\n5 days of 30 minutes. Guitar, tuned E2 ")
    assert result.stdout.count("\nDay ") == 5
    assert result.stdout.endswith("  tabforge tracks lantern.riff --ladder 60..110/10 --times 3 --click\n")
    assert tabforge("plan", study).stdout == result.stdout


def test_every_option_has_its_effect(tabforge: Run, study: str) -> None:
    said = tabforge(
        *("plan", study, "--minutes", "40", "--days", "3", "--ladder", "50..100/25", "--times", "4"),
        *("--keys", "fourths", "--block", "fall"),
    ).stdout
    assert "3 days of 40 minutes" in said
    assert "45, 68, 90 quarter notes a minute" in said
    assert "four times in a row" in said
    assert "C major, F major, Bb major" in said
    assert "Climb" not in said
    assert "--block Fall --ladder 50..100/25 --times 4" in said


def test_a_random_order_follows_its_seed(tabforge: Run, study: str) -> None:
    one, same, other = (tabforge("plan", study, "--keys", "random", "--seed", seed).stdout for seed in ("1", "1", "2"))
    assert one == same
    assert one != other


def test_a_page_into_a_file(tabforge: Run, tmp_path: Path, study: str) -> None:
    result = tabforge("plan", study, "--as", "page", "--into", "out/week.html")
    assert (result.exit_code, result.stdout, result.stderr) == (0, "", "")
    data = (tmp_path / "out" / "week.html").read_bytes()
    assert etree.fromstring(data).tag == "{http://www.w3.org/1999/xhtml}html"
    assert tabforge("plan", study, "--as", "page").stdout_bytes == data
    tabforge("plan", study, "--into", "week.txt")
    assert (tmp_path / "week.txt").read_text(encoding="utf-8") == tabforge("plan", study).stdout


def test_standard_input(tabforge: Run) -> None:
    result = tabforge("plan", "-", stdin=GOOD)
    assert result.exit_code == 0
    assert "choose a tempo at which every note is clear" in result.stdout


def test_a_block_of_a_study_in_several_keys_by_its_plain_name(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "keys.riff").write_text(TWO.replace("meter", "keys     G\nmeter"), encoding="utf-8")
    for name in ("fall", "2", "Fall in G major"):
        said = tabforge("plan", "keys.riff", "--block", name).stdout
        assert "C major, G major" in said
        assert "Climb" not in said
        assert "--block 'Fall in C major'" in said


@pytest.mark.parametrize(("options", "said"), [
    (("--ladder", "fast"), "'fast' is no rung"),
    (("--block", "Fell"), "Did you mean 'Fall'?"),
    (("--minutes", "9"), "--minutes"),
    (("--days", "0"), "--days"),
    (("--times", "21"), "--times"),
    (("--keys", "sixths"), "--keys"),
])
def test_mistakes_are_answered(tabforge: Run, study: str, options: tuple[str, ...], said: str) -> None:
    result = tabforge("plan", study, *options)
    assert result.exit_code == Exits.USAGE
    assert said in result.stderr
    assert result.stdout == ""


def test_a_study_with_errors_is_not_planned(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "lantern.riff").write_text(WRONG, encoding="utf-8")
    result = tabforge("plan", "lantern.riff")
    assert result.exit_code == Exits.ERRORS
    assert result.stdout == ""
    assert "cannot be planned" in result.stderr
    assert "cannot be read" in tabforge("plan", "none.riff").stderr


def test_a_file_that_cannot_be_written(tabforge: Run, tmp_path: Path, study: str) -> None:
    (tmp_path / "blocked").write_text("", encoding="utf-8")
    result = tabforge("plan", study, "--into", "blocked/week.txt")
    assert result.exit_code == Exits.FILES
    assert "cannot be written" in result.stderr


def test_a_seed_without_a_random_order_is_a_mistake(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text('scale C3 major\n\nriff "A"\n  rhythm w\n  degrees 1\n', encoding="utf-8")
    result = tabforge("plan", "a.riff", "--seed", "4", "--keys", "fifths")
    assert (result.exit_code, result.stderr) == (2, "--seed goes with --keys random.\n")
    assert tabforge("plan", "a.riff", "--seed", "4", "--keys", "random").exit_code == 0
