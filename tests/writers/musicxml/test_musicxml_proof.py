"""The MusicXML of any score is valid, says what the model says, and loads in an engraver.

Sources: the W3C MusicXML 4.0 schema (``tests.proof.xsd``); music21 as an independent reader (``tests.proof.readback``); verovio as an
independent engraver (``tests.proof.engraver``).
"""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.model.score import Score
from tabforge.pipeline import study_from
from tabforge.writers.musicxml import write
from tabforge.writers.options import STAVES, Staves, WriteOptions
from tests.proof.engraver import complaints, misplaced, numerals
from tests.proof.readback import compare
from tests.proof.scores import bar, note, rest, score, section, tuplet, voice
from tests.proof.strategies import scores
from tests.proof.xsd import problems
from tests.writers.musicxml.xml import notes, tree

_QUIET = {"deadline": None, "suppress_health_check": list(HealthCheck)}
layouts = st.sampled_from(STAVES)


def _check(score: Score, staves: Staves) -> None:
    document, _ = write(score, WriteOptions(staves=staves))
    assert problems(document) == []
    assert compare(score, document, staves) == []


@given(scores(), layouts)
@settings(max_examples=40, **_QUIET)
def test_any_score_is_valid_and_read_back_as_it_is_meant(score: Score, staves: Staves) -> None:
    _check(score, staves)


def test_tuplets_three_deep() -> None:
    divisions = 480 * 27
    inner = tuplet("3:2", "s", note("s", "3:1"), note("s", "3:2"), note("s", "3:3"))
    middle = tuplet("3:2", "e", inner, note("e", "3:5"), note("e", "3:6"))
    outer = tuplet("3:2", "q", middle, rest("q"), note("q", "3:7"))
    given = score(section(bar(voice(outer, note("h", "3:8"), divisions=divisions))), divisions=divisions)
    for staves in STAVES:
        _check(given, staves)
        assert complaints(write(given, WriteOptions(staves=staves))[0]) == []
    document = tree(given)
    levels = [(each.get("type"), each.get("number")) for each in document.iter("tuplet")][:6]
    assert levels == [("start", "1"), ("start", "2"), ("start", "3"), ("stop", "3"), ("stop", "2"), ("stop", "1")]
    ratio = notes(document)[0].find("time-modification")
    assert (ratio.findtext("actual-notes"), ratio.findtext("normal-notes")) == ("27", "8")


EXAMPLES = sorted((Path(__file__).resolve().parents[3] / "examples").glob("*.riff"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_valid_read_back_and_engraved(path: Path) -> None:
    given = study_from(path.name, path.read_bytes()).score
    assert given is not None
    for staves in STAVES:
        _check(given, staves)
        document = write(given, WriteOptions(staves=staves))[0]
        assert complaints(document) == []
        if staves != "notation":
            assert misplaced(given, document) == []


def test_the_numerals_themselves_are_seen_to_be_misplaced() -> None:
    given = score(section(bar(voice(note("h", "3:5 1:3"), note("h", "6:12")))))
    document = write(given)[0]
    assert misplaced(given, document) == []
    found = [(each.course, each.fret, each.line, each.text) for each in numerals(document)]
    assert sorted(found) == [(1, 3, 1, "3"), (3, 5, 3, "5"), (6, 12, 6, "12")]
    for old, new in ((b"<string>3<", b"<string>2<"), (b"<fret>12<", b"<fret>11<"), (b"<staff-lines>6<", b"<staff-lines>5<")):
        assert document.count(old) > 0
        assert misplaced(given, document.replace(old, new)) != [], old


@pytest.mark.long
@given(scores(max_bars=8), layouts)
@settings(max_examples=1500, **_QUIET)
def test_any_score_at_length(score: Score, staves: Staves) -> None:
    _check(score, staves)


@given(scores(max_bars=3), layouts)
@settings(max_examples=15, **_QUIET)
def test_any_score_loads_in_an_engraver(score: Score, staves: Staves) -> None:
    document, _ = write(score, WriteOptions(staves=staves))
    assert complaints(document) == []
    if staves != "notation":
        assert misplaced(score, document) == []
