"""Dynamics and hairpins as velocities. How loud each is is common practice, no source; their order is music's own."""

from __future__ import annotations

import pytest

from tabforge.model.events import DYNAMICS, Attached, Hairpin
from tabforge.model.score import Score
from tabforge.performance import perform
from tabforge.performance.practice import DYNAMIC, LEVELS
from tests.proof.scores import bar, note, one_bar, score, section, voice

PLAIN = 80  # mezzo-forte, where a section begins


def dynamics(*given: Attached) -> list[int]:
    return [sound.velocity for sound in perform(one_bar(*(note("q", "1:3", attached=each) for each in given))).sounds]


def test_dynamics_hold_until_the_next() -> None:
    soft, still, loud, on = dynamics(Attached(dynamic="p"), Attached(), Attached(dynamic="ff"), Attached())
    assert soft == still < PLAIN < loud == on
    accent, back, *_ = dynamics(Attached(dynamic="sfz"), Attached(), Attached(), Attached())
    assert accent > PLAIN == back
    first, after, *_ = dynamics(Attached(dynamic="fp"), Attached(), Attached(), Attached())
    assert first > PLAIN > after


def test_a_hairpin_leads_to_the_dynamic_at_its_end() -> None:
    begins, ends = Hairpin(kind="crescendo", begins=True), Hairpin(kind="crescendo", begins=False)
    row = dynamics(Attached(dynamic="p", hairpins=(begins,)), Attached(), Attached(), Attached(dynamic="f", hairpins=(ends,)))
    assert row == sorted(set(row))
    assert row[1] - row[0] == pytest.approx(row[2] - row[1], abs=1)
    assert [row[0], row[3]] == dynamics(Attached(dynamic="p"), Attached(dynamic="f"), Attached(), Attached())[:2]


def test_a_hairpin_to_nowhere_leads_a_step_on() -> None:
    begins = Hairpin(kind="diminuendo", begins=True)
    ends = Hairpin(kind="diminuendo", begins=False, through=True)
    row = dynamics(Attached(hairpins=(begins,)), Attached(), Attached(hairpins=(ends,)), Attached())
    assert row == sorted(set(row), reverse=True)


def both_voices() -> Score:
    upper = voice(note("h", "1:3", attached=Attached(dynamic="pp")), note("h", "1:5"))
    return score(section(bar(upper, voice(note("w", "6:3"), place=100))))


def test_a_voice_without_dynamics_follows_the_first() -> None:
    assert len({sound.velocity for sound in perform(both_voices()).sounds}) == 1


def test_every_dynamic_has_a_level_and_they_ascend() -> None:
    assert set(DYNAMIC) == set(DYNAMICS)
    assert list(LEVELS.values()) == sorted(LEVELS.values())
    assert all(0 < each.attack < 128 for each in DYNAMIC.values())


def test_each_section_begins_anew() -> None:
    one = bar(voice(note("w", "1:3", attached=Attached(dynamic="pp"))))
    two = bar(voice(note("w", "1:3")))
    assert [sound.velocity for sound in perform(score(section(one), section(two))).sounds] == [LEVELS["pp"], PLAIN]
