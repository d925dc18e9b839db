"""The text renderer: the caret under the right column, nothing invisible, no more than a screen's width."""

from __future__ import annotations

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.diagnostics import Code, Diagnostic, Label, Severity
from tabforge.diagnostics.render_excerpt import TAB, WIDTH, excerpt, visible
from tabforge.diagnostics.render_text import render, tally
from tabforge.source import Source, Span

ERROR = Code(id="T901", severity=Severity.ERROR, title="t", explanation="e", wrong="w", right="r")
ADVICE = Code(id="A901", severity=Severity.ADVICE, title="t", explanation="e", wrong="w", right="r")


def _at(text: str, part: str, code: Code = ERROR, **more: object) -> Diagnostic:
    start = text.index(part)
    return Diagnostic(code=code, headline="Something.", span=Span(start, start + len(part)), **more)  # type: ignore[arg-type]


def _caret_columns(underline: str) -> tuple[int, int]:
    found = re.fullmatch(r"( *)(\^+)", underline)
    assert found
    return len(found[1]), len(found[2])


@pytest.mark.parametrize(
    ("line", "part", "column", "carets"),
    [
        ("tempoo 96", "tempoo", 0, 6),
        ("tempo 96", "96", 6, 2),
        ("\ttempo", "tempo", TAB, 5),  # a tab goes to the next stop
        ("ab\ttempo", "tempo", TAB, 5),
        ("abcd\ttempo", "tempo", 2 * TAB, 5),
        ("title 東京 x", "x", 11, 1),  # UAX #11: both are W, two columns each
        ("title 東京 x", "京", 8, 2),
        ("title ＡＢ x", "x", 11, 1),  # fullwidth letters: F
        ("title e\u0301\u0302 x", "x", 8, 1),  # two combining marks (Mn) add no column
        ("title e\u0301 x", "\u0301", 6, 1),  # a mark is pointed at on its letter
        ("title ｱ x", "x", 8, 1),  # halfwidth katakana: H, one column
        ("a\u200bb x", "x", 11, 1),  # <U+200B> takes eight
        ("a\u200bb x", "\u200b", 1, 8),
        ("a\x1bb", "b", 9, 1),
        ("title 한글", "글", 8, 2),
    ],
)
def test_the_caret_stands_under_the_place(line: str, part: str, column: int, carets: int) -> None:
    start = line.index(part)
    shown = excerpt(line, start, start + len(part))
    assert _caret_columns(shown.underline) == (column, carets)
    assert shown.whole


def test_an_empty_span_still_has_a_caret_and_a_span_past_the_line_ends_with_it() -> None:
    assert _caret_columns(excerpt("rhythm e e", 10, 10).underline) == (10, 1)
    assert _caret_columns(excerpt("rhythm e e", 7, 400).underline) == (7, 3)
    assert _caret_columns(excerpt("", 5, 9).underline) == (0, 1)


@pytest.mark.parametrize("where", [0, 40, 5_000, 9_990, 9_999])
def test_a_long_line_is_cut_around_the_place(where: int) -> None:
    line = "".join(chr(ord("a") + at % 26) for at in range(10_000))
    shown = excerpt(line, where, where + 3)
    column, carets = _caret_columns(shown.underline)
    assert not shown.whole
    assert len(shown.line) <= WIDTH + 2
    assert shown.line[column : column + carets] == line[where : where + 3]
    assert shown.line.startswith("…") is (where > WIDTH // 3)
    assert shown.line.endswith("…") is (where < 9_900)


@pytest.mark.parametrize("line", ["e\u0301" * 200_000, "\u0301" * 400_000, "\t" * 100_000, "東" * 100_000])
def test_a_hostile_line_stays_small(line: str) -> None:
    shown = excerpt(line, len(line) // 2, len(line))
    assert len(shown.line) < 10 * WIDTH
    assert len(shown.underline) < 10 * WIDTH


LINES = st.text(st.characters(exclude_categories=[], exclude_characters="\n"), max_size=300)


@given(LINES, st.integers(0, 300), st.integers(0, 20))
def test_whatever_the_line_nothing_unprintable_is_shown(line: str, start: int, length: int) -> None:
    shown = excerpt(line, start, start + length)
    assert shown.line.isprintable()
    _caret_columns(shown.underline)
    assert visible(line).isprintable()


TEXT = "title Lantern Bay\ntempoo 96\nmeter 4/4\n"


def test_a_full_diagnostic_reads_top_to_bottom() -> None:
    found = _at(
        TEXT, "tempoo", label="not a setting", expected="a setting or a block", suggestion="tempo",
        help="First.\nSecond.",
        others=(Label(span=Span(34, 37), text="near this"), Label(span=Span(25, 27), text="and this")),
    )
    assert render([found], Source("week/two.riff", TEXT)) == """\
week/two.riff:2:1  error T901
  Something.

    2   tempoo 96
        ^^^^^^ not a setting
    3   meter 4/4
              ^^^ near this
    2   tempoo 96
               ^^ and this

  expected: a setting or a block
  did you mean tempo?
  hint: First.
  Second.

week/two.riff: 1 error.
"""


def test_two_places_on_one_line_share_its_excerpt() -> None:
    found = _at(TEXT, "Lantern", others=(Label(span=Span(14, 17), text="the bay"),))
    assert render([found], Source("a.riff", TEXT)).count("title Lantern Bay") == 1


def test_line_numbers_of_unlike_length_are_aligned() -> None:
    text = "a\n" * 9 + "b\n"
    found = _at(text, "b", others=(Label(span=Span(0, 1), text="first"),))
    shown = render([found], Source("a.riff", text))
    assert "\n    10   b\n         ^\n     1   a\n         ^ first\n" in shown


def test_the_pointer_is_shown_for_a_json_input_alone() -> None:
    json, riff = '{"study": 2}', "study 2"
    shown = render([_at(json, "2", pointer="/study")], Source("a.json", json))
    assert ":1:11  error T901  at /study\n" in shown
    shown = render([_at(riff, "2", pointer="/study")], Source("a.riff", riff))
    assert "/study" not in shown


def test_the_end_of_the_file_is_told_in_words_and_an_empty_one_has_no_excerpt() -> None:
    at_end = Diagnostic(code=ERROR, headline="More.", span=Span(len(TEXT), len(TEXT)))
    assert "    4   (the file ends here)\n        ^\n" in render([at_end], Source("a.riff", TEXT))
    nowhere = Diagnostic(code=ERROR, headline="x", span=Span(0, 0))
    assert render([nowhere], Source("a.riff", "")) == "a.riff:1:1  error T901\n  x\n\na.riff: 1 error.\n"


def test_text_that_the_user_wrote_cannot_steer_the_terminal() -> None:
    found = Diagnostic(
        code=ERROR, headline="No \x1b[31m.", span=Span(0, 1), label="\x07", suggestion="\x9b2J",
        help="\u202eabc", expected="\ud800", others=(Label(span=Span(0, 1), text="\x00"),),
    )
    shown = render([found], Source("a\x1b[2J.riff", "\x1b[2J\r\u202e"))
    assert all(line.isprintable() for line in shown.split("\n"))
    shown.encode()


def test_colour_adds_renditions_and_changes_nothing_else() -> None:
    found = [_at(TEXT, "tempoo", label="here"), _at(TEXT, "4/4", code=ADVICE, help="h")]
    plain = render(found, Source("a.riff", TEXT))
    coloured = render(found, Source("a.riff", TEXT), colour=True)
    assert "\x1b" not in plain
    assert "\x1b[1;31merror T901\x1b[0m" in coloured
    assert re.sub("\x1b\\[[0-9;]*m", "", coloured) == plain


def test_the_closing_line_counts() -> None:
    error, advice = _at(TEXT, "tempoo"), _at(TEXT, "4/4", code=ADVICE)
    assert tally([]) == "0 errors"
    assert tally([error]) == "1 error"
    assert tally([advice, advice]) == "2 pieces of advice"
    assert tally([error, error, advice]) == "2 errors and 1 piece of advice"
    assert render([], Source("a.riff", TEXT)) == ""
    shown = render([error], Source("a.riff", TEXT), unshown=1_200)
    assert shown.endswith("1 error, and 1,200 more that are not shown.\n")


def test_long_words_are_wrapped_and_indented_further() -> None:
    names = [f"name-{number}" for number in range(40)]
    shown = render([_at(TEXT, "tempoo", expected=f"one of {', '.join(names)}")], Source("a.riff", TEXT))
    lines = [line for line in shown.split("\n") if "name-" in line]
    assert len(lines) > 2
    assert max(map(len, lines)) <= WIDTH + 2
    assert lines[0].startswith("  expected: one of name-0,")
    assert all(line.startswith("    name-") for line in lines[1:])
    assert " ".join(lines).split()[3:] == [f"{name}," for name in names[:-1]] + names[-1:]
