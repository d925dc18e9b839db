"""Comments: where they belong, and that none is lost in formatting."""

from __future__ import annotations

import pytest

from tabforge.syntax.printer import print_study
from tests.syntax.reading import document

TEXT = """\
// first
//second
title    Bay  // of lanterns
// before the scale
  // indented in the header
scale    C3 major

// before the riff

riff "A"  // beside the name
  // before the text
  text     one //two
  // before the system
  rhythm   q q  //    deep
  // before the row that sounds
  degrees  1 2
  // after the first system

  // before the second system

  degrees  3 4
  // before the voice
  voice 2  // the voice itself
  // before the lower row
  degrees  1 3
  // at the end of the riff

    // still the riff's
// before the text
text "B"
  one
  // before two
  two  // beside two

  // at the end of the text

// at the very end
//
"""

PLACES = [
    ("/title", "before", "first"),
    ("/title", "before", "second"),
    ("/title", "beside", "of lanterns"),
    ("/scale", "before", "before the scale"),
    ("/scale", "before", "indented in the header"),
    ("/blocks/0", "before", "before the riff"),
    ("/blocks/0", "beside", "beside the name"),
    ("/blocks/0/text/0", "before", "before the text"),
    ("/blocks/0/text/0", "beside", "two"),
    ("/blocks/0/systems/0", "before", "before the system"),
    ("/blocks/0/systems/0/rhythm", "beside", "   deep"),
    ("/blocks/0/systems/0/degrees", "before", "before the row that sounds"),
    ("/blocks/0/systems/0", "end", "after the first system"),
    ("/blocks/0/systems/1", "before", "before the second system"),
    ("/blocks/0/systems/1/voice2", "before", "before the voice"),
    ("/blocks/0/systems/1/voice2", "beside", "the voice itself"),
    ("/blocks/0/systems/1/voice2/degrees", "before", "before the lower row"),
    ("/blocks/0", "end", "at the end of the riff"),
    ("/blocks/0", "end", "still the riff's"),
    ("/blocks/1", "before", "before the text"),
    ("/blocks/1/lines/1", "before", "before two"),
    ("/blocks/1/lines/1", "beside", "beside two"),
    ("/blocks/1", "end", "at the end of the text"),
    ("", "end", "at the very end"),
    ("", "end", ""),
]

FORMATTED = """\
// first
// second
title    Bay  // of lanterns
// before the scale
// indented in the header
scale    C3 major

// before the riff
riff "A"  // beside the name
  // before the text
  text     one  // two
  // before the system
  rhythm   q q  //    deep
  // before the row that sounds
  degrees  1 2
  // after the first system

  // before the second system
  degrees  3 4
  // before the voice
  voice 2  // the voice itself
  // before the lower row
  degrees  1 3
  // at the end of the riff
  // still the riff's

// before the text
text "B"
  one
  // before two
  two  // beside two
  // at the end of the text

// at the very end
//
"""


def test_a_comment_belongs_to_what_follows_or_to_what_it_stands_beside() -> None:
    assert [(each["at"], each["place"], each["text"]) for each in document(TEXT)["comments"]] == PLACES


def test_formatting_puts_comments_back() -> None:
    once = print_study(document(TEXT))  # type: ignore[arg-type]  # a study is a document
    assert once == FORMATTED
    assert document(once) == document(TEXT) | {"comments": document(once)["comments"]}
    assert print_study(document(once)) == once  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("line", "text", "comment"),
    [
        ("title a//b", "a//b", None),
        ("title a // b // c", "a", "b // c"),
        ("title a\t//b", "a", "b"),
        ('title "a // b" // c', '"a // b"', "c"),
        ('title 7" // wide', '7"', "wide"),
        ("title https://example.org", "https://example.org", None),
        ("title a /// b", "a", "/ b"),
    ],
)
def test_where_a_comment_begins(line: str, text: str, comment: str | None) -> None:
    study = document(line)
    assert study["title"] == text
    assert [each["text"] for each in study.get("comments", ())] == ([] if comment is None else [comment])


def test_a_comment_whose_place_is_not_printed_goes_to_the_place_around_it() -> None:
    comments = [
        {"at": "/blocks/0/systems/0/degrees/1", "place": "beside", "text": "a"},
        {"at": "/blocks/7", "place": "end", "text": "b"},
        {"at": "/title", "place": "beside", "text": "c"},
        {"at": "/title", "place": "beside", "text": "d"},
        {"at": "", "place": "beside", "text": "e"},
    ]
    block = {"kind": "riff", "systems": [{"rhythm": ["q"], "degrees": ["1", "2"]}]}
    text = print_study({"study": 1, "title": "Bay", "blocks": [block], "comments": comments})  # type: ignore[typeddict-item,list-item]
    assert text == "// e\n// d\ntitle    Bay  // c\n\nriff\n  rhythm   q\n  // a\n  degrees  1 | 2\n\n// b\n"


def test_a_comment_beside_a_stray_quotation_mark_is_not_swallowed() -> None:
    study = {"study": 1, "title": '7" wide', "blocks": [], "comments": [{"at": "/title", "place": "beside", "text": 'or 12" wide'}]}
    text = print_study(study)  # type: ignore[arg-type]
    assert text == '// or 12" wide\ntitle    7" wide\n'
    assert document(text)["title"] == '7" wide'
