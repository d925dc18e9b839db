# ruff: noqa: E501  # tables are read by their columns
"""The JSON reader: takes what ``json`` of the standard library takes, less what a study may not have, and says where it is not JSON."""

from __future__ import annotations

import json
import sys
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tabforge.limits import MAX_JSON_DEPTH, MAX_SOURCE_BYTES
from tabforge.readers import READERS, Reading
from tabforge.readers.json_problems import problems
from tabforge.source import Source
from tests.schema.samples import EVERYTHING, SMALL

TEXT = json.dumps(EVERYTHING, indent=1)


def read(text: str) -> Reading:
    return READERS["json"](Source("a.json", text))


@pytest.mark.parametrize("document", [EVERYTHING, SMALL, {}, [], "x", 1, True, [[[]]], {"": {"a": [None]}}])
@pytest.mark.parametrize("indent", [None, 2])
def test_a_document_is_read_as_it_stands(document: Any, indent: int | None) -> None:
    for ascii_only in (True, False):
        reading = read(json.dumps(document, indent=indent, ensure_ascii=ascii_only))
        assert reading.document == document
        assert reading.diagnostics == ()


def test_a_whole_number_is_whole_however_it_is_written() -> None:
    """JSON Schema Validation 2020-12, 6.1.1: 2.0 is an integer."""
    document: Any = read('{"a": 2.0, "b": -3e2, "c": 0.5, "d": -0.0, "e": 12, "f": 9007199254740991}').document
    assert document == {"a": 2, "b": -300, "c": 0.5, "d": 0, "e": 12, "f": 2**53 - 1}
    assert [type(value) for value in document.values()] == [int, int, float, int, int, int]


CASES: list[tuple[str, str, str, str]] = [
    # text, code, headline, what the span covers
    ("", "D211", "the file is empty", ""),
    (" \n ", "D211", "the file is empty", ""),
    ('{"study": 1', "D211", "the file ends before this object is closed", ""),
    ('{"study": 1, "blocks": [1', "D211", "the file ends before this list is closed", ""),
    ('{"study":', "D211", "the file ends before this object is closed", ""),
    ('{"study": 1,}', "D211", "a comma with nothing after it", ","),
    ("[1, 2,\n]", "D211", "a comma with nothing after it", ","),
    ("[1,, 2]", "D211", "a comma with nothing before it", ","),
    ("{,}", "D211", "a comma with nothing before it", ","),
    ("{'study': 1}", "D211", "JSON has its texts in straight double quotes, not in '", "'"),
    ('{"title": “x”}', "D211", "JSON has its texts in straight double quotes, not in “", "“"),
    ("{study: 1}", "D211", "the key “study” is not in double quotes", "study"),
    ('{"title": Bay}', "D211", "the text “Bay” is not in double quotes", "Bay"),
    ('{"a": True}', "D211", "JSON does not write “True” like this", "True"),
    ('{"a": None}', "D211", "JSON does not write “None” like this", "None"),
    ('{"a": 01}', "D211", "“01” is not a number as JSON writes it", "01"),
    ('{"a": .5}', "D211", "“.5” is not a number as JSON writes it", ".5"),
    ('{"a": +5}', "D211", "“+5” is not a number as JSON writes it", "+5"),
    ('{"a": 1.}', "D211", "“1.” is not a number as JSON writes it", "1."),
    ('{"a" 1}', "D211", "a colon is missing after the key “a”", "1"),
    ('{"a": 1 "b": 2}', "D211", "a comma is missing before this", '"'),
    ("[1 2]", "D211", "a comma is missing before this", "2"),
    ("[1}", "D211", "} cannot close this list", "}"),
    ('{"a": 1]', "D211", "] cannot close this object", "]"),
    ("[1: 2]", "D211", "a colon stands only after a key", ":"),
    ("{} {}", "D211", "something stands after the end of the document", "{"),
    ("{} // end", "D211", "something stands after the end of the document", "//"),
    ("// a\n{}", "D211", "JSON has no comments", "//"),
    ('{"a": 1, // b\n "c": 2}', "D211", "JSON has no comments", "//"),
    ('{"a": 1 // b\n}', "D211", "JSON has no comments", "//"),
    ('["a', "D211", "a text in quotes does not end on its line", '"a'),
    ('["a\n"]', "D211", "a text in quotes does not end on its line", '"a'),
    ('["a\tb"]', "D211", "a tab stands inside a text", "\t"),
    ('["a\\qb"]', "D211", "“\\q” begins no escape that JSON has", "\\q"),
    ('["a\\u12"]', "D211", "“\\u” begins no escape that JSON has", "\\u"),
    ("[\u00a01]", "D211", "“\u00a0” cannot stand here", "\u00a0"),
    ("]", "D211", "“]” cannot stand here", "]"),
    ('{"a": 1, "b": 2, "a": 3}', "D212", "the key “a” stands twice in this object", '"a"'),
    ('{"a": 1, "\\u0061": 3}', "D212", "the key “a” stands twice in this object", '"\\u0061"'),
    ('{"a": NaN}', "D213", "“NaN” is not a number that a study can hold", "NaN"),
    ('{"a": -Infinity}', "D213", "“-Infinity” is not a number that a study can hold", "-Infinity"),
    ('{"a": 1e400}', "D213", "“1e400” is not a number that a study can hold", "1e400"),
    ('{"a": 9007199254740992}', "D213", "“9007199254740992” is not a number that a study can hold", "9007199254740992"),
    ("[" * (MAX_JSON_DEPTH + 1) + "]" * (MAX_JSON_DEPTH + 1), "D214", "arrays and objects are nested more than 64 deep here", "["),
    ('["a\\u0000"]', "D215", "this text has a character that cannot be seen (U+0000)", '"a\\u0000"'),
    ('["\\b"]', "D215", "this text has a character that cannot be seen (U+0008)", '"\\b"'),
    ('["\\ud83c x"]', "D215", "this text has a character that cannot be seen (U+D83C)", '"\\ud83c x"'),
    ('{"\\uFEFF": 1}', "D215", "this text has a character that cannot be seen (U+FEFF)", '"\\uFEFF"'),
    ("null", "D223", "the study must be an object { … }, not null", "null"),
]


@pytest.mark.parametrize(("text", "code", "headline", "covered"), CASES, ids=[repr(case[0])[:40] for case in CASES])
def test_a_mistake_is_told_in_words_at_its_place(text: str, code: str, headline: str, covered: str) -> None:
    reading = read(text)
    (found,) = reading.diagnostics
    assert (found.code.id, found.headline) == (code, headline)
    assert text[found.span.start : found.span.end] == covered
    assert (reading.document is None) is (code != "D212")
    reading.origins.span(("a", 0))


def test_where_a_bracket_was_opened_and_a_key_first_written_is_shown() -> None:
    (open_,) = read('{"a": [1, 2}').diagnostics
    assert [label.span.start for label in open_.others] == [6]
    (twice,) = read('{"a": 1, "a": 2}').diagnostics
    assert [tuple(label.span) for label in twice.others] == [(1, 4)]


def test_what_is_suggested_mends() -> None:
    for text in ("{study: 1}", '{"a": Bay}', '{"a": True}', '{"a": nil}'):
        (found,) = read(text).diagnostics
        assert found.suggestion is not None
        assert read(text[: found.span.start] + found.suggestion + text[found.span.end :]).diagnostics == ()


def test_all_that_is_wrong_up_to_the_syntax_is_told_at_once() -> None:
    found = read('{"a": NaN, "a": 1e999, "b": "\\u0001", "c": 1,}').diagnostics
    assert [each.code.id for each in found] == ["D213", "D212", "D213", "D215", "D211"]


def test_a_document_with_a_key_twice_is_still_looked_at() -> None:
    assert read('{"study": 1, "capo": 1, "capo": 2, "blocks": []}').document == {"study": 1, "capo": 2, "blocks": []}


def test_a_pair_of_surrogates_and_an_escaped_backslash_are_no_unseen_characters() -> None:
    reading = read('["\\ud83c\\udfb8", "\\\\u0000"]')
    assert (reading.document, reading.diagnostics) == (["🎸", "\\u0000"], ())


def test_the_deepest_that_is_allowed_is_read() -> None:
    text = "[" * MAX_JSON_DEPTH + "]" * MAX_JSON_DEPTH
    assert read(text).diagnostics == ()
    assert read('["' + "[" * 1000 + '"]').diagnostics == ()


def test_no_depth_exhausts_the_stack() -> None:
    for text in ("[" * 1_000_000, '{"a":' * 500_000, "[" * 1_000_000 + "]" * 1_000_000, "[[" + "[],[[]]," * 1000 + "[" * 100_000):
        assert text.count("[") + text.count("{") > sys.getrecursionlimit()
        assert {each.code.id for each in read(text).diagnostics} == {"D214"}


def test_a_text_beyond_the_limit_is_refused_before_it_is_read() -> None:
    (found,) = read(" " * (MAX_SOURCE_BYTES + 1)).diagnostics
    assert found.code.id == "D202"


def accepted(text: str) -> bool:
    try:
        json.loads(text)
    except (ValueError, RecursionError):
        return False
    return True


PIECES = st.sampled_from(("{", "}", "[", "]", ",", ":", '"', '"a"', '"b": 1', "1", "-", "0", ".5", "e3", "true", "null", "nul", "NaN", " ", "\n", "\\", "\\u00", "\\n", "'", "/", "\u00a0", "\x01"))


@given(st.lists(PIECES, max_size=12).map("".join))
@settings(max_examples=3000, deadline=None)
@example('"\\u+123"')
@example("-")
@example("1e")
def test_a_text_is_refused_as_syntax_just_when_the_library_refuses_it(text: str) -> None:
    """The reference is CPython's ``json``, which follows RFC 8259 but for NaN and Infinity; the character U+0001 is read as a space."""
    wrong = {each.code.id for each in problems(text)} & {"D211"}
    assert bool(wrong) is not accepted(text)


@given(st.data())
@settings(max_examples=300, deadline=None)
def test_a_damaged_study_is_refused_just_when_the_library_refuses_it(data: st.DataObject) -> None:
    begin = data.draw(st.integers(0, len(TEXT)))
    end = min(len(TEXT), begin + data.draw(st.integers(0, 5)))
    text = TEXT[:begin] + data.draw(PIECES) + TEXT[end:]
    wrong = {each.code.id for each in problems(text)} & {"D211"}
    assert bool(wrong) is not accepted(text)
    assert ("D211" in {each.code.id for each in read(text.replace("\x01", " ")).diagnostics}) is not accepted(text.replace("\x01", " "))


@pytest.mark.parametrize("text", [
    '"' + "\\" * 1_000_001, '["' + "a" * 4_000_000, "[" + '"",' * 1_000_000, "[" + "[]," * 1_000_000, '{"a":1,' * 1 + '"b":1,' * 500_000, "9" * 4_000_000, "a" * 4_000_000, '"\\u0001"' * 100,
], ids=["backslashes", "unclosed", "texts", "lists", "keys", "digits", "letters", "many"])
def test_a_hostile_text_is_refused(text: str) -> None:
    """A reader that looks back again and again would not come to an end here."""
    assert read(text).diagnostics
