# ruff: noqa: E501  # tables are read by their columns
"""What a wrong document is told: which code, in which words, and where in the text."""

from __future__ import annotations

import json
import re
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge import schema
from tabforge.diagnostics import Diagnostic
from tabforge.diagnostics.catalogue import CODES
from tabforge.limits import MAX_DIAGNOSTICS
from tabforge.readers.json_origins import JsonOrigins
from tabforge.schema.about_keys import ABOUT_KEYS
from tabforge.schema.about_values import ABOUT_VALUES
from tabforge.schema.keywords import COMPILED
from tests.schema.mutations import VALUES, mutated
from tests.schema.samples import RIGHT


def guarded(document: Any, text: str | None = None) -> tuple[Diagnostic, ...]:
    return schema.guard(document, JsonOrigins(text or json.dumps(document, ensure_ascii=False)))


def study(**more: Any) -> dict[str, Any]:
    return {"study": 1, "blocks": [], **more}


def run(**more: Any) -> dict[str, Any]:
    return study(blocks=[{"kind": "run", **more}])


def riff(**rows: Any) -> dict[str, Any]:
    return study(blocks=[{"kind": "riff", "systems": [rows]}])


CASES: list[tuple[dict[str, Any], str, str, str, str | None]] = [
    # document, code, headline, the text the span covers, suggestion
    (study(titel="x"), "D221", "a study has no “titel”", "titel", "title"),
    (study(scale={"root": "C", "name": "major", "octave": 2}), "D221", "a scale has no “octave”", "octave", None),
    (run(systems=[]), "D221", "a run has no “systems”", "systems", None),
    ({"blocks": []}, "D222", "a study needs “study”", "{", None),
    (study(scale={"name": "major"}), "D222", "a scale needs “root”", '"scale": {', None),
    (study(scale={"root": "C"}), "D222", "a scale needs one of “steps”, “semitones”, “degrees” and “name”", '"scale": {', None),
    (study(blocks=[{"name": "x"}]), "D222", "a block needs “kind”", "{", None),
    (study(capo="2"), "D223", "the capo must be a whole number or an object { … }, not a text in quotes", "2", "2"),
    (study(capo=True), "D223", "the capo must be a whole number or an object { … }, not true or false", "true", None),
    (study(capo=1.5), "D223", "the capo must be a whole number or an object { … }, not a number", "1.5", None),
    (study(tempo=96), "D223", "the tempo must be an object { … }, not a whole number", "96", None),
    (study(tuning=5), "D223", "the tuning must be a text in quotes or a list [ … ], not a whole number", "5", None),
    (study(swing=[]), "D223", "the swing must be “off” or an object { … }, not a list [ … ]", '"swing": [', None),
    (riff(rhythm="q q"), "D223", "the row of rhythm must be a list [ … ], not a text in quotes", "q q", None),
    (study(blocks=[5]), "D223", "the block must be an object { … }, not a whole number", "5", None),
    ({"study": 2, "blocks": []}, "D224", "the format version must be 1, not 2", "2", None),
    (study(keys="fifth"), "D224", "“fifth” is not a walk through the keys", "fifth", "fifths"),
    (study(swing="of"), "D224", "the swing must be “off”, not “of”", "of", "off"),
    (study(blocks=[{"kind": "rif", "systems": []}]), "D224", "“rif” is not a kind of block", "rif", "riff"),
    (run(path=["upp"]), "D224", "“upp” is not a direction", "upp", "up"),
    (run(layout={"kind": "per strings", "count": 3, "from": 6}), "D224", "“per strings” is not a kind of layout", "per strings", "per string"),
    (study(tuning=["E2", "A2", "H3"]), "D225", "“H3” is not a pitch", "H3", None),
    (study(tuning=["E2", "A2", "c4"]), "D225", "“c4” is not a pitch", "c4", "C4"),
    (study(meter="4\\4"), "D225", "“4\\4” is not a meter", "4\\\\4", "4/4"),
    (study(title="a\nb"), "D225", "the title goes over more than one line", "a\\nb", None),
    (study(title="a\x07b"), "D225", "the title has a character that cannot be seen (U+0007)", "a\\u0007b", None),
    (riff(barlines={"x": "||"}), "D225", "“x” is not a number of bars", "x", None),
    (riff(barlines={"1": "|||"}), "D225", "“|||” is not a bar line", "|||", "||"),
    (riff(rhythm=["q Q q"]), "D225", "“Q” cannot stand in the row of rhythm", "Q", "q"),
    (riff(degrees=["1 (2 3)*2 H5 4"]), "D225", "“H5” cannot stand in the row of degrees", "H5", None),
    (riff(rhythm=["q | q"]), "D225", "“|” cannot stand in the row of rhythm", "|", None),
    (riff(rhythm=["q  q"]), "D225", "this bar of rhythm is not set out as cells with one space between them", "q  q", "q q"),
    (riff(meter=["4/5"]), "D225", "“4/5” cannot stand in the row of meter", "4/5", None),
    (riff(words=['é "b c" d|']), "D225", "“d|” cannot stand in the row of words", "d|", None),
    (run(marks="h zz"), "D225", "“zz” cannot stand in the row of marks", "zz", None),
    (study(capo=40), "D226", "the fret of the capo must be from 0 to 12, not 40", "40", None),
    (study(capo={"fret": 0, "strings": [5]}), "D226", "the fret of the partial capo must be from 1 to 12, not 0", "0", None),
    (study(capo={"fret": 2}), "D222", "a partial capo needs “strings”", '"capo": {', None),
    (study(capo={"fret": 2, "strings": [5, 4, 5]}), "D228", "the strings under the capo have 5 twice", "5", None),
    (study(hand="lefft"), "D224", "“lefft” is not a hand", "lefft", "left"),
    (study(fretting="diatonik"), "D224", "“diatonik” is not a named fretting", "diatonik", "diatonic"),
    (study(fretting=[2, 61]), "D226", "the half steps of a fret must be from 0.01 to 60, not 61", "61", None),
    (study(tempo={"bpm": 5}), "D226", "the number of beats a minute must be from 10 to 500, not 5", "5", None),
    (study(title="x" * 2001), "D227", "the title must have at most 2,000 characters, not 2,001", "x" * 2001, None),
    (study(instrument=""), "D227", "the instrument must not be empty", '""', None),
    (study(tuning=["E2", "A2"]), "D227", "the list of open strings must have from 3 to 12 entries, not 2", '"tuning": [', None),
    (study(swing={"value": "e", "ratio": [2, 1, 1]}), "D227", "the swing ratio must have exactly 2 entries, not 3", '"ratio": [', None),
    (study(scale={"root": "C", "semitones": [0, 3, 5, 3]}), "D228", "the semitones of the scale have 3 twice", "3", None),
    (study(scale={"root": "C", "steps": ["W"], "semitones": [0]}), "D229", "a scale cannot have “steps” and “semitones” together", "semitones", None),
    (run(to="8", octaves=2), "D229", "a run cannot have “to” and “octaves” together", "octaves", None),
]


@pytest.mark.parametrize(("document", "code", "headline", "covered", "suggestion"), CASES, ids=[case[2][:60] for case in CASES])
def test_one_mistake_is_told_once_in_words(document: Any, code: str, headline: str, covered: str, suggestion: str | None) -> None:
    text = json.dumps(document, ensure_ascii=False)
    found = guarded(document, text)
    assert [(each.code.id, each.headline) for each in found] == [(code, headline)]
    assert text[found[0].span.start : found[0].span.end] == covered
    assert found[0].suggestion == suggestion


def test_every_code_of_the_guard_has_a_case() -> None:
    assert {case[1] for case in CASES} == {code for code in CODES if code.startswith("D22")}


def test_every_keyword_that_can_fail_has_words() -> None:
    inside = {"properties", "items", "propertyNames", "allOf", "if", "then", "else", "$ref"}
    """Keywords whose errors are those of the schemas within them."""
    assert ABOUT_KEYS.keys() | ABOUT_VALUES.keys() == COMPILED - inside


def test_a_key_that_belongs_elsewhere_is_told_where() -> None:
    (found,) = guarded(run(systems=[]))
    assert found.help == "“systems” belongs to a riff and a chord block"
    assert found.pointer == "/blocks/0/systems"


def test_the_pointer_is_escaped_as_rfc_6901_says() -> None:
    """RFC 6901, section 3: ~ is ~0 and / is ~1."""
    (found,) = guarded(study(**{"a/b~c": 1}))
    assert found.pointer == "/a~1b~0c"


def test_all_mistakes_are_told_in_one_run() -> None:
    document = riff(rhythm=["q Q", "e"], degrees=["1 H", "9 I"], picks=[3]) | {"capo": 40, "titel": "x"}
    text = json.dumps(document)
    found = guarded(document, text)
    assert {text[each.span.start : each.span.end] for each in found} == {"Q", "H", "I", "3", "40", "titel"}


def test_no_more_is_told_than_the_limit() -> None:
    assert len(guarded(riff(rhythm=["Q Q Q"] * 500))) == MAX_DIAGNOSTICS
    assert len(guarded(study(**{f"x{number}": 1 for number in range(1000)}))) == MAX_DIAGNOSTICS


REGEX = re.compile(r"\(\?|\[\^|\\[sdw]|\]\{|\$\(|urn:|\$defs|None|Error")
"""Signs of a regular expression, a schema or Python in what is meant for a teacher."""


@given(st.data())
@settings(max_examples=500, deadline=None)
def test_whatever_is_wrong_the_words_are_for_a_person(data: st.DataObject) -> None:
    document = data.draw(mutated(data.draw(st.sampled_from(RIGHT))) | VALUES)
    text = json.dumps(document)
    for each in guarded(document, text):
        said = " ".join(filter(None, (each.headline, each.expected, each.help, each.label)))
        quoted = re.sub("“.*?”", "", said, flags=re.DOTALL)
        assert not REGEX.search(quoted), said
        assert "\n" not in each.headline
        assert len(each.headline) < 200
        assert each.code.id.startswith("D22")
        assert 0 <= each.span.start <= each.span.end <= len(text)
        assert each.pointer is not None


@pytest.mark.parametrize("document", [case[0] for case in CASES if case[4] and case[1] != "D223"], ids=lambda document: json.dumps(document)[:60])
def test_what_is_suggested_mends(document: Any) -> None:
    text = json.dumps(document, ensure_ascii=False)
    (found,) = guarded(document, text)
    mended = text[: found.span.start] + json.dumps(found.suggestion)[1:-1] + text[found.span.end :]
    assert guarded(json.loads(mended), mended) == ()
