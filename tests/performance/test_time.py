"""Tempo, fermatas, swing."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from tabforge.model.meter import Swing, Tempo
from tabforge.model.score import BarLine, Score
from tabforge.model.values import BY_LETTER
from tabforge.performance import PlayOptions, perform
from tabforge.performance.model import Performance
from tests.proof.scores import DIVISIONS, bar, note, pitches, score, section, tuplet, voice

SWING = Swing(value=BY_LETTER["e"])


def tempo(bpm: float, beat: str = "q", dots: int = 0) -> Tempo:
    return Tempo(bpm=bpm, beat=BY_LETTER[beat], dots=dots)


def seconds(played: Performance, until: int | None = None) -> float:
    """How long a performance takes, from its row of tempi."""
    end = played.ticks if until is None else until
    ends = [*(point.tick for point in played.tempos[1:]), end]
    return sum(
        (min(until_tick, end) - point.tick) / DIVISIONS * 60 / point.quarters
        for point, until_tick in zip(played.tempos, ends, strict=True)
        if point.tick < end
    )


def bars(*given: dict[str, object]) -> Score:
    return score(section(*(bar(voice(note("w", "1:3")), **each) for each in given)))


def test_a_tempo_is_in_quarter_notes() -> None:
    """A dotted quarter at 60 is 90 quarters a minute: a bar of 6/8, two beats, lasts two seconds."""
    given = score(section(bar(voice(note("h.", "1:3")), meter="6/8", tempo=tempo(60, "q", 1))))
    assert [point.quarters for point in perform(given).tempos] == [90]
    assert seconds(perform(given)) == pytest.approx(2)


def test_the_tempo_may_be_changed_as_a_whole() -> None:
    given = bars({"tempo": tempo(100)}, {"tempo": tempo(50)})
    assert seconds(perform(given, PlayOptions(tempo=0.5))) == pytest.approx(2 * seconds(perform(given)))


def test_a_bar_played_again_has_the_tempo_it_had() -> None:
    given = bars({"tempo": tempo(100)}, {"tempo": tempo(50), "right": BarLine(repeat="backward")})
    assert [(point.tick // DIVISIONS, point.quarters) for point in perform(given).tempos] == [(0, 100), (4, 50), (8, 100), (12, 50)]


@pytest.mark.parametrize(("change", "slower"), [("rit", True), ("rall", True), ("accel", False)])
def test_a_gradual_change_is_a_row_of_points_until_the_tempo_is_taken_back(change: str, slower: bool) -> None:
    played = perform(bars({"tempo": tempo(120)}, {"tempo_change": change}, {}, {"tempo_change": "atempo"}))
    changing = [point.quarters for point in played.tempos if 4 <= point.tick / DIVISIONS < 12]
    assert len(changing) == 16
    assert changing == sorted(set(changing), reverse=slower)
    assert played.tempos[-1].quarters == 120
    assert played.tempos[-1].tick == 12 * DIVISIONS


def test_a_gradual_change_leads_to_the_tempo_that_follows() -> None:
    played = perform(bars({"tempo": tempo(120)}, {"tempo_change": "rit"}, {"tempo": tempo(40)}))
    assert 40 < played.tempos[-2].quarters < 60
    assert played.tempos[-1].quarters == 40


def test_a_fermata_holds_the_tempo_back_while_it_lasts() -> None:
    given = score(section(bar(voice(note("h", "1:3"), note("q", "1:5", marks="fm"), note("q", "1:7")), tempo=tempo(60))))
    played = perform(given)
    assert [(Fraction(point.tick, DIVISIONS), point.quarters) for point in played.tempos] == [(0, 60), (2, 30), (3, 60)]
    assert seconds(played) == pytest.approx(5)


def onsets(*items: object, swing: Swing = SWING, meter: str = "4/4", **more: object) -> list[Fraction]:
    given = score(section(bar(voice(*items), meter=meter, **more), swing=swing))  # type: ignore[arg-type]
    return [Fraction(sound.start, DIVISIONS) for sound in perform(given).sounds]


def test_swung_eighths_are_long_and_short() -> None:
    """Two to one: as a triplet of a quarter and an eighth (MusicXML 4.0's example of its swing element)."""
    assert onsets(pitches("e", "E4 F4 G4 A4"), note("h", "1:0")) == [0, Fraction(2, 3), 1, Fraction(5, 3), 2]
    hard = Swing(value=BY_LETTER["e"], first=3, second=1)
    assert onsets(pitches("e", "E4 F4"), note("h.", "1:0"), swing=hard) == [0, Fraction(3, 4), 1]


def test_swung_sixteenths_leave_eighths_alone() -> None:
    sixteenths = Swing(value=BY_LETTER["s"])
    assert onsets(pitches("e", "E4 F4"), pitches("s", "G4 A4"), note("e", "1:0"), note("h", "1:0"), swing=sixteenths) == [
        0, Fraction(1, 2), 1, 1 + Fraction(1, 3), Fraction(3, 2), 2
    ]  # fmt: skip


def test_a_triplet_is_played_as_it_is_written() -> None:
    third = Fraction(1, 3)
    assert onsets(tuplet("3:2", "e", pitches("e", "E4 F4 G4")), note("h.", "1:0")) == [0, third, 2 * third, 1]
    # One that begins off the beat goes with the swung eighth it takes the place of.
    assert onsets(note("e", "1:0"), tuplet("3:2", "s", pitches("s", "E4 F4 G4")), note("h.", "1:0")) == [
        0, Fraction(2, 3), Fraction(7, 9), Fraction(8, 9), 1
    ]  # fmt: skip


def test_no_sound_overlaps_the_next_when_swung() -> None:
    given = score(section(bar(voice(pitches("e", "E4 F4 G4 A4 B4 C5 D5 E5"))), swing=SWING))
    sounds = perform(given).sounds
    assert all(one.start + one.ticks == two.start for one, two in pairwise(sounds))


def test_a_pickup_of_one_eighth_is_the_second_of_its_pair() -> None:
    pickup = bar(voice(note("e", "1:0")), partial=True)
    given = score(section(pickup, bar(voice(pitches("e", "E4 F4"), note("h.", "1:0"))), swing=SWING))
    starts = [Fraction(sound.start, DIVISIONS) for sound in perform(given).sounds]
    assert starts[0] == Fraction(1, 6)  # it begins a sixth late and ends with its bar
    assert starts[1:3] == [Fraction(1, 2), Fraction(1, 2) + Fraction(2, 3)]


def test_a_half_pair_at_the_end_of_a_bar_has_no_partner() -> None:
    given = score(section(bar(voice(pitches("e", "E4 F4 G4")), meter="3/8"), swing=SWING))
    sounds = perform(given).sounds
    assert [Fraction(each.start, DIVISIONS) for each in sounds] == [0, Fraction(2, 3), 1]
    assert Fraction(sounds[-1].start + sounds[-1].ticks, DIVISIONS) == Fraction(3, 2)


def test_threes_do_not_swing() -> None:
    assert onsets(pitches("e", "E4 F4 G4 A4 B4 C5"), meter="6/8") == [Fraction(n, 2) for n in range(6)]
