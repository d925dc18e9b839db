"""Where values stand in a JSON text. The oracle is the standard library's ``json``: what begins at a place must read as the value."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.readers.json_origins import JsonOrigins
from tabforge.source import Span
from tabforge.syntax import grammar
from tests.schema.mutations import at, places

TEXTS = st.text(st.characters(codec="utf-8"), max_size=6)
JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | TEXTS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=20,
)


def written(value: Any, indent: int | None, ascii_only: bool, blank: str) -> str:
    text = json.dumps(value, indent=indent, ensure_ascii=ascii_only)
    return blank + text + blank


@given(JSON, st.sampled_from((None, 0, 2)), st.booleans(), st.sampled_from(("", "\n", " \t\r\n")))
@settings(max_examples=400, deadline=None)
def test_every_value_is_where_it_is_said_to_be(value: Any, indent: int | None, ascii_only: bool, blank: str) -> None:
    text = written(value, indent, ascii_only, blank)
    origins = JsonOrigins(text)
    for path in places(value):
        inner = at(value, path)
        start, end = origins.span(path)
        if isinstance(inner, list | dict):
            begin = end - 1
        elif isinstance(inner, str) and inner:
            begin = start - 1
            assert text[end] == '"'
        else:
            begin = start
        read, after = json.JSONDecoder().raw_decode(text, begin)
        assert read == inner
        if not isinstance(inner, list | dict):
            assert after == end + (1 if isinstance(inner, str) and inner else 0)
        if path and isinstance(path[-1], str):
            key_start, key_end = origins.key(path)
            assert json.loads(f'"{text[key_start:key_end].strip(chr(34)) if not path[-1] else text[key_start:key_end]}"') == path[-1]
            if isinstance(inner, list | dict):
                assert re.fullmatch(r'".*"\s*:\s*[\[{]', text[start:end], re.DOTALL)


@pytest.mark.parametrize(("pointer", "covered"), [
    ((), "{"),
    (("a",), '"a": ['),
    (("a", 0), "1"),
    (("a", 1), '""'),
    (("a", 2), "{"),
    (("a", 2, "b\n"), "x y"),
    (("a", 9), '"a": ['),  # not there: the nearest ancestor
    (("a", "b"), '"a": ['),
    (("zz", 1, "y"), "{"),
    (("a", 2, "b\n", 3), "x y"),
])
def test_what_a_place_covers(pointer: tuple[str | int, ...], covered: str) -> None:
    text = ' {"a": [1, "", {"b\\n": "x y"}], "c": null}'
    start, end = JsonOrigins(text).span(pointer)
    assert text[start:end] == covered


BARS = st.sampled_from(("", "q e e", "3:2(e e (s s)*2)*3 q", '"by the bay" lan- é\U0001f3b8 . "ä"', "ä- ö \U0001f3b8", "1+3 x@6 \\ in\\ /"))


@given(BARS, st.booleans(), st.sampled_from(("words", "rhythm")))
@settings(deadline=None)
def test_each_token_of_a_bar_begins_where_it_is_said_to(bar: str, ascii_only: bool, row: str) -> None:
    text = json.dumps({"blocks": [{"systems": [{row: ["x", bar]}]}]}, ensure_ascii=ascii_only)
    starts = JsonOrigins(text).starts(("blocks", 0, "systems", 0, row, 1))
    tokens = grammar.tokens(bar, plain=row == "words")
    assert len(starts) == len(tokens)
    for start, token in zip(starts, tokens, strict=True):
        assert text[start:].startswith(json.dumps(token, ensure_ascii=ascii_only)[1:-1])


def test_a_bar_of_a_run_and_what_is_no_bar() -> None:
    text = '{"blocks": [{"rhythm": "q  e", "capo": 3}]}'
    origins = JsonOrigins(text)
    assert [text[start] for start in origins.starts(("blocks", 0, "rhythm"))] == ["q", "e"]
    assert list(origins.starts(("blocks", 0, "capo"))) == []
    assert list(origins.starts(("blocks", 0))) == []
    assert list(origins.starts(("blocks", 0, "marks"))) == []


@given(st.text('{}[],:"\\ \n1ax', max_size=30), st.lists(st.integers(0, 3) | st.sampled_from(("a", "", "x")), max_size=4))
@settings(max_examples=500, deadline=None)
def test_a_text_that_is_not_json_has_places_too(text: str, pointer: list[str | int]) -> None:
    origins = JsonOrigins(text)
    for span in (origins.span(tuple(pointer)), origins.key(tuple(pointer))):
        assert isinstance(span, Span)
        assert 0 <= span.start <= span.end <= len(text) + 1
    origins.starts(tuple(pointer))


def test_of_a_key_that_stands_twice_the_last_counts_as_it_does_for_the_value() -> None:
    text = '{"a": 1, "a": 22}'
    start, end = JsonOrigins(text).span(("a",))
    assert json.loads(text)["a"] == json.loads(text[start:end])

