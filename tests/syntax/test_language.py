"""The language reference: every example in it can be read, and formatting them changes no meaning."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import tabforge
from tabforge.syntax.printer import print_study
from tests.syntax.reading import document

REFERENCE = (Path(tabforge.__file__).parent / "handbook" / "language.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^```\n(.*?)^```$", REFERENCE, re.MULTILINE | re.DOTALL)


def test_there_are_examples() -> None:
    assert len(EXAMPLES) >= 4


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda text: text.split("\n")[0][:30])
def test_an_example_is_read_and_formatted(example: str) -> None:
    for text in _each_alone(example):
        study = document(text)
        assert document(print_study(study)) == study  # type: ignore[arg-type]  # a study is a document


def _each_alone(example: str) -> list[str]:
    """The example; or its lines, where it shows the same setting in several ways."""
    lines = example.splitlines(keepends=True)
    same = {line.partition(" ")[0] for line in lines}
    return lines if len(same) == 1 else [example]
