"""Documents to texts and back: what is printed is read as the same, and printing again changes nothing."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from jsonschema import Draft202012Validator

import tabforge
from tabforge.source import Source
from tabforge.syntax.document import Study
from tabforge.syntax.parse import parse
from tabforge.syntax.printer import print_study
from tests.strategies import Document, studies
from tests.syntax.documents import documents, sorted_comments

SCHEMA = Path(tabforge.__file__).parents[1] / "schemas" / "study.schema.json"


@cache
def validator() -> Draft202012Validator:
    return Draft202012Validator(json.loads(SCHEMA.read_text(encoding="utf-8")))


def read(text: str) -> Study:
    """A text that must be without errors."""
    study, _, found = parse(Source("test.riff", text))
    assert [(each.headline, text[slice(*each.span)]) for each in found] == []
    return study


def proven(document: Any) -> None:
    validator().validate(document)
    text = print_study(document)
    again = read(text)
    assert sorted_comments(again) == sorted_comments(document)  # type: ignore[arg-type]  # a study is a document
    assert print_study(again) == text


def patient(examples: int) -> settings:
    return settings(
        max_examples=examples,
        deadline=None,
        phases=[Phase.explicit, Phase.reuse, Phase.generate, Phase.shrink],
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much],
    )


@patient(60)
@given(documents())
def test_a_document_is_printed_and_read_as_the_same(document: Document) -> None:
    proven(document)


@pytest.mark.long
@patient(3000)
@given(documents())
def test_many_documents_are_printed_and_read_as_the_same(document: Document) -> None:
    proven(document)


@patient(30)
@given(studies())
def test_a_right_study_is_printed_and_read_as_the_same(document: Document) -> None:
    proven(document)
