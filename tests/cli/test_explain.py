"""explain: scales, chords and studies, as text and as JSON, and what it answers to mistakes."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from typer.testing import Result

from tabforge import schema
from tabforge.cli.exits import Exits
from tests.cli.conftest import GOOD, WRONG

Run = Callable[..., Result]


def test_a_study_and_a_block_of_it(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "lesson.riff"
    path.write_text(GOOD + GOOD.partition("\n\n")[2].replace("Climb", "Fall"), encoding="utf-8")
    whole = tabforge("explain", str(path))
    assert whole.exit_code == 0
    assert "  Climb  (1 bar, 4 notes)" in whole.stdout
    assert "  Fall  (1 bar, 4 notes)" in whole.stdout
    for words in (("--block", "Fall"), ("--block", "2"), ("fall",)):
        part = tabforge("explain", str(path), *words).stdout
        assert "Fall" in part
        assert "Climb" not in part


def test_a_study_from_standard_input(tabforge: Run) -> None:
    assert "C major: C D E F G A B" in tabforge("explain", "-", stdin=GOOD).stdout


def test_a_study_with_errors_is_not_explained(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "lesson.riff"
    path.write_text(WRONG, encoding="utf-8")
    result = tabforge("explain", str(path))
    assert result.exit_code == Exits.ERRORS
    assert result.stdout == ""
    assert "z" in result.stderr


@pytest.mark.parametrize(("words", "kinds"), [
    (("Bb", "lydian"), ["scale"]),
    (("Dm7", "in", "C", "major"), ["chord"]),
    (("rhythm",), ["page", "page"]),
    (("M301",), ["page"]),
])  # fmt: skip
def test_json_is_as_its_schema_says(tabforge: Run, words: tuple[str, ...], kinds: list[str]) -> None:
    result = tabforge("explain", *words, "--json")
    found = json.loads(result.stdout)
    Draft202012Validator(schema.load("explanation")).validate(found)
    assert [each["explains"] for each in found["found"]] == kinds


def test_json_of_a_study(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "lesson.riff"
    path.write_text(GOOD, encoding="utf-8")
    found = json.loads(tabforge("explain", str(path), "--json").stdout)
    Draft202012Validator(schema.load("explanation")).validate(found)
    assert found["found"][0]["blocks"][0]["lowest"] == "C3"


@pytest.mark.parametrize(("arguments", "code", "hint"), [
    (("explain", "nowhere.riff"), Exits.FILES, "cannot be read"),
    (("explain", "Bb", "lydian", "--block", "1"), Exits.USAGE, "say its file first"),
    (("explain", "Dm7", "in", "C", "majr"), Exits.USAGE, "There is nothing called"),
])  # fmt: skip
def test_mistakes(tabforge: Run, arguments: tuple[str, ...], code: Exits, hint: str) -> None:
    result = tabforge(*arguments)
    assert result.exit_code == code
    assert hint in result.stderr
    assert result.stdout == ""


def test_a_block_that_is_not_there(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "lesson.riff"
    path.write_text(GOOD, encoding="utf-8")
    result = tabforge("explain", str(path), "--block", "Clim")
    assert result.exit_code == Exits.USAGE
    assert "Did you mean 'Climb'?" in result.stderr
