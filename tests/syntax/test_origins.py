"""Origins: the place in the text of every value of a document."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from hypothesis import given, settings

from tabforge.source import Source, Span
from tabforge.syntax.grammar import ROWS, tokens
from tabforge.syntax.origins import Pointer
from tabforge.syntax.parse import parse
from tabforge.syntax.printer import print_study
from tests.strategies import Document
from tests.syntax.documents import documents
from tests.syntax.reading import everything

TEXT = """\
title    Bay  // a comment
scale    D3 "Kiln" degrees 1 b2 5
tuning   E2 A2 D3
keys     F  A

run "Climb"
  layout   3 per string from string 6
  tones    1 3
  rhythm   3( e e  e ) q

riff "Under"
  text     one
  rhythm   q q
  degrees  |: 1  (3 5)*2 | %*2 :| 4
  words    lan- "by the"
  meter    | 3/4
  voice 2
  degrees  1 | % | % | 5 5
"""


def test_the_place_of_every_kind_of_value() -> None:
    _, origins, found = everything(TEXT)
    assert not found
    riff: Pointer = ("blocks", 1)
    system: Pointer = (*riff, "systems", 0)
    places: dict[Pointer, str] = {
        ("title",): "Bay",
        ("scale", "root"): "D3",
        ("scale", "name"): '"Kiln"',
        ("scale", "degrees"): "1 b2 5",
        ("scale", "degrees", 1): "b2",
        ("tuning", 2): "D3",
        ("keys",): "F  A",
        ("keys", 1): "A",
        ("blocks", 0): 'run "Climb"',
        ("blocks", 0, "name"): '"Climb"',
        ("blocks", 0, "kind"): 'run "Climb"',
        ("blocks", 0, "layout", "from"): "3 per string from string 6",
        ("blocks", 0, "tones", 1): "3",
        ("blocks", 0, "rhythm"): "3( e e  e ) q",
        (*riff, "text", 0): "one",
        (*system, "rhythm", 0): "q q",
        (*system, "degrees", 0): "1  (3 5)*2",
        (*system, "degrees", 1): "%*2",
        (*system, "degrees", 2): "%*2",
        (*system, "degrees", 3): "4",
        (*system, "degrees", 9): "4",
        (*system, "degrees"): "1  (3 5)*2 | %*2 :| 4",
        (*system, "barlines", "0"): "|:",
        (*system, "barlines", "3"): ":|",
        (*system, "words", 0): 'lan- "by the"',
        (*system, "meter", 0): "3/4",
        (*system, "voice2"): "voice 2",
        (*system, "voice2", "degrees", 3): "5 5",
        ("subtitle",): TEXT,
    }
    assert {pointer: TEXT[slice(*origins.span(pointer))] for pointer in places} == places
    assert TEXT[slice(*origins.span(system))].startswith("rhythm")
    assert TEXT[slice(*origins.span(system))].endswith("5 5")


def test_the_starts_of_a_bars_tokens() -> None:
    _, origins, _ = everything(TEXT)
    system: Pointer = ("blocks", 1, "systems", 0)

    def cells(*pointer: str | int) -> list[str]:
        """A few letters from each start."""
        return [TEXT[start : start + 2] for start in origins.starts(pointer)]

    assert cells(*system, "degrees", 0) == ["1 ", "(3", "3 ", "5)", ")*"]
    assert cells(*system, "degrees", 1) == ["%*"]
    assert cells(*system, "words", 0) == ["la", '"b']
    assert cells("blocks", 0, "rhythm") == ["3(", "e ", "e ", "e ", ") ", "q\n"]
    assert cells(*system, "degrees", 4) == cells(*system, "picks", 0) == cells("title") == cells() == []


def test_a_dot_that_is_not_in_the_text_stands_at_its_bar_line() -> None:
    text = 'riff "A"\n  degrees  1 | 2 | 3\n  meter    | 3/4 |\n'
    study, origins, _ = everything(text)
    at = ("blocks", 0, "systems", 0, "meter")
    assert study["blocks"][0]["systems"][0]["meter"] == [".", "3/4"]
    assert [list(origins.starts((*at, bar))) for bar in range(2)] == [[text.index("| 3/4")], [text.index("3/4")]]


def test_a_poisoned_cell_has_its_place_and_so_have_its_neighbours() -> None:
    text = 'riff "A"\n  rhythm   q 8*2 e | q\n  degrees  1 2 3 4 | (5 6\n'
    study, origins, found = everything(text)
    assert [each.code.id for each in found] == ["T109", "T111"]
    (system,) = study["blocks"][0]["systems"]
    assert system == {"rhythm": ["q ? ? e", "q"], "degrees": ["1 2 3 4", "?"]}
    at = ("blocks", 0, "systems", 0)
    assert [text[start] for start in origins.starts((*at, "rhythm", 0))] == ["q", "8", "8", "e"]
    assert [text[start] for start in origins.starts((*at, "degrees", 1))] == ["("]


def bars_of(study: Document) -> list[tuple[Pointer, str, bool]]:
    """Every bar of a study that is not empty, with its pointer, and whether its row is of words."""
    found: list[tuple[Pointer, str, bool]] = []

    def rows(part: dict[str, Any], at: Pointer) -> None:
        for word, row in ROWS.items():
            bars = part.get(word, ())
            if isinstance(bars, list):
                found.extend(((*at, word, index), bar, row.plain) for index, bar in enumerate(bars) if bar)

    for number, block in enumerate(study["blocks"]):
        for index, system in enumerate(block.get("systems", ())):
            rows(system, ("blocks", number, "systems", index))
            rows(system.get("voice2", {}), ("blocks", number, "systems", index, "voice2"))
        if block["kind"] == "run":
            words = [word for word in ("rhythm", "marks", "fingers", "picks") if word in block]
            found.extend((("blocks", number, word), block[word], False) for word in words)
    return found


@settings(max_examples=40, deadline=None)
@given(documents())
def test_every_token_of_every_bar_stands_where_its_start_says(document: Document) -> None:
    text = print_study(document)  # type: ignore[arg-type]  # a study is a document
    study, origins, _ = parse(Source("test.riff", text))
    for pointer, bar, plain in bars_of(study):  # type: ignore[arg-type]
        words = tokens(bar, plain)
        starts = list(origins.starts(pointer))
        if bar == "." and text[starts[0]] == "|":
            continue  # an empty bar of a row of meters
        assert [text[start : start + len(word)] for start, word in zip(starts, words, strict=True)] == words
        assert all(first < second for first, second in pairwise(starts))
        span = origins.span(pointer)
        assert span == Span(starts[0], starts[-1] + len(words[-1]))
