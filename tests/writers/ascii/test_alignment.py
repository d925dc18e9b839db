"""What holds for every tab: width, straight bar lines, clean line ends, the same bytes every time."""

from __future__ import annotations

import re

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.model.score import Score
from tabforge.writers.ascii import write
from tabforge.writers.options import WriteOptions
from tests.writers.ascii import reader
from tests.writers.ascii.strategies import scores

COMMON = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))


def check(score: Score, width: int, rhythm_line: bool) -> None:
    options = WriteOptions(width=width, rhythm_line=rhythm_line, ascii_only=True)
    data, losses = write(score, options)
    assert write(score, options) == (data, losses)
    text = data.decode("ascii")
    assert re.search(r"[^\n]\n\Z", text)
    lines = text.split("\n")
    assert all(line == line.rstrip() for line in lines)
    assert max(map(len, lines)) <= width
    systems = reader.systems(text)
    for system in systems:
        assert len({len(line) for line in system.strings}) == 1
        columns = {tuple(at for at, char in enumerate(line) if char == "|") for line in system.strings}
        assert len(columns) == 1
        assert max(len(line) for line in (*system.above, *system.below, "")) <= len(system.strings[0])
    strings = [len(section.tuning) for section in score.sections]
    assert {len(system.names) for system in systems} == set(strings)


@COMMON
@given(scores(), st.integers(40, 130), st.booleans())
def test_every_tab_is_straight(score: Score, width: int, rhythm_line: bool) -> None:
    check(score, width, rhythm_line)


@pytest.mark.long
@settings(max_examples=2000, deadline=None, suppress_health_check=list(HealthCheck))
@given(scores(), st.integers(40, 130), st.booleans())
def test_every_tab_is_straight_at_length(score: Score, width: int, rhythm_line: bool) -> None:
    check(score, width, rhythm_line)
