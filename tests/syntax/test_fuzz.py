"""Any text whatever: the parser ends with a document and diagnostics, never with an exception, and its places lie in the text."""

from __future__ import annotations

import random
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.diagnostics.catalogue import CODES
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.source import Source
from tabforge.syntax.grammar import POISON, SETTINGS, tokens
from tabforge.syntax.parse import parse
from tabforge.syntax.printer import print_study
from tests.strategies import Document, studies
from tests.syntax.documents import documents, sorted_comments
from tests.syntax.test_origins import bars_of
from tests.syntax.test_round_trip import validator

EXAMPLES = [path.read_text(encoding="utf-8") for path in sorted((Path(__file__).parents[2] / "examples").glob("*.riff"))]
STUDIES = [*EXAMPLES, *(text for code in CODES.values() for text in (code.wrong, code.right) if text and not text.startswith("{"))]


def holds(text: str) -> None:
    """Everything that must be true of any text."""
    study, origins, found = parse(Source("test.riff", text))
    assert len(found) <= MAX_DIAGNOSTICS
    for each in found:
        assert each.is_error
        assert each.headline
        assert "\n" not in each.headline
        for span in (each.span, *(other.span for other in each.others)):
            assert 0 <= span.start <= span.end <= len(text)
        assert len(each.headline) < 200
    for pointer, bar, plain in bars_of(study):  # type: ignore[arg-type]  # a study is a document
        starts = origins.starts(pointer)
        assert len(starts) == len(tokens(bar, plain))
        assert all(0 <= start < max(1, len(text) + 1) for start in starts)
    _walk(study, (), origins, len(text))
    if not found:
        validator().validate(study)
        once = print_study(study)
        again, _, none = parse(Source("test.riff", once))
        assert not none
        assert sorted_comments(again) == sorted_comments(study)  # type: ignore[arg-type]
        assert print_study(again) == once


def _walk(value: Any, pointer: tuple[str | int, ...], origins: Any, size: int) -> None:
    span = origins.span(pointer)
    assert 0 <= span.start <= span.end <= size
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, inner in items:
        _walk(inner, (*pointer, key), origins, size)


BEGINNINGS = [*SETTINGS, "degrees", "frets", "notes", "chords", "words", "voice 2", "riff", 'riff "A"', 'text "B"', "run", "//", "degre"]
WORDS = st.sampled_from(BEGINNINGS)
_CELLS = (
    "1 2 b3 4@5 5*4 * *3 % %*2 %*0 ( ) (1 )*2 )*0 3( | || |: :| :|: :|*3 |[1 :|[2 ||: |[ : q e. 3(e g g! q+e r = x h pm -+ac . - ? "
    '" "a "a|b" // a//b C4 Bb2@3 6:0 6:0+5:2 7 Am7 C/E 3/4 96 q=60 Bb2 lydian steps W H up, down \t \r \x00 \ufeff é ♭7 \\ ^ ~'
)
CELLS = st.sampled_from(_CELLS.split(" "))
LINES = st.builds(
    lambda indent, word, cells: f"{indent}{word} {' '.join(cells)}", st.sampled_from(("", "  ", "\t")), WORDS, st.lists(CELLS, max_size=8)
)


def patient(examples: int) -> settings:
    return settings(max_examples=examples, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.filter_too_much])


@patient(100)
@given(st.text())
def test_any_characters(text: str) -> None:
    holds(text)


@patient(300)
@given(st.lists(st.one_of(LINES, LINES, st.just("")), max_size=12).map("\n".join))
def test_lines_of_the_language_in_any_order(text: str) -> None:
    holds(text)


def damaged(text: str, draw: random.Random) -> str:
    """A text with a few pieces cut out, doubled, moved, or put in from elsewhere."""
    for _ in range(draw.randint(1, 4)):
        first, second = sorted((draw.randint(0, len(text)), draw.randint(0, len(text))))
        second = min(second, first + draw.choice((1, 1, 2, 5, 30, 400)))
        letter = draw.choice(" |()*%:\"\n\t/.+=-#b1e@\x00\ud800")
        piece = draw.choice(("", "", letter, letter, text[first:second] * 2, draw.choice(STUDIES)[:40]))
        text = text[:first] + piece + text[second:]
    return text


@pytest.mark.parametrize("seed", range(6))
def test_good_studies_damaged(seed: int) -> None:
    draw = random.Random(seed)
    for _ in range(60):
        holds(damaged(draw.choice(STUDIES), draw))


@patient(30)
@given(studies(), st.integers())
def test_generated_studies_damaged(document: Document, seed: int) -> None:
    holds(damaged(print_study(document), random.Random(seed)))  # type: ignore[arg-type]


@pytest.mark.long
@patient(1500)
@given(documents(), st.integers())
def test_many_documents_damaged(document: Document, seed: int) -> None:
    holds(damaged(print_study(document), random.Random(seed)))  # type: ignore[arg-type]


@pytest.mark.long
@patient(5000)
@given(st.lists(st.one_of(LINES, LINES, st.just("")), max_size=20).map("\n".join))
def test_many_lines_of_the_language_in_any_order(text: str) -> None:
    holds(text)


@pytest.mark.parametrize("text", STUDIES)
def test_every_study_of_the_project(text: str) -> None:
    holds(text)


def test_poison_stands_only_in_texts_with_errors() -> None:
    for text in STUDIES:
        study, _, found = parse(Source("test.riff", text))
        if not found:
            assert all(POISON not in tokens(bar, plain) for _, bar, plain in bars_of(study))  # type: ignore[arg-type]
