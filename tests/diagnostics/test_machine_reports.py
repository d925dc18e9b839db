"""The JSON report against its schema, the SARIF log against the standard.

``pydantic_sarif.model`` is generated from the standard's own sarif-schema-2.1.0.json (OASIS) and forbids what
that forbids.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urlsplit

import jsonschema
import pytest
from pydantic_sarif.model import StaticAnalysisResultsFormatSarifVersion210JsonSchema as SarifLog

from tabforge.diagnostics import Code, Diagnostic, Label, Severity
from tabforge.diagnostics.catalogue import CODES
from tabforge.diagnostics.render_json import render as render_json
from tabforge.diagnostics.render_sarif import render as render_sarif
from tabforge.source import Source, Span

SCHEMA = json.loads((Path(__file__).parents[2] / "schemas" / "report.schema.json").read_text())

TEXT = "title Tōkyō 東京 🎸\r\ntempoo 96\r\nmeter 4/4\r\n"


def _code(severity: Severity) -> Code:
    found = next((code for code in CODES.values() if code.severity is severity), None)
    assert found, f"the catalogue has no code that is {severity.value}"
    return found


@pytest.fixture
def checked() -> list[tuple[Source, list[Diagnostic], int]]:
    word, sign = TEXT.index("tempoo"), TEXT.index("🎸")
    full = Diagnostic(
        code=_code(Severity.ERROR), headline="No {0} here.", span=Span(word, word + 6),
        label="l", expected="x", suggestion="tempo", help="h",
        others=(Label(span=Span(sign, sign + 1), text="o"),), pointer="/blocks/0/a~1b",
    )
    end = Span(len(TEXT), len(TEXT))
    bare = Diagnostic(code=_code(Severity.ADVICE), headline="Lone \ud800.", span=end, pointer="")
    return [
        (Source("week two/a.riff", TEXT), [full, bare], 3),
        (Source("fine.riff", ""), [], 0),
        (Source("<stdin>", TEXT), [bare], 0),
    ]


def test_the_report_schema_is_valid() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_the_report_obeys_its_schema_and_tells_everything(checked: Any) -> None:
    report = json.loads(render_json(checked, "1.2.3"))
    jsonschema.Draft202012Validator(SCHEMA).validate(report)
    assert (report["errors"], report["advice"]) == (1, 2)
    assert [entry["name"] for entry in report["files"]] == ["week two/a.riff", "fine.riff", "<stdin>"]
    first = report["files"][0]
    assert first["unshown"] == 3
    full, bare = first["findings"]
    assert full["start"] == {"line": 2, "column": 1, "offset": TEXT.index("tempoo")}
    assert full["end"]["column"] == 7
    # each of 東, 京 and 🎸 is one code point
    assert full["others"][0]["start"] == {"line": 1, "column": 16, "offset": 15}
    assert {name: full[name] for name in ("label", "expected", "suggestion", "help", "pointer")} == {
        "label": "l", "expected": "x", "suggestion": "tempo", "help": "h", "pointer": "/blocks/0/a~1b"}
    assert bare["pointer"] == ""
    assert "label" not in bare


@pytest.mark.parametrize("spoilt", [{"report": 2}, {"extra": 1}, {"errors": -1}, {"files": [{"name": "a"}]}])
def test_the_report_schema_refuses(checked: Any, spoilt: dict[str, Any]) -> None:
    report = json.loads(render_json(checked, "1.2.3")) | spoilt
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.Draft202012Validator(SCHEMA).validate(report)


def test_the_log_is_valid_sarif(checked: Any) -> None:
    # JSON may hold a lone surrogate, the checker's strings may not
    SarifLog.model_validate_json(render_sarif(checked, "1.2.3").replace("\\ud800", "?"))
    SarifLog.model_validate_json(render_sarif([], "1.2.3"))


def test_the_log_keeps_what_the_standard_asks_beyond_its_schema(checked: Any) -> None:
    log = json.loads(render_sarif(checked, "1.2.3"))
    (run,) = log["runs"]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == list(CODES)
    assert all(rule["help"]["text"] for rule in rules)
    assert {rule["defaultConfiguration"]["level"] for rule in rules} == {"error", "note"}
    assert run["columnKind"] == "unicodeCodePoints"
    assert len(run["results"]) == 3
    for result in run["results"]:
        assert rules[result["ruleIndex"]]["id"] == result["ruleId"]
        assert result["level"] == rules[result["ruleIndex"]]["defaultConfiguration"]["level"]
        for location in [*result["locations"], *result.get("relatedLocations", [])]:
            place = location["physicalLocation"]
            region = place["region"]
            assert min(region.values()) >= 1
            assert (region["startLine"], region["startColumn"]) <= (region["endLine"], region["endColumn"])
            base = place["artifactLocation"].get("uriBaseId")
            assert base is None or base in run["originalUriBaseIds"]
    full = run["results"][0]
    assert full["message"]["text"].startswith("No {{0}} here.")  # a brace stands doubled
    region = {"startLine": 2, "startColumn": 1, "endLine": 2, "endColumn": 7}
    assert full["locations"][0]["physicalLocation"]["region"] == region
    assert full["relatedLocations"][0]["physicalLocation"]["region"]["endColumn"] == 17


@pytest.mark.parametrize(
    ("name", "uri", "based"),
    [
        ("week two/a.riff", "week%20two/a.riff", True),
        ("./a.riff", "a.riff", True),
        ("a:b#c?.riff", "a%3Ab%23c%3F.riff", True),
        ("Tōkyō.riff", "T%C5%8Dky%C5%8D.riff", True),
        ("week\\a.riff", "week/a.riff", True),
        ("../a.riff", "../a.riff", False),
        ("/tmp/a b.riff", "file:///tmp/a%20b.riff", False),
        ("C:\\week\\a.riff", "file:///C:/week/a.riff", False),
        ("<stdin>", "stdin", False),
    ],
)
def test_an_artifact_s_address_is_relative_where_the_path_is(name: str, uri: str, based: bool) -> None:
    found = Diagnostic(code=_code(Severity.ADVICE), headline="x", span=Span(0, 0))
    log = json.loads(render_sarif([(Source(name, "x"), [found], 0)], "1"))
    location = log["runs"][0]["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    assert location["uri"] == uri
    assert ("uriBaseId" in location) is based
    parts = urlsplit(location["uri"])  # RFC 3986
    assert not parts.query
    assert not parts.fragment
    assert unquote(parts.path).endswith(Path(name.replace("\\", "/")).name.strip("<>"))
