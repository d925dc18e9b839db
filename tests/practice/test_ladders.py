"""Rungs as a metronome has them, and how far each visit climbs."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.model.meter import Tempo
from tabforge.model.values import BY_LETTER
from tabforge.performance import PlayOptions, perform
from tabforge.performance.ladder import Misread, read_ladder
from tabforge.practice.blocks import beat_of, blocks_of, figure, ladder_text, rungs_of
from tabforge.practice.days import rung_minutes, windows
from tabforge.practice.lines import rungs_text
from tabforge.practice.model import USUAL_LADDER, Rung
from tests.practice.planning import EXAMPLES, example, plain, score_of


@pytest.mark.parametrize(("bpm", "figures"), [
    (96, (58, 67, 77, 86, 96, 106)),  # 57.6, 67.2, 76.8, 86.4, 96, 105.6: reckoned by hand
    (120, (72, 84, 96, 108, 120, 132)),
    (75, (45, 53, 60, 68, 75, 83)),  # 52.5, 67.5 and 82.5 are rounded up
    (132.5, (80, 93, 106, 119, 133, 146)),
])  # fmt: skip
def test_rungs_are_whole_beats_of_the_written_tempo(bpm: float, figures: tuple[int, ...]) -> None:
    tempo = Tempo(bpm=bpm, beat=BY_LETTER["q"])
    assert tuple(rung.figure for rung in rungs_of(tempo, USUAL_LADDER)) == figures


@given(st.integers(10, 40000), st.integers(10, 400))
def test_a_figure_is_rounded_as_decimals_round(hundredths: int, percent: int) -> None:
    exact = Decimal(hundredths) * percent / 10000
    expected = int(exact.quantize(Decimal(1), rounding=ROUND_HALF_UP))
    assert figure(hundredths / 100, percent) in {max(1, expected), *([max(1, expected - 1)] if exact % 1 == Decimal("0.5") else [])}


def test_figures_count_the_blocks_own_beat() -> None:
    """Dotted quarters in 12/8 are told as such, and not turned into quarters."""
    assert beat_of(Tempo(bpm=60, beat=BY_LETTER["q"], dots=1)) == "dotted quarter notes a minute"
    (block, *_) = blocks_of(score_of('title A\nscale C3 major\nmeter 6/8\ntempo q.=60\nriff "B"\n rhythm q. q.\n degrees 1 2\n'))
    rungs = rungs_of(block.tempo, (50, 100))
    assert rungs_text(rungs, beat_of(block.tempo)) == "30, 60 dotted quarter notes a minute"


def test_rungs_that_come_out_alike_are_one() -> None:
    tempo = Tempo(bpm=20, beat=BY_LETTER["q"])
    assert [rung.figure for rung in rungs_of(tempo, (60, 61, 62, 70))] == [12, 14]


def test_without_a_tempo_rungs_are_percents() -> None:
    assert rungs_text(rungs_of(None, (60, 72.5)), None) == "60 %, 72.5 %"


@given(st.integers(10, 390), st.integers(1, 40), st.integers(1, 9))
def test_a_ladder_is_said_so_that_it_can_be_read_again(first: int, step: int, count: int) -> None:
    ladder = tuple(float(first + step * number) for number in range(count) if first + step * number <= 400)
    read = read_ladder(ladder_text(ladder))
    assert not isinstance(read, Misread)
    assert read == ladder
    assert read_ladder(ladder_text(ladder[::-1])) == ladder[::-1]


def test_a_block_lasts_as_long_as_it_is_played() -> None:
    """Against the performance, which walks through repeats on its own line of time."""
    for path in EXAMPLES:
        score = example(path)
        for block in blocks_of(score):
            number = score.sections.index(block.first)
            played = perform(score, PlayOptions(sections=(number,), count_in=0))
            points = [*played.tempos]
            ends = [*(point.tick for point in points[1:]), played.ticks]
            seconds = sum((end - at.tick) / played.divisions * 60 / at.quarters for at, end in zip(points, ends, strict=True))
            assert block.seconds == pytest.approx(seconds, rel=0.2), (path.name, block.name)  # fermatas and a rit. are longer there


@given(
    st.integers(1, 12), st.floats(0.5, 300), st.integers(1, 10), st.lists(st.integers(2, 60), min_size=1, max_size=12),
)  # fmt: skip
def test_each_visit_goes_on_where_the_last_one_ended(count: int, seconds: float, times: int, minutes: list[int]) -> None:
    rungs = tuple(Rung(50 + 10 * number, 50 + 10 * number) for number in range(count))
    found, reached = windows(rungs, seconds, times, minutes)
    assert len(found) == len(minutes)
    for given_minutes, each in zip(minutes, found, strict=True):
        low, high = rungs.index(each[0]), rungs.index(each[-1])
        assert each == rungs[low : high + 1]
        assert len(each) <= 2 or sum(rung_minutes(seconds, rung.percent, times) for rung in each) <= given_minutes + 1e-9
        assert len(each) > 1 or count == 1 or each[0] == rungs[-1]
    for before, after in pairwise(found):
        assert rungs.index(after[0]) <= rungs.index(before[-1]) <= rungs.index(after[-1])
    assert reached == (found[-1][-1] == rungs[-1])
    assert found[0][0] == rungs[0]


def test_the_ladder_is_climbed_evenly_where_there_is_time() -> None:
    rungs = rungs_of(blocks_of(plain())[0].tempo, USUAL_LADDER)
    found, reached = windows(rungs, 2.5, 3, [30] * 5)
    assert reached
    assert [each[-1].percent for each in found] == [70, 80, 90, 100, 110]
