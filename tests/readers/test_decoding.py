"""From bytes to text: UTF-8 and nothing else (RFC 3629; The Unicode Standard, sections 3.9 and 23.8)."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.limits import MAX_SOURCE_BYTES
from tabforge.readers import decode
from tabforge.readers.characters import cleaned
from tabforge.source import Source, Span


@given(st.text(st.characters(codec="utf-8", exclude_characters="\r\ufeff"), max_size=60))
def test_any_text_comes_through_with_a_mark_or_without(text: str) -> None:
    for data in (text.encode(), b"\xef\xbb\xbf" + text.encode()):
        source, found = decode("a.riff", data)
        if "\0" not in text:  # many of them are taken for another encoding
            assert (source.name, source.text, found) == ("a.riff", text, ())


@pytest.mark.parametrize("text", ["a\nb\nc", "a\r\nb\r\nc", "a\rb\rc", "a\r\nb\rc"])
def test_every_line_break_is_counted(text: str) -> None:
    source, _ = decode("a", text.encode())
    assert len(source.text) == len(text)
    assert [source.line(number) for number in (1, 2, 3)] == ["a", "b", "c"]


@pytest.mark.parametrize(("data", "line", "column"), [
    (b"title Caf\xe9\n", 1, 10),
    (b"\xef\xbb\xbftitle Caf\xe9\n", 1, 10),
    ("ä\r\nöü".encode() + b"\xff", 2, 3),
    (b"a\rb\xc3", 2, 2),  # a sequence that the end cuts off
    (b"\xc0\xaf", 1, 1),  # an overlong form
    (b"ok \xed\xa0\x80", 1, 4),  # a surrogate
    (b"\xf5\x80\x80\x80", 1, 1),  # beyond U+10FFFF
])
def test_the_first_byte_that_is_not_utf_8_is_placed(data: bytes, line: int, column: int) -> None:
    source, (found,) = decode("a.riff", data)
    assert found.code.id == "D201"
    assert source.position(found.span.start) == (line, column)
    assert f"line {line}, column {column} " in found.headline
    assert source.text[found.span.start : found.span.end] == "\ufffd"


def test_the_character_that_was_probably_meant_is_named() -> None:
    """0xE9 is é in Windows-1252 (the WHATWG Encoding Standard's index windows-1252)."""
    _, (found,) = decode("a.riff", b"Caf\xe9")
    assert "“é”" in (found.help or "")
    _, (undefined,) = decode("a.riff", b"\x81")  # nothing there
    assert "Windows" not in (undefined.help or "")


def test_a_replacement_character_in_the_file_is_a_character() -> None:
    source, found = decode("a.riff", "title \ufffd".encode())
    assert (source.text, found) == ("title \ufffd", ())


@pytest.mark.parametrize("encoding", ["utf-16", "utf-32", "utf-16-le", "utf-16-be"])
def test_another_encoding_is_named(encoding: str) -> None:
    _, (found,) = decode("a.riff", 'riff "Undertow"\n'.encode(encoding))
    assert found.code.id == "D201"
    assert encoding[:6].upper() in found.headline


def test_the_limit_on_size_is_stated() -> None:
    assert decode("a", b" " * MAX_SOURCE_BYTES)[1] == ()
    source, (found,) = decode("a", b" " * (MAX_SOURCE_BYTES + 1))
    assert (found.code.id, source.text) == ("D202", "")
    assert "8 MiB" in found.headline


def is_xml_char(character: str) -> bool:
    """Extensible Markup Language (XML) 1.0, fifth edition, production [2] Char."""
    code = ord(character)
    return code in (0x9, 0xA, 0xD) or 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or 0x10000 <= code <= 0x10FFFF


def test_what_is_left_after_cleaning_can_be_written_to_xml() -> None:
    everything = "".join(map(chr, range(0x11000)))
    source, found = cleaned(Source("a", everything))
    assert len(source.text) == len(everything)
    assert all(map(is_xml_char, source.text))
    assert all(before == after for before, after in zip(everything, source.text, strict=True) if after != " ")
    assert all(is_xml_char(each) for each in "\t\n\r")
    assert all(each in source.text for each in "\t\n\r")
    assert not any(each.is_error for each in found)


def test_unseen_characters_are_told_once_a_kind() -> None:
    source, found = cleaned(Source("a", "x\0y\0z\x07\0"))
    assert source.text == "x y z  "
    assert [(each.code.id, each.span) for each in found] == [("D203", Span(1, 2)), ("D203", Span(5, 6))]
    assert "U+0000" in found[0].headline
    assert "2 more places" in (found[0].help or "")
    assert found[1].help == "take it out"


def test_a_clean_text_is_left_alone() -> None:
    source = Source("a", "title Café 🎸\n")
    assert cleaned(source) == (source, ())
    assert cleaned(source)[0] is source
