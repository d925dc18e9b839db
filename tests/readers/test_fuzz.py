# ruff: noqa: E501  # tables are read by their columns
"""No bytes whatever make the program stumble: what is wrong with them is told."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge import schema
from tabforge.diagnostics import Diagnostic, only_errors
from tabforge.diagnostics.catalogue import CODES
from tabforge.readers import READERS, decode, reader_for
from tests.schema.mutations import VALUES, mutated
from tests.schema.samples import RIGHT

ROOT = Path(__file__).parents[2]
TEXTS = [path.read_bytes() for folder in ("tabforge/handbook/templates", "examples") for path in sorted((ROOT / folder).glob("*.riff"))]
PAGES = [json.dumps(document, indent=1, ensure_ascii=False).encode() for document in RIGHT]
PIECES = st.sampled_from((b"\0", b"\r", b"\n", b"\t", b'"', b"{", b"}", b"[", b"]", b"(", b")", b"|", b"%", b"*999", b"\\u0000", b"\xff", b"\xc3\xa9", b"\xef\xbb\xbf", b"//", b"  ", b"riff", b"1", b"@", b":"))


def put_through(data: bytes, name: str) -> list[Diagnostic]:
    """A file through decoding, reading and the guard; what was found, each thing checked."""
    source, told = decode("a", data)
    found = list(told)
    if not only_errors(found):
        reading = READERS[name](source)
        found += reading.diagnostics
        if reading.document is not None:
            guarded = schema.guard(reading.document, reading.origins)
            assert name == "json" or only_errors(found) or not guarded, "what a text means is valid if the parser has no error"
            found += guarded
        else:
            assert only_errors(found)
    for each in found:
        assert CODES[each.code.id] is each.code
        assert 0 <= each.span.start <= each.span.end <= len(source.text)
        assert each.headline
        assert all(0 <= label.span.start <= label.span.end <= len(source.text) for label in each.others)
        source.position(each.span.start)
    return found


FORMATS = pytest.mark.parametrize("name", READERS)


@FORMATS
@given(data=st.binary(max_size=200))
@settings(max_examples=500, deadline=None)
def test_bytes_at_random(name: str, data: bytes) -> None:
    put_through(data, name)


@FORMATS
@given(text=st.text(max_size=200))
@settings(max_examples=500, deadline=None)
def test_texts_at_random(name: str, text: str) -> None:
    put_through(text.encode("utf-8", "surrogatepass"), name)


@FORMATS
@given(pieces=st.lists(PIECES | st.sampled_from((b'"study": 1', b'"blocks": []', b"rhythm", b"e e", b"degrees", b",")), max_size=30))
@settings(max_examples=500, deadline=None)
def test_pieces_at_random(name: str, pieces: list[bytes]) -> None:
    put_through(b"".join(pieces), name)


@FORMATS
@given(data=st.data())
@settings(max_examples=700, deadline=None)
def test_damaged_files(name: str, data: st.DataObject) -> None:
    whole = data.draw(st.sampled_from(PAGES if name == "json" else TEXTS))
    for _ in range(data.draw(st.integers(1, 3))):
        begin = data.draw(st.integers(0, len(whole)))
        end = min(len(whole), begin + data.draw(st.sampled_from((0, 0, 1, 2, 20))))
        whole = whole[:begin] + data.draw(PIECES | st.binary(max_size=3)) + whole[end:]
    put_through(whole, name)


@given(st.data())
@settings(max_examples=500, deadline=None)
def test_documents_with_wrong_values(data: st.DataObject) -> None:
    document = data.draw(mutated(data.draw(st.sampled_from(RIGHT))) | VALUES)
    put_through(json.dumps(document, indent=data.draw(st.none() | st.just(1))).encode(), "json")


@pytest.mark.parametrize("data", PAGES)
def test_whole_documents_pass(data: bytes) -> None:
    assert put_through(data, "json") == []


@pytest.mark.parametrize("data", TEXTS)
def test_whole_texts_pass(data: bytes) -> None:
    assert put_through(data, "riff") == []


@pytest.mark.parametrize(("filename", "name"), [
    ("a.riff", "riff"), ("b/c.RIFF", "riff"), ("a.json", "json"), ("a.tar.JSON", "json"), ("a", None), ("a.txt", None), (".riff", None), ("", None), ("riff", None), ("-", None),
])
def test_the_reader_of_a_file_is_told_by_its_suffix(filename: str, name: str | None) -> None:
    assert reader_for(filename) == name
