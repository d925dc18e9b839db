"""The order of keys. The circle of fifths is common practice (every book of theory prints it); music21 counts its steps again."""

from __future__ import annotations

import pytest
from music21 import interval, pitch

from tabforge.practice import PlanOptions, plan_of, plan_page, plan_text
from tabforge.practice.keys import turns
from tabforge.practice.model import KEY_ORDERS, KeyOrder
from tests.practice.planning import plain, score_of

CIRCLE = ("C", "G", "D", "A", "E", "B", "F#", "C#", "Ab", "Eb", "Bb", "F")


def roots(order: KeyOrder, seed: int = 1, days: int = 12) -> list[str]:
    plan = plan_of(plain(), PlanOptions(keys=order, seed=seed, days=days, minutes=60))
    return [key.removesuffix(" major") for key in plan.keys]


def semitone(name: str) -> int:
    return int(pitch.Pitch(name.replace("b", "-")).pitchClass)


def test_fifths_go_round_the_circle() -> None:
    found = [semitone(name) for name in roots("fifths")]
    assert found == [semitone(name) for name in CIRCLE]
    walk, fifth = pitch.Pitch("C4"), interval.Interval("P5")
    for each in found:
        assert walk.pitchClass == each
        walk = fifth.transposePitch(walk)


def test_fourths_go_round_it_the_other_way() -> None:
    assert [semitone(name) for name in roots("fourths")] == [semitone(CIRCLE[-number % 12]) for number in range(12)]


def test_chromatic_goes_up_by_half_steps() -> None:
    assert [semitone(name) for name in roots("chromatic")] == list(range(12))


def test_no_key_is_spelled_with_more_signs_than_it_needs() -> None:
    """Seven sharps or flats at most (a key signature has no more)."""
    from music21 import key

    for order in KEY_ORDERS:
        assert all(abs(key.Key(name.replace("b", "-")).sharps) <= 6 or name == "C#" for name in roots(order))


def test_a_random_order_is_each_key_once_and_the_seed_decides_it() -> None:
    orders = [tuple(turns("random", seed)) for seed in range(50)]
    assert all(sorted(order) == list(range(12)) for order in orders)
    assert len(set(orders)) == 50
    firsts = {order[0] for order in orders}
    assert len(firsts) > 6  # no favourite
    assert len({semitone(name) for name in roots("random", 3)}) == 12


def test_the_same_seed_gives_the_same_bytes_and_another_one_others() -> None:
    pages = [plan_page(plan_of(plain(), PlanOptions(keys="random", seed=seed))) for seed in (7, 7, 8)]
    assert pages[0].encode() == pages[1].encode()
    assert pages[0] != pages[2]


def test_a_seed_changes_nothing_else() -> None:
    texts = {plan_text(plan_of(plain(), PlanOptions(keys="fifths", seed=seed))) for seed in range(5)}
    assert len(texts) == 1


def test_keys_are_spread_over_the_days_in_order() -> None:
    plan = plan_of(plain(), PlanOptions(keys="chromatic", days=6, minutes=60))
    met = [step.key for day in plan.days for step in day.steps]
    assert list(dict.fromkeys(met)) == list(plan.keys)
    assert len(plan.keys) == 12
    assert all(len({step.key for step in day.steps}) <= 3 for day in plan.days)


def test_as_written_has_the_keys_of_the_study() -> None:
    text = 'title A\nscale D3 dorian\nkeys G Bb\ntempo 90\nriff "Climb"\n rhythm q q q q\n degrees 1 2 3 4\n'
    plan = plan_of(score_of(text))
    assert plan.keys == ("D dorian", "G dorian", "Bb dorian")
    assert [block.name for block in plan.blocks] == ["Climb"]
    assert not plan.remarks


def test_a_block_without_a_scale_stays_where_it_is() -> None:
    plan = plan_of(score_of('title A\ntempo 90\nriff "Tap"\n rhythm q q q q\n frets 6:0 1 2 3\n'), PlanOptions(keys="fifths"))
    assert plan.keys == ()
    assert {step.key for day in plan.days for step in day.steps} == {None}
    assert any("Tap" in remark for remark in plan.remarks)


@pytest.mark.parametrize("minutes", [10, 30])
def test_where_there_is_too_little_time_every_key_still_has_a_block_if_it_can(minutes: int) -> None:
    plan = plan_of(plain(), PlanOptions(keys="fifths", days=12, minutes=minutes))
    assert len(plan.keys) == 12
    assert any("time" in remark for remark in plan.remarks) == (minutes == 10)
    assert {step.block for day in plan.days for step in day.steps} == {0, 1}
