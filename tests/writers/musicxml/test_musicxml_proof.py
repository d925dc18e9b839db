"""The MusicXML of any score is valid, says what the model says, and loads in an engraver.

Sources: the W3C MusicXML 4.0 schema (``tests.proof.xsd``); music21 as an independent reader (``tests.proof.readback``); verovio as an
independent engraver (``tests.proof.engraver``).
"""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.model.score import Score
from tabforge.writers.musicxml import write
from tabforge.writers.options import STAVES, Staves, WriteOptions
from tests.proof.engraver import complaints
from tests.proof.readback import compare
from tests.proof.strategies import scores
from tests.proof.xsd import problems

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
