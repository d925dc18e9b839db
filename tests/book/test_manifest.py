# ruff: noqa: E501  # whole small manifests
"""Manifests: what they say, and what is told of mistakes in them."""

from __future__ import annotations

import json
import re
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from tabforge.book.manifest import Absent, read_book
from tabforge.book.model import LEVELS, Book, StudyOptions
from tabforge.book.plan import exercises_of, files_of
from tabforge.pages.options import PAPERS
from tabforge.schema import load
from tabforge.source import NOWHERE

FILES = {
    "a.riff": b"title A\n", "deep/b.json": b"{}", "front.md": b"Front.\n", "one.md": "Öne.\r\n".encode(), "face.otf": b"OTTO",
    "more.toml": b'book = 1\ntitle = "More"\n[defaults]\nplan = true\n[[chapters]]\ntitle = "Three"\n[[chapters.studies]]\nfile = "a.riff"\n',
    "ring.toml": b'book = 1\ntitle = "Ring"\ninclude = ["ring2.toml"]\n', "ring2.toml": b'book = 1\ntitle = "Ring"\ninclude = ["ring.toml"]\n',
    "latin.md": b"caf\xe9",
}

WHOLE = """\
book = 1
title = "Harbour Evenings"
paper = "a5"
date = 2026-11-01
front = "front.md"
cover-study = "a.riff"
include = ["more.toml"]
fonts = {files = ["face.otf"]}

[defaults]
level = "settled"
diagrams = true

[[chapters]]
title = "One"
introduction = "one.md"
[[chapters.studies]]
file = "a.riff"
keys = ["Bb", "F#2"]
tunings = ["standard", ["D2", "A2", "D3"]]
level = "fluent"
[[chapters.studies]]
file = "deep/b.json"

[[chapters]]
title = "Two"
[[chapters.studies]]
file = "a.riff"
title = "Again"
blocks = ["Climb"]
"""


def fetch(path: str) -> bytes | Absent:
    return FILES.get(path) or Absent("there is no such file")


def read(text: str, name: str = "book.toml") -> tuple[Book | None, list[tuple[str, str, str]]]:
    book, findings = read_book(name, text.encode(), fetch)
    told = []
    for source, found in findings:
        for each in found:
            line, column = source.position(each.span.start)
            told.append((f"{source.name}:{line}:{column}", each.code.id, each.headline))
    return book, told


def test_a_whole_manifest() -> None:
    book, told = read(WHOLE)
    assert told == []
    assert book is not None
    assert (book.paper, book.date, book.front_text, book.font_files) == ("a5", "2026-11-01", "Front.\n", ("face.otf",))
    assert [chapter.title for chapter in book.chapters] == ["One", "Two", "Three"]
    assert book.chapters[0].text == "Öne.\r\n"
    first = book.chapters[0].studies[0].each
    assert [(each.key, each.tuning) for each in first] == [
        ("Bb", "standard"), ("Bb", ("D2", "A2", "D3")), ("F#2", "standard"), ("F#2", ("D2", "A2", "D3")),
    ]
    assert {(each.level, each.diagrams) for each in first} == {("fluent", True)}
    assert book.chapters[2].studies[0].each == (StudyOptions(plan=True),), "a manifest's defaults are its own"
    assert files_of(book) == ("a.riff", "front.md", "face.otf", "one.md", "deep/b.json")


def test_toml_and_json_say_the_same() -> None:
    document = tomllib.loads(WHOLE)
    document["date"] = str(document["date"])
    (as_json, told), (as_toml, _) = read(json.dumps(document), "book.json"), read(WHOLE)
    assert told == []
    assert as_json is not None
    assert as_toml is not None
    assert [replace(each, span=NOWHERE) for each in exercises_of(as_json)] == [replace(each, span=NOWHERE) for each in exercises_of(as_toml)]
    assert replace(as_json, chapters=()) == replace(as_toml, chapters=())


def test_exercises_are_numbered_and_named_apart() -> None:
    book, _ = read(WHOLE)
    assert book is not None
    made = exercises_of(book)
    assert [(each.number, each.id) for each in made] == [
        ("1.1", "a-in-bb-standard"), ("1.2", "a-in-bb-d2-a2-d3"), ("1.3", "a-in-f-sharp2-standard"), ("1.4", "a-in-f-sharp2-d2-a2-d3"),
        ("1.5", "b"), ("2.1", "a"), ("3.1", "a-2"),
    ]
    assert made[5].title == "Again"


@pytest.mark.parametrize(
    ("old", "new", "place", "code", "words"),
    [
        ("paper =", "papier =", "3:1", "D221", "“papier”"),
        ('"a5"', '"b5"', "3:10", "D224", "“b5”"),
        ("2026-11-01", "2026-13-01", "4", "B601", "TOML"),
        ('"front.md"', '"/front.md"', "5:10", "B602", "leaves"),
        ('"front.md"', '"x/../../front.md"', "5:10", "B602", "leaves"),
        ('"front.md"', '"C:/front.md"', "5:10", "B602", "leaves"),
        ('"front.md"', '"..\\\\front.md"', "5:10", "B602", "leaves"),
        ('"front.md"', '"gone.md"', "5:10", "B603", "no such file"),
        ('"front.md"', '"a.riff"', "5:10", "B605", "Markdown"),
        ('"more.toml"', '"book.toml"', "7:13", "B604", "itself"),
        ('"more.toml"', '"more.toml", "more.toml"', "7:26", "B604", "twice"),
        ('"face.otf"', '"face.woff2"', "8:20", "B605", "font"),
        ('"settled"', '"middling"', "11:10", "D224", "middling"),
        ('"F#2"', '"H2"', "19:16", "D225", "H2"),
        ('"deep/b.json"', '"deep/c.json"', "23:9", "B603", "no such file"),
        ('"One"', "1", "15:9", "D223", "number"),
        ("[[chapters.studies]]\nfile = \"a.riff\"\nkeys", "[[chapters.studies]]\nkeys", "17:12", "D222", "file"),
    ],
)
def test_a_mistake_is_told_at_its_place(old: str, new: str, place: str, code: str, words: str) -> None:
    assert old in WHOLE
    book, told = read(WHOLE.replace(old, new, 1))
    assert book is None
    (where, which, headline), *more = told
    assert not more
    assert (which, where.startswith(f"book.toml:{place}")) == (code, True), where
    assert words in headline


def test_what_is_wrong_in_an_included_manifest_is_told_there() -> None:
    book, told = read(WHOLE.replace("more.toml", "ring.toml"))
    assert book is None
    assert told == [("ring2.toml:3:13", "B604", "ring.toml is one of those that include this one")]


def test_a_text_that_is_not_utf8_is_told_in_the_text() -> None:
    _, told = read(WHOLE.replace("front.md", "latin.md"))
    assert [(where, code) for where, code, _ in told] == [("latin.md:1:4", "D201")]


def test_a_link_that_leads_out_is_told_as_such() -> None:
    book, findings = read_book("book.toml", WHOLE.encode(), lambda path: Absent("", outside=True) if path == "one.md" else fetch(path))
    assert book is None
    assert [each.code.id for _, found in findings for each in found] == ["B602"]


def _choices(name: str) -> Any:
    schema = load("book")
    return {**schema["properties"], **schema["$defs"]["study"]["properties"]}[name]["enum"]


def test_the_schema_and_the_model_agree() -> None:
    assert _choices("level") == list(LEVELS)
    assert _choices("paper") == list(PAPERS)
    options = set(StudyOptions.__dataclass_fields__) - {"key", "tuning"} | {"keys", "tunings"}
    assert set(load("book")["$defs"]["study"]["properties"]) - {"file", "title"} == options
    assert set(load("book")["$defs"]["defaults"]["properties"]) == options - {"keys", "tunings", "blocks"}
    study = load("study")["$defs"]
    for word in ("root", "pitch", "tuning", "fingering"):
        mine = load("book")["$defs"].get(word) or load("book")["$defs"]["study"]["properties"][word]
        assert {key: mine[key] for key in mine.keys() & {"pattern", "enum", "maxLength"}} == {
            key: study[word][key] for key in mine.keys() & {"pattern", "enum", "maxLength"}
        }


def test_the_handbook_tells_every_key() -> None:
    page = (Path(__file__).parents[2] / "tabforge" / "handbook" / "book.md").read_text(encoding="utf-8")
    told = set(re.findall(r"`([a-z-]+)`", page))
    schema = load("book")
    keys = {*schema["properties"], *schema["$defs"]["study"]["properties"], *schema["$defs"]["fonts"]["properties"]}
    assert keys - told == set()
    sample = re.search(r"```toml\n(.*?)```", page, re.DOTALL)
    assert sample is not None
    book, findings = read_book("book.toml", sample[1].encode(), lambda path: b"")
    assert (book is not None, findings) == (True, ())
