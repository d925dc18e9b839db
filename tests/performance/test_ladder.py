"""Ladders as they are written."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge import limits
from tabforge.performance.ladder import Misread, read_ladder


@pytest.mark.parametrize(("text", "rungs"), [
    ("100", (100,)),
    ("80%", (80,)),
    ("60..120/5", tuple(range(60, 121, 5))),
    ("100..60/10", (100, 90, 80, 70, 60)),
    ("60 .. 100 / 15", (60, 75, 90, 100)),
    ("62.5..65/1.25", (62.5, 63.75, 65)),
    ("70,85,100", (70, 85, 100)),
    ("60..80/10, 70, 100", (60, 70, 80, 70, 100)),
    ("90..90/5", (90,)),
])
def test_a_ladder_is_read(text: str, rungs: tuple[float, ...]) -> None:
    assert read_ladder(text) == rungs


@pytest.mark.parametrize(("text", "said"), [
    *((text, "no rung") for text in ("", "fast", "60..120", "60..120/", "60-120/5", "-60", "1e9")),
    ("60..120/0", "no step"),
    *((text, "10 to 400") for text in ("9", "401", "0..100/10")),
    *((text, "100 rungs") for text in ("10..400/1", ",".join(["100"] * 101))),
])
def test_what_is_none_is_answered_with_how_it_is_written(text: str, said: str) -> None:
    read = read_ladder(text)
    assert isinstance(read, Misread)
    assert said in read.why


@given(st.integers(10, 400), st.integers(10, 400), st.integers(4, 200))
def test_rungs_go_from_one_end_to_the_other_in_even_steps(first: int, last: int, step: int) -> None:
    rungs = read_ladder(f"{first}..{last}/{step}")
    assert not isinstance(rungs, Misread)
    assert (rungs[0], rungs[-1]) == (first, last)
    assert len(rungs) <= limits.MAX_RUNGS
    gaps = [abs(after - before) for before, after in pairwise(rungs)]
    assert all(gap == step for gap in gaps[:-1])
    assert all(0 < gap <= step for gap in gaps)


@given(st.text(alphabet="0123456789./,% x-", max_size=20))
def test_whatever_is_written_is_read_or_answered(text: str) -> None:
    read = read_ladder(text)
    assert isinstance(read, Misread) or all(limits.MIN_SPEED <= rung <= limits.MAX_SPEED for rung in read)
