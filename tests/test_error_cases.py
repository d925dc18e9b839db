"""Every code of the catalogue: its wrong study earns it, its right one earns nothing, and what the user is shown is stored and read.

``pytest --regen`` rewrites ``tests/cases/errors/<id>.txt``; read the difference before it is committed.
"""

from __future__ import annotations

from pathlib import Path
from types import ModuleType
from typing import Final

import pytest

from tabforge.book.manifest import Absent, read_book
from tabforge.book.parsed import parse
from tabforge.cli.building import USUAL_FORMATS
from tabforge.diagnostics import Code, Diagnostic, Severity
from tabforge.diagnostics.catalogue import CODES, advice, book, document, music, neck, text
from tabforge.diagnostics.render_text import render
from tabforge.fretboard.instruments import find_instrument
from tabforge.limits import MAX_SOURCE_BYTES
from tabforge.model.score import Score
from tabforge.pipeline import Outcome, build

CASES: Final = Path(__file__).parent / "cases" / "errors"

AREAS: Final[dict[str, ModuleType]] = {"T1": text, "D2": document, "M3": music, "N4": neck, "A5": advice, "B6": book}

BYTES: Final[dict[str, bytes]] = {
    "D201": 'title Caf\xe9\nscale C3 major\n\nriff "Counter"\n  rhythm   w\n  degrees  1\n'.encode("latin-1"),
    "D202": b"// " + b"x" * MAX_SOURCE_BYTES,
}
"""Files whose mistake is in their bytes, so that no text shows it."""

FORMATS: Final = (*USUAL_FORMATS, "mxl")
"""What is written where nothing is asked for, and its compressed form. What MIDI alone cannot carry is its own tests' matter."""

EVERY_CODE = pytest.mark.parametrize("code", CODES.values(), ids=CODES)


def _built(code: Code, data: bytes) -> Outcome:
    """The study through the whole pipeline and into ``FORMATS``; a manifest as far as the book it describes."""
    if code.id[0] == "B":
        return _manifest(data)
    suffix = "json" if data[:1] == b"{" else "riff"
    return build(f"{code.id}.{suffix}", data, FORMATS).outcome


def _manifest(data: bytes) -> Outcome:
    def fetch(path: str) -> bytes | Absent:
        return book.SHELF.get(path) or Absent("there is no such file", near="climb.riff")

    described, findings = read_book("book.toml", data, fetch)
    source = findings[0][0] if findings else parse("book.toml", data).source
    found = findings[0][1] if findings else ()
    guitar = find_instrument("guitar")
    assert guitar is not None
    made = Score(title="", instrument=guitar, divisions=480, sections=()) if described else None
    return Outcome(source=source, score=made, diagnostics=found)


def _wrong(code: Code) -> Outcome:
    return _built(code, BYTES[code.id] if code.id in BYTES else code.wrong.encode())


@EVERY_CODE
def test_the_wrong_study_earns_the_code_and_no_other_error(code: Code) -> None:
    outcome = _wrong(code)
    earned = {each.code.id for each in outcome.diagnostics}
    assert code.id in earned
    assert {each.code.id for each in outcome.diagnostics if each.is_error} <= {code.id}
    assert outcome.failed is (code.severity is Severity.ERROR)


@EVERY_CODE
def test_the_right_study_earns_nothing(code: Code) -> None:
    if code.id in BYTES:
        assert not code.right
        return
    outcome = _built(code, code.right.encode())
    assert outcome.diagnostics == ()
    assert outcome.score is not None


@EVERY_CODE
def test_what_the_user_is_shown_is_the_stored_text(code: Code, regen: bool) -> None:
    outcome = _wrong(code)
    shown = render(outcome.diagnostics, outcome.source, unshown=outcome.unshown)
    path = CASES / f"{code.id}.txt"
    if regen:
        path.write_text(shown, encoding="utf-8")
    assert path.exists(), "no stored text: run pytest --regen and read what it writes"
    assert path.read_text(encoding="utf-8") == shown


def test_no_case_is_orphaned_or_empty() -> None:
    cases = list(CASES.iterdir())
    assert {path.name for path in cases} == {f"{code}.txt" for code in CODES}
    assert all(path.read_text(encoding="utf-8").strip() for path in cases)


def test_only_what_no_text_can_show_is_given_as_bytes() -> None:
    assert {code.id for code in CODES.values() if not code.wrong} == set(BYTES)


def test_codes_are_unique_and_stand_in_the_module_of_their_area() -> None:
    seen: dict[str, str] = {}
    for area, module in AREAS.items():
        for name, value in vars(module).items():
            if isinstance(value, Code):
                assert value.id not in seen, f"{name} and {seen[value.id]} share {value.id}"
                seen[value.id] = name
                assert value.id[:2] == area, f"{name} is {value.id}, in the module of {area}"
                assert len(value.id) == 4
                assert value.id[1:].isdecimal()
    assert set(seen) == set(CODES)


@EVERY_CODE
def test_a_code_can_be_read_by_a_player(code: Code) -> None:
    assert code.title
    assert len(code.title) <= 70
    assert code.explanation.endswith((".", "`"))
    assert "traceback" not in code.explanation.lower()


@EVERY_CODE
def test_the_place_lies_in_the_source_and_the_headline_stands_alone(code: Code) -> None:
    outcome = _wrong(code)
    for found in outcome.diagnostics:
        _stands(found, len(outcome.source.text))


def _stands(found: Diagnostic, size: int) -> None:
    for span in (found.span, *(other.span for other in found.others)):
        assert 0 <= span.start <= span.end <= size
    assert found.headline
    assert "\n" not in found.headline
    assert not found.headline.endswith("."), "a headline is no sentence with a full stop"
