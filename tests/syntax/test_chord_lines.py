# ruff: noqa: E501  # tables are read by their columns
"""Chord blocks as text: what a block is read into, how it is laid out, and what people mistype in one.

The mistakes are those a teacher makes who comes from other notations (common practice, no source).
"""

from __future__ import annotations

import pytest

from tabforge.diagnostics import Code
from tabforge.diagnostics.catalogue import text as codes
from tabforge.source import Source
from tabforge.syntax.parse import parse
from tabforge.syntax.printer import print_study
from tests.syntax.reading import findings, riff, run, unmarked


def chords(*lines: str) -> str:
    return 'chords "A"\n' + "".join(f"  {line}\n" for line in lines)


WHOLE = """\
// first
chords "Slack water"
  diagrams  show   // charts
  voicing triads  on 3 2  1   first inversion
  meter 3/4
  signs [A]|newline
  // the chords
  progression |: I*2 IV/3 | % :|
  rhythm q q q
  strum (d gu)*1 xd // loose

  progression C@x32010 .
  picking p+a@1 i . r
  // the end
"""


def test_a_block_is_read_into_settings_and_systems() -> None:
    study, _, found = parse(Source("a.riff", WHOLE))
    assert found == ()
    assert study["blocks"] == [
        {
            "kind": "chords", "name": "Slack water", "meter": "3/4", "voicing": {"kind": "triads", "strings": [3, 2, 1], "inversion": 1}, "diagrams": "show",
            "systems": [
                {
                    "signs": ["[A]", "newline"], "progression": ["I*2 IV/3", "%"], "rhythm": ["q q q"], "strum": ["(d gu)*1 xd"],
                    "barlines": {"0": "|:", "2": ":|"},
                },
                {"progression": ["C@x32010 ."], "picking": ["p+a@1 i . r"]},
            ],
        }
    ]  # fmt: skip
    assert [(each["at"], each["place"]) for each in study["comments"]] == [
        ("/blocks/0", "before"), ("/blocks/0/diagrams", "beside"), ("/blocks/0/systems/0/progression", "before"), ("/blocks/0/systems/0/strum", "beside"),
        ("/blocks/0", "end"),
    ]  # fmt: skip


def test_the_layout_keeps_strokes_in_columns_and_chords_apart_from_them() -> None:
    assert print_study(parse(Source("a.riff", WHOLE))[0]) == """\
// first
chords "Slack water"
  meter        3/4
  voicing      triads on 3 2 1 first inversion
  diagrams     show  // charts
  signs        |: [A]         | newline :|
  // the chords
  progression  |: I*2 IV/3    | %       :|
  rhythm       |  q  q     q
  strum        |  (d gu)*1 xd  // loose

  progression  C@x32010 .
  picking      p+a@1 i . r
  // the end
"""


MISTAKES: list[tuple[Code, str, str | None]] = [
    (codes.UNKNOWN_WORD, chords("⟦changes⟧ I V"), "progression"),
    (codes.UNKNOWN_WORD, chords("progression I", "⟦strumming⟧ d"), "strum"),
    (codes.UNKNOWN_WORD, '⟦chord⟧ "A"\n  progression I\n', "chords"),
    (codes.WRONG_PLACE, chords("progression I", "⟦chords⟧ Am"), None),
    (codes.WRONG_PLACE, chords("⟦degrees⟧ 1 3", "progression I"), None),
    (codes.WRONG_PLACE, chords("⟦layout⟧ free", "progression I"), None),
    (codes.WRONG_PLACE, run("⟦chords⟧ Am G"), None),
    (codes.WRONG_PLACE, "title A\n  ⟦chords⟧ Am G\n", None),
    (codes.WRONG_PLACE, riff("⟦strum⟧ d u", "degrees 1 2"), None),
    (codes.WRONG_PLACE, riff("⟦voicing⟧ open", "degrees 1 2"), None),
    (codes.WRONG_PLACE, "⟦diagrams⟧ show\n", None),
    (codes.WRONG_PLACE, chords("progression I", "⟦voicing⟧ open", "", "progression V"), None),
    (codes.AT_MARGIN, '  ⟦chords⟧ "A"\n    progression I\n', None),
    (codes.AT_MARGIN, 'chords "A"\n⟦progression⟧ I\n', None),
    (codes.BLOCK_NAME, "chords ⟦Slack water⟧\n  progression I\n", '"Slack water"'),
    (codes.NO_ROWS, '⟦chords "A"⟧\n', None),
    (codes.NO_ROW_SOUNDS, chords("⟦strum⟧ d u"), None),
    (codes.AT_ODDS, chords("progression I", "strum d", "⟦picking⟧ p"), None),
    (codes.EMPTY_BAR, chords("progression I ⟦| |⟧ V"), None),
    (codes.BAD_VALUE, chords("voicing ⟦tirads⟧ on 3 2 1", "progression I"), "triads"),
    (codes.BAD_VALUE, chords("voicing ⟦drop2⟧", "progression I"), "drop 2"),
    (codes.BAD_VALUE, chords("voicing triads on 3 2 1 ⟦frist inversion⟧", "progression I"), "first inversion"),
    (codes.BAD_VALUE, chords("voicing triads on 3 ⟦13⟧", "progression I"), None),
    (codes.BAD_VALUE, chords("voicing triads on 3 2 ⟦2⟧", "progression I"), None),
    (codes.BAD_VALUE, chords("⟦voicing on⟧", "progression I").replace("⟦voicing on⟧", "voicing ⟦triads on⟧"), None),
    (codes.BAD_VALUE, chords("diagrams ⟦shwo⟧", "progression I"), "show"),
    (codes.BAD_CELL, chords("progression I", "strum d ⟦dg⟧"), "gd"),
    (codes.BAD_CELL, chords("progression I", "strum ⟦down⟧ u"), "d"),
    (codes.BAD_CELL, chords("progression I", "strum d ⟦-⟧ u"), "."),
    (codes.BAD_CELL, chords("progression I", "strum d ⟦x⟧ u"), "xd"),
    (codes.BAD_CELL, chords("progression I", "picking p ⟦thumb⟧"), "p"),
    (codes.BAD_CELL, chords("progression I", "picking p ⟦p5⟧"), "p"),
    (codes.PARENTHESES, chords("progression ⟦C(⟧b5)"), None),
    (codes.BARS_DISAGREE, chords("progression I", "strum d | ⟦u⟧"), None),
    (codes.TWICE, chords("voicing open", "⟦voicing⟧ free", "progression I"), None),
]


@pytest.mark.parametrize(("code", "marked", "suggestion"), MISTAKES, ids=[f"{code.id}-{text.strip()[-40:]}" for code, text, _ in MISTAKES])
def test_a_mistake_is_found_where_it_is(code: Code, marked: str, suggestion: str | None) -> None:
    text, (span,) = unmarked(marked)
    found = findings(text)
    assert [(each.code.id, text[slice(*each.span)], each.suggestion) for each in found] == [(code.id, text[slice(*span)], suggestion)]


@pytest.mark.parametrize(("marked", "suggestion"), [(text, near) for _, text, near in MISTAKES if near is not None])
def test_a_suggestion_mends_the_mistake(marked: str, suggestion: str) -> None:
    text, (span,) = unmarked(marked)
    assert findings(text[: span.start] + suggestion + text[span.end :]) == ()


def test_a_riff_has_its_row_of_chords_and_a_study_its_block_of_them() -> None:
    text = 'riff "A"\n  chords Am\n  degrees 1\nchords "B"\n  progression I\nchords\n  progression V\n'
    study, _, found = parse(Source("a.riff", text))
    assert found == ()
    assert [(block["kind"], block.get("name")) for block in study["blocks"]] == [("riff", "A"), ("chords", "B"), ("chords", None)]


def test_settings_may_stand_below_the_last_rows() -> None:
    study, _, found = parse(Source("a.riff", chords("progression I", "voicing open", "diagrams show")))
    assert found == ()
    assert study["blocks"][0]["voicing"] == {"kind": "open"}
