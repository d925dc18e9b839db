# ruff: noqa: E501  # whole small documents
"""Places in TOML: what stands at the place of a value, read alone by the standard library, is that value again."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.book.toml_origins import TomlOrigins
from tabforge.syntax.origins import Pointer

SAMPLES = (
    'a = 1\nb.c = "x"  # said\n[d]\n"e f" = [1, [2, 3], {g = 4}]\n',
    '# first\n\n[[chapters]]\ntitle = "One"\n[[chapters.studies]]\nfile = "a.riff"\n[[chapters.studies]]\nfile = \'b "c".riff\'\n[[chapters]]\ntitle = "Two"\nstudies = [\n  {file = "d.riff"}, # and\n  {file = "e.riff", keys = ["Bb", "F#"],},\n]\n'.replace('"F#"],}', '"F#"]}'),
    'text = """\none "two" \\"three\\"\n"""\nplain = \'\'\'\n# no comment\n\'\'\'\nd = 2026-11-01\nt = 07:32:00\nw = 1979-05-27 07:32:00Z\nf = -1.5e3\ny = true\n',
    '[a.b.c]\nd = 1\n[a]\ne = 2\n[a.b]\nf = { g.h = 3, "i.j" = 4 }\n',
    "",
)
"""Among them shapes of the TOML 1.0.0 specification's own examples (dates, dotted keys, inline tables), from memory."""


def leaves(value: Any, pointer: Pointer = ()) -> Iterator[tuple[Pointer, Any]]:
    if isinstance(value, dict):
        for key, each in value.items():
            yield from leaves(each, (*pointer, key))
    elif isinstance(value, list):
        for number, each in enumerate(value):
            yield from leaves(each, (*pointer, number))
    else:
        yield pointer, value


def check(text: str) -> None:
    origins = TomlOrigins(text)
    for pointer, value in leaves(tomllib.loads(text)):
        start, end = origins.span(pointer)
        if isinstance(value, str) and value:
            quotes = 3 if text[start - 3 : start] in ('"""', "'''") else 1
            start, end = start - quotes, end + quotes
        assert tomllib.loads(f"x = {text[start:end]}")["x"] == value, pointer
        if isinstance(pointer[-1], str):
            key = origins.key(pointer)
            assert tomllib.loads(f"{text[key.start : key.end]} = 0") == {pointer[-1]: 0}


@pytest.mark.parametrize("text", SAMPLES)
def test_every_value_stands_where_it_is_said_to(text: str) -> None:
    check(text)


KEYS = st.text("abc-_ .\"'#[]=é", min_size=1, max_size=4)
SCALARS = st.integers(-99, 99) | st.booleans() | st.text("ab \\\"'#[]{},=\né", max_size=6) | st.floats(-9, 9, allow_nan=False)
VALUES = st.recursive(SCALARS, lambda inner: st.lists(inner, max_size=3) | st.dictionaries(KEYS, inner, max_size=3), max_leaves=6)


def quoted(text: str) -> str:
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n") + '"'


def shown(value: Any, blank: str) -> str:
    if isinstance(value, dict):
        return "{" + ",".join(f" {quoted(key)} ={blank and ' '}{shown(each, ' ')}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + f",{blank}".join(shown(each, blank) for each in value) + blank + "]"
    if isinstance(value, bool):
        return str(value).lower()
    return quoted(value) if isinstance(value, str) else repr(value)


@given(
    st.dictionaries(KEYS, VALUES, max_size=4),
    st.lists(st.dictionaries(KEYS, VALUES, max_size=3), max_size=3),
    st.sampled_from(["", " ", "\n  # said ]}\n "]),
)
def test_the_same_for_any_document(header: dict[str, Any], rows: list[dict[str, Any]], blank: str) -> None:
    lines = [f"{quoted(key)}={shown(value, blank)} # and" for key, value in header.items()]
    for row in rows:
        lines += [" [[ rows.of ]]", *(f"{quoted(key)} = {shown(value, blank)}" for key, value in row.items())]
    check("\n".join(lines))


def test_what_has_no_place_has_that_of_what_it_would_stand_in() -> None:
    origins = TomlOrigins('[[chapters]]\ntitle = "One"\n')
    assert origins.span(("chapters", 0, "studies", 4)) == origins.span(("chapters", 0))
    assert origins.span(("chapters", 0)).start == 2
