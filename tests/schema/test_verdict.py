"""The keywords that are given to ``jsonschema`` in a leaner form find what its own find."""

from __future__ import annotations

import socket
from collections.abc import Iterable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from jsonschema.exceptions import ValidationError
from referencing import Registry

from tabforge import schema
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.schema.verdict import errors
from tests.schema.mutations import VALUES, mutated
from tests.schema.samples import RIGHT, SMALL

STUDY = schema.load("study")
LIBRARY = Draft202012Validator(STUDY, registry=Registry())


def told(found: Iterable[ValidationError]) -> set[tuple[Any, ...]]:
    return {(tuple(error.absolute_path), tuple(error.absolute_schema_path)) for error in found}


@given(st.data())
@settings(max_examples=500, deadline=None)
def test_the_same_errors_at_the_same_places(data: st.DataObject) -> None:
    document = data.draw(mutated(data.draw(st.sampled_from(RIGHT))) | VALUES)
    ours, theirs = told(errors(STUDY, document)), told(LIBRARY.iter_errors(document))
    longer = {(path, keywords) for path, keywords in theirs - ours if keywords[-1] == "pattern"}
    assert ours <= theirs
    # the pattern of a text that is longer than its schema allows anyway is not tried
    assert {(path, (*keywords[:-1], "maxLength")) for path, keywords in longer} <= ours
    assert theirs - ours == longer


def test_a_schema_that_does_not_compile_is_the_librarys_alone() -> None:
    tried = {"prefixItems": [{"type": "string"}], "items": False}
    assert not errors(tried, ["a"])
    assert told(errors(tried, [1, 2])) == told(Draft202012Validator(tried, registry=Registry()).iter_errors([1, 2]))


def test_the_network_is_never_asked(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("the network was asked")

    monkeypatch.setattr(socket, "socket", refuse)
    monkeypatch.setattr(socket, "create_connection", refuse)
    assert errors(STUDY, {})
    with pytest.raises(Exception, match="Unresolvable"):
        errors({"$ref": "https://example.org/schema.json"}, {})


def riff(**rows: Any) -> dict[str, Any]:
    return {"study": 1, "blocks": [{"kind": "riff", "systems": [rows]}]}


HOSTILE: dict[str, Any] = {
    "values to compare with one another": {**SMALL, "scale": {"root": "C", "semitones": [{}, [], "x", 1] * 60_000}},
    "many wrong entries in an alternative": {**SMALL, "keys": [0] * 1_000_000},
    "many unknown keys": {**SMALL, **{f"x{number}": 1 for number in range(200_000)}},
    "many wrong blocks": {"study": 1, "blocks": [[]] * 500_000},
    "one wrong bar at the end of many": riff(degrees=["1 2 3 4"] * 99_999 + ["H"]),
    "a long text with no end to its pattern": riff(words=[". " * 2_000_000 + "|"]),
    "a long bar within the limit": riff(words=[". " * 9_990 + "|"], marks=["b1/2+" * 3_999]),
}


class Nowhere:
    """Origins that know no places."""

    def span(self, pointer: object) -> tuple[int, int]:
        return (0, 0)

    def starts(self, pointer: object) -> tuple[int, ...]:
        return ()


@pytest.mark.parametrize("kind", HOSTILE)
def test_a_hostile_document_is_refused(kind: str) -> None:
    """Each takes the library's own keywords minutes or gigabytes."""
    found = schema.guard(HOSTILE[kind], Nowhere())  # type: ignore[arg-type]
    assert 1 <= len(found) <= MAX_DIAGNOSTICS
