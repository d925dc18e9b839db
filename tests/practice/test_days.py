"""Days: their minutes add up, breaks come in time, every block has its turn."""

from __future__ import annotations

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.limits import MAX_PLAN_DAYS, MAX_PLAN_MINUTES, MAX_PLAN_TIMES, MIN_PLAN_MINUTES
from tabforge.practice import Plan, PlanOptions, plan_lines, plan_of, plan_text
from tabforge.practice.days import frame_of, shares
from tabforge.practice.model import KEY_ORDERS
from tests.practice.planning import EXAMPLES, example, plain, score_of

SCORES = {path.name: example(path) for path in EXAMPLES[:4]}

options = st.builds(
    PlanOptions,
    minutes=st.integers(MIN_PLAN_MINUTES, MAX_PLAN_MINUTES),
    days=st.integers(1, MAX_PLAN_DAYS),
    times=st.integers(1, MAX_PLAN_TIMES),
    ladder=st.lists(st.integers(10, 400).map(float), min_size=1, max_size=12).map(tuple),
    keys=st.sampled_from(KEY_ORDERS),
    seed=st.integers(0, 1000),
)


def holds(plan: Plan) -> None:
    """What is true of every plan."""
    asked = plan.options
    assert len(plan.days) == asked.days
    for day in plan.days:
        assert day.warm_up + sum(step.minutes for step in day.steps) + sum(step.pause for step in day.steps) + day.closing == asked.minutes
        assert day.minutes == asked.minutes
        assert day.warm_up > 0
        assert day.closing > 0
        assert all(step.minutes > 0 and step.rungs and step.times == asked.times for step in day.steps)
        assert day.steps[-1].pause == 0
        sitting = 0
        for step in day.steps:
            sitting = 0 if step.pause else sitting + step.minutes
            assert sitting <= 40
    assert {step.block for day in plan.days for step in day.steps} <= set(range(len(plan.blocks)))


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(sorted(SCORES)), options)
def test_minutes_add_up_whatever_is_asked(name: str, asked: PlanOptions) -> None:
    holds(plan_of(SCORES[name], asked))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_has_a_plan(path: Path) -> None:
    score = example(path)
    plan = plan_of(score)
    holds(plan)
    assert {step.block for day in plan.days for step in day.steps} == set(range(len(plan.blocks)))
    assert all(block.listen for block in plan.blocks)
    text = plan_text(plan)
    assert all(len(line) <= 100 for line in text.split("\n") if "tabforge tracks" not in line)
    assert plan_text(plan_of(score)) == text
    lines = plan_lines(score)
    assert all(lines)
    assert all("\n" not in line for line in lines)


@given(st.integers(MIN_PLAN_MINUTES, MAX_PLAN_MINUTES))
def test_a_day_is_divided_without_a_rest(minutes: int) -> None:
    frame = frame_of(minutes)
    assert frame.warm_up + frame.playing + frame.closing + frame.breaks * frame.each == minutes
    assert frame.playing >= 4 * (frame.breaks + 1)


@given(st.integers(1, 180), st.lists(st.floats(0.1, 1e4), min_size=1, max_size=40))
def test_shares_add_up(minutes: int, weights: list[float]) -> None:
    found = shares(minutes, weights)
    assert sum(found) == minutes
    heavier = sorted(zip(weights, found, strict=True))
    assert all(lighter[1] <= heavy[1] + 1 for lighter, heavy in pairwise(heavier))


def test_short_days_have_no_break_and_long_ones_several() -> None:
    pauses = [[step.pause for step in plan_of(plain(), PlanOptions(minutes=minutes)).days[0].steps] for minutes in (20, 30, 60, 120)]
    assert [sum(map(bool, each)) for each in pauses] == [0, 1, 2, 4]
    assert [max(each) for each in pauses] == [0, 2, 5, 5]


def test_what_is_listened_for_changes_from_visit_to_visit() -> None:
    plan = plan_of(plain())
    heard = [step.focus for day in plan.days for step in day.steps if step.block == 0]
    listen = plan.blocks[0].listen
    assert heard == [listen[number % len(listen)] for number in range(len(heard))]


def test_a_long_block_is_learnt_in_pieces() -> None:
    bars = " | ".join(["q q q q"] * 8)
    score = score_of(f'title A\nscale C3 major\ntempo 90\nriff "Long"\n rhythm {bars}\n degrees {bars.replace("q", "1")}\n')
    assert plan_of(score).blocks[0].piece == 4
    assert "4 bars at a time" in plan_text(plan_of(score))
    assert "at a time" not in plan_text(plan_of(plain()))


def test_without_a_tempo_one_is_to_be_chosen() -> None:
    score = score_of('title A\nscale C3 major\nriff "Free"\n rhythm q q q q\n degrees 1 2 3 4\n')
    text = plan_text(plan_of(score))
    assert "choose a tempo at which every note is clear" in text
    assert "60 %" in text
    assert "a minute" not in text


def test_one_block_alone() -> None:
    plan = plan_of(plain(), PlanOptions(blocks=(1,), file="slipway.riff"))
    assert [block.name for block in plan.blocks] == ["Fall"]
    assert plan.tracks == "tabforge tracks slipway.riff --block Fall --ladder 60..110/10 --times 3 --click"


def test_a_study_of_words_alone_has_nothing_to_plan() -> None:
    score = score_of("title A\n")
    assert plan_of(score).days == ()
    assert plan_lines(score) == ()
    assert "Nothing is played" in plan_text(plan_of(score))


def test_ladders_left_below_the_top_are_named() -> None:
    plan = plan_of(plain("40"), PlanOptions(days=1, minutes=10, times=20))
    tops = {step.block: step.rungs[-1].percent for step in plan.days[0].steps}
    left = [plan.blocks[block].name for block, top in tops.items() if top < 110]
    assert left
    assert all(any(name in remark for remark in plan.remarks) for name in left)
