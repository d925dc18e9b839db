"""check reports without writing, tidy lays out in place, new starts a study and never overwrites one."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import jsonschema
import pytest
from pydantic_sarif.model import StaticAnalysisResultsFormatSarifVersion210JsonSchema as SarifLog
from typer.testing import Result

from tabforge.cli.exits import Exits
from tabforge.cli.handbook import TITLE, template, templates
from tabforge.cli.starting import study_path, study_title
from tabforge.pipeline import build, study_from, tidied
from tabforge.writers import WRITERS
from tests.cli.conftest import GOOD, ROOT, WRONG

Run = Callable[..., Result]

UNTIDY = GOOD.replace("  rhythm   q q q q\n", "    rhythm q  q q   q // even\n")


def test_check_reports_on_standard_output_and_writes_nothing(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text(GOOD)
    result = tabforge("check", "a.riff")
    assert (result.exit_code, result.stdout, result.stderr) == (0, "1 study checked: 0 errors.\n", "")
    (tmp_path / "b.riff").write_text(WRONG)
    result = tabforge("check", ".")
    assert result.exit_code == Exits.ERRORS
    assert result.stdout.startswith("b.riff:6:18  error ")
    assert result.stdout.endswith("\nb.riff: 1 error.\n\n2 studies checked: 1 error.\n")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.riff", "b.riff"]


def test_advice_is_no_error_and_quiet_leaves_it_out(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text(GOOD.replace("C3 major", "G#2 lydian"))
    assert tabforge("check", "a.riff").exit_code == 0
    assert "advice A501" in tabforge("check", "a.riff").stdout
    assert tabforge("check", "a.riff", "--quiet").stdout == ""


def test_every_error_is_reported_in_one_run(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text(GOOD.replace("title", "titel") + "  marks    pm zz . .\n\nrun \"x\"\n  layuot  open\n")
    shown = tabforge("check", "a.riff").stdout
    for word in ("titel", "zz", "layuot"):
        assert word in shown
    assert "did you mean title?" in shown
    assert "did you mean layout?" in shown


def test_the_machine_reports_obey_their_schemas(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text(GOOD)
    (tmp_path / "b.riff").write_text(WRONG)
    result = tabforge("check", "a.riff", "b.riff", "nowhere", "--report", "json")
    assert result.exit_code == Exits.FILES
    assert "nowhere" in result.stderr
    report = json.loads(result.stdout)
    jsonschema.validate(report, json.loads((ROOT / "schemas/report.schema.json").read_text()))
    assert [(entry["name"], entry["errors"]) for entry in report["files"]] == [("a.riff", 0), ("b.riff", 1)]
    result = tabforge("check", "a.riff", "b.riff", "--report", "sarif")
    assert result.exit_code == Exits.ERRORS
    SarifLog.model_validate_json(result.stdout)
    assert json.loads(result.stdout)["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["region"]["startLine"] == 6


def test_standard_input_is_checked(tabforge: Run) -> None:
    assert tabforge("check", "-", stdin=GOOD).exit_code == 0
    assert tabforge("check", "-", stdin=WRONG).stdout.startswith("<stdin>:6:18")
    assert tabforge("check", "-", "a.riff", stdin=WRONG).exit_code == Exits.USAGE


NONSENSE = [b"\xff\xfe\x00", b"", b"\x00" * 100, b"{", b"{}", b"[" * 100_000, b'{"study": 1, "blocks": 7}', b"\r\r\r"]


@pytest.mark.parametrize("data", NONSENSE)
def test_no_bytes_give_a_traceback(tabforge: Run, data: bytes) -> None:
    for arguments in (("check", "-"), ("build", "-", "--to", "tab"), ("tidy", "-"), ("check", "-", "--report", "sarif")):
        assert tabforge(*arguments, stdin=data).exit_code in (Exits.FINE, Exits.ERRORS)


def test_tidy_lays_out_in_place_and_twice_changes_nothing(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "a.riff"
    path.write_text(UNTIDY)
    result = tabforge("tidy", "--check", ".")
    assert result.exit_code == Exits.DIFFERS
    assert result.stderr == "a.riff: would change\n1 study: 1 would change.\n"
    assert path.read_text() == UNTIDY
    assert tabforge("tidy", ".").stderr == "1 study: 1 changed.\n"
    assert "// even" in path.read_text()
    assert tabforge("tidy", ".").stderr == "1 study: 0 changed.\n"
    assert tabforge("tidy", ".", "--check").exit_code == 0
    assert tabforge("tidy", "-", stdin=UNTIDY).stdout == path.read_text()
    assert tabforge("tidy", "-", "--check", stdin=UNTIDY).exit_code == Exits.DIFFERS


def test_tidy_changes_no_export(tmp_path: Path) -> None:
    text, _ = tidied("a.riff", UNTIDY.encode())
    assert text is not None
    assert build("a", text.encode(), WRITERS).files == build("a", UNTIDY.encode(), WRITERS).files


def test_tidy_leaves_what_it_cannot_read_alone(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "a.riff"
    path.write_text(WRONG)
    (tmp_path / "b.json").write_text("{}")
    result = tabforge("tidy", "a.riff", "b.json", "nowhere")
    assert result.exit_code == Exits.FILES
    assert "b.json: only *.riff files are laid out." in result.stderr
    assert "a.riff:6:18  error" in result.stderr
    assert path.read_text() == WRONG
    assert tabforge("tidy", "a.riff").exit_code == Exits.ERRORS
    assert tabforge("tidy", "-", stdin=WRONG).stdout == ""


def test_tidy_lays_out_what_is_well_written_but_wrong_music(tabforge: Run, tmp_path: Path) -> None:
    path = tmp_path / "a.riff"
    path.write_text(UNTIDY.replace("q // even", "h // even"))
    assert tabforge("tidy", "a.riff").exit_code == 0
    assert path.read_text() != UNTIDY


@pytest.mark.parametrize("kind", templates())
def test_a_template_is_sound_tidy_and_carries_its_title(tabforge: Run, tmp_path: Path, kind: str) -> None:
    result = tabforge("new", "week-2/lantern-bay", "--kind", kind)
    assert result.exit_code == 0
    path = tmp_path / "week-2/lantern-bay.riff"
    text = path.read_text()
    assert text == template(kind, "Lantern Bay")
    assert TITLE not in text
    outcome = study_from("x.riff", text.encode())
    assert outcome.diagnostics == ()
    assert outcome.score is not None
    assert outcome.score.title == "Lantern Bay"
    assert tabforge("tidy", "--check", str(path)).exit_code == 0
    assert tabforge("build", str(path)).exit_code == 0


def test_new_never_overwrites(tabforge: Run, tmp_path: Path) -> None:
    (tmp_path / "a.riff").write_text("mine")
    for name in ("a", "a.riff", "./a"):
        result = tabforge("new", name)
        assert result.exit_code == Exits.FILES
        assert "a.riff exists already, so it is left as it is.\n" in result.stderr
    (tmp_path / "b.riff").symlink_to("a.riff")
    assert tabforge("new", "b").exit_code == Exits.FILES
    assert (tmp_path / "a.riff").read_text() == "mine"
    assert tabforge("new", "a.riff/c").stderr == "a.riff/c.riff cannot be written: not a directory.\n"


@pytest.mark.parametrize(
    "arguments",
    [("a", "--kind", "polka"), ("",), ("..",), ("a", "--title", ""), ("a", "--title", "x // y"), ("a", "--title", "\x07")],
)
def test_new_refuses_what_it_cannot_make(tabforge: Run, tmp_path: Path, arguments: tuple[str, ...]) -> None:
    assert tabforge("new", *arguments).exit_code == Exits.USAGE
    assert list(tmp_path.iterdir()) == []


def test_a_title_is_made_from_the_name_or_given(tabforge: Run, tmp_path: Path) -> None:
    tabforge("new", "x", "--title", "Two  words")
    assert "title    Two words\n" in (tmp_path / "x.riff").read_text()
    path = study_path("low_tide.study.2")
    assert path is not None
    assert path.name == "low_tide.study.2.riff"
    assert study_title(path) == "Low Tide Study 2"
