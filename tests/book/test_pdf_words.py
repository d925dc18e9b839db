"""Words of all kinds on their way into a PDF: nothing is taken for markup, nothing leaves the page, and what cannot be had is told."""

from __future__ import annotations

import io
import json
import sys
from dataclasses import replace

import pypdfium2
import pytest
import typst
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.book.model import Book, Exercise, Made
from tabforge.book.pdf import MissingTypesetterError, bind
from tabforge.book.pdf.markdown import headed, typeset
from tabforge.book.pdf.program import STYLE, run, typefaces
from tabforge.book.pdf.script import call, value
from tests.book.bound import Bound
from tests.book.pdf_book import CLIMB, trial

HOSTILE = "# *bold* $x^2$ \\ \"q\" 'a' [x] <y> @z _u_ `c` // /* #panic() ~ -- 1. = + - \\u{41} #\"\" ); ] }"
LONG = "Kelp" * 80


def titled(*titles: str) -> tuple[Book, tuple[Exercise, ...], tuple[Made, ...]]:
    """The trial book with other titles of its first exercises."""
    book, exercises, made = trial()
    return book, exercises, tuple(replace(each, title=title) for each, title in zip(made, titles, strict=False)) + made[len(titles) :]


def plain(text: str) -> str:
    """Letters without spaces, and without the places where a long word may be broken."""
    return "".join(text.replace("\u200b", "").split())


@given(st.text(st.characters(codec="utf-8", exclude_categories=["Cc", "Cn"]), max_size=60))
@settings(max_examples=60, deadline=None)
def test_a_literal_is_what_was_written(text: str) -> None:
    """The typesetter itself says what it has read."""
    said = typst.query(f"#metadata({value(text)}) <said>".encode(), "<said>", field="value", one=True)
    assert json.loads(said) == text


def test_values_of_other_kinds() -> None:
    shown = call("f", 1, 2.5, None, True, ["a", ["b"]], some_word="x")
    assert shown == 'f(1, 2.5, none, true, ("a", ("b", ), ), some-word: "x")'
    assert value("a\x00\x1b\ud800b") == '"ab"'


def test_hostile_words_stand_as_they_are() -> None:
    book, exercises, made = titled(HOSTILE, LONG)
    chapter = replace(book.chapters[0], title=HOSTILE, text=HOSTILE.replace("#", r"\#"))
    odd = replace(book, title=HOSTILE, subtitle=LONG, author=HOSTILE, licence=HOSTILE, edition=LONG)
    odd = replace(odd, cover=(HOSTILE, LONG), cautions=(HOSTILE,))
    made = (made[0], replace(made[1], text=(HOSTILE, LONG), plan=(LONG,)), *made[2:])
    data, told = bind(replace(odd, chapters=(chapter, *book.chapters[1:])), exercises, made)
    assert told == ()
    pdf = Bound(data)
    titles = [title for _, title, _ in pdf.outline()]
    assert f"1 {HOSTILE}" in titles and f"1.1 {HOSTILE}" in titles
    assert pdf.reader.metadata is not None and pdf.reader.metadata.title == HOSTILE
    words = plain(" ".join(pdf.texts))
    assert words.count(plain(HOSTILE)) > 6 and LONG[:60] in words
    document = pypdfium2.PdfDocument(data)
    for page in document:
        for drawn in page.get_objects():
            left, bottom, right, top = drawn.get_bounds()
            assert left >= 0 and bottom >= -0.1 and right <= page.get_width() + 0.1 and top <= page.get_height() + 0.1
    document.close()


def test_letters_that_no_font_has_are_told() -> None:
    data, told = bind(*titled("Ship 🚢 ahoy"))
    assert len(told) == 1 and "“🚢”" in told[0] and "fonts" in told[0]
    assert "1.1 Ship 🚢 ahoy" in [title for _, title, _ in Bound(data).outline()]


def pages_of(text: str) -> Bound:
    """Markdown alone on a page, held to the standard for accessible documents."""
    head = f'#import "{STYLE}": *\n#set document(title: "x")\n#heading("x")\n'
    with typefaces({}) as fonts:
        data, why = run({"main.typ": f"{head}#{typeset(text, above=1, places=())}".encode()}, fonts, dated=False)
    assert why is None, why
    return Bound(data)


def test_markdown_becomes_structure() -> None:
    text = "#### Deep\n\nA *b* **c** `d`\nnext\\\nline\n\n- one\n  1. two\n\n> said\n\n    code\n\n***\n\n|a|b|\n|-|-|\n|1|2|\n\n3. three\n"
    pdf = pages_of(text)
    kinds = [each["/S"] for each in pdf.structure()]
    assert kinds.count("/H2") == 1 and "/H4" not in kinds and "/H5" not in kinds
    assert {"/Em", "/Strong", "/Code", "/BlockQuote", "/Table", "/TH", "/TD"} <= set(kinds) and kinds.count("/L") == 3
    assert "A b c d next" in pdf.texts[0] and "3. three" in pdf.texts[0].replace("\n", " ")


def test_links_of_markdown() -> None:
    text = "[a](https://harbour.example/x) [b](mailto:loft@harbour.example) [c](javascript:alert(1)) [d](notes.md) ![e](f.png) <i>g</i>"
    pdf = pages_of(text)
    assert [target for _, target in pdf.links()] == ["https://harbour.example/x", "mailto:loft@harbour.example"]
    assert "d e <i>g</i>" in pdf.texts[0]


@given(st.text(st.sampled_from(list("ab \n\n#*_`~[](){}<>|-+.1\\$@\"'&;=/:!^")), max_size=80))
@settings(max_examples=60, deadline=None)
def test_any_markdown_can_be_set(text: str) -> None:
    pages_of(text)


def test_the_heading_a_text_begins_with() -> None:
    assert headed("\n# The loft #\nWords\n") == ("The loft", "Words\n")
    assert headed("## Lower\n") == (None, "## Lower\n") and headed("#hash\n") == (None, "#hash\n") and headed("# ") == (None, "# ")


def a_font() -> bytes:
    """A font of one square for every letter, its family called Loft Squares."""
    builder = FontBuilder(1000, isTTF=True)
    pen = TTGlyphPen(None)
    for place in ((100, 0), (100, 700), (500, 700), (500, 0)):
        (pen.moveTo if place == (100, 0) else pen.lineTo)(place)
    pen.closePath()
    square = pen.glyph()
    builder.setupGlyphOrder([".notdef", "square"])
    builder.setupCharacterMap(dict.fromkeys(range(32, 127), "square"))
    builder.setupGlyf({".notdef": square, "square": square})
    builder.setupHorizontalMetrics({".notdef": (600, 100), "square": (600, 100)})
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    names = {"familyName": "Loft Squares", "styleName": "Regular", "fullName": "Loft Squares", "psName": "LoftSquares-Regular"}
    builder.setupNameTable(names)
    builder.setupOS2(sTypoAscender=800, sTypoDescender=-200)
    builder.setupPost()
    written = io.BytesIO()
    builder.save(written)
    return written.getvalue()


def test_fonts_of_the_books_folder_are_taken() -> None:
    book, exercises, made = trial()
    named = replace(book, text_font="loft squares", font_files=("type/squares.ttf",))
    data, told = bind(named, exercises, made, {"type/squares.ttf": a_font()})
    assert told == ()
    assert any("LoftSquares" in name.replace(" ", "") for name in Bound(data).fonts())
    without, told = bind(named, exercises, made)
    assert len(told) == 1 and "loft squares" in told[0] and "Libertinus Serif is taken instead" in told[0]
    assert not any("Squares" in name for name in Bound(without).fonts())


def test_what_cannot_be_had_is_told() -> None:
    book, exercises, made = trial()
    _, told = bind(replace(book, cover_study="gone.riff", date="2026-02-31", language="nds"), exercises, made)
    assert len(told) == 3 and "gone.riff" in told[0] and "2026-02-31" in told[1] and "English" in told[2]
    data, told = bind(replace(book, cover_study="more.riff"), exercises, made, {"more.riff": CLIMB.encode()})
    assert told == () and Bound(data).figures()[0].alt.startswith("Up")


def test_a_failed_exercise_does_not_break_the_book() -> None:
    book, exercises, made = trial()
    broken = Made(id=made[3].id, title="Broken", failed=True, report="…")
    data, _ = bind(book, exercises, (*made[:3], broken, *made[4:]))
    assert "mistakes in its study" in " ".join(Bound(data).texts)


def test_without_the_typesetter_it_is_said_how_it_comes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)
    with pytest.raises(MissingTypesetterError, match=r"tabforge\[book\]"):
        bind(*trial())
