"""Clicks, counts-in, meters, second parts, words."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tabforge.model.events import Attached, Word
from tabforge.model.meter import Tempo
from tabforge.model.score import Backing, BarLine, Score
from tabforge.model.values import BY_LETTER
from tabforge.performance import PlayOptions, perform
from tests.proof.scores import A_MINOR, DIVISIONS, E_MAJOR, bar, note, rest, score, section, voice


def clicks(given: Score, options: PlayOptions | None = None) -> list[tuple[Fraction, bool, bool]]:
    played = perform(given, options or PlayOptions())
    return [(Fraction(each.tick, DIVISIONS), each.accent, each.counting) for each in played.clicks]


def test_beats_are_clicked_and_the_first_is_accented() -> None:
    given = score(section(bar(voice(note("h.", "1:3")), meter="3/4"), click=True))
    assert clicks(given) == [(0, True, False), (1, False, False), (2, False, False)]
    six = score(section(bar(voice(note("h.", "1:3")), meter="6/8"), click=True))
    assert clicks(six) == [(0, True, False), (Fraction(3, 2), False, False)]
    assert clicks(score(section(bar(voice(note("w", "1:3")))))) == []
    assert len(clicks(score(section(bar(voice(note("w", "1:3"))))), PlayOptions(click=True))) == 4
    assert clicks(given, PlayOptions(click=False)) == []


def test_a_section_is_counted_in() -> None:
    given = score(section(bar(voice(note("w", "1:3")), tempo=Tempo(bpm=60, beat=BY_LETTER["q"])), count_in=2))
    played = perform(given)
    assert [each.tick // DIVISIONS for each in played.clicks] == list(range(8))
    assert [each.accent for each in played.clicks] == [True, False, False, False] * 2
    assert all(each.counting for each in played.clicks)
    assert played.sounds[0].start == played.passages[0].start == 8 * DIVISIONS
    assert played.ticks == 12 * DIVISIONS
    assert perform(given, PlayOptions(count_in=0)).sounds[0].start == 0


def test_a_pickup_is_the_end_of_the_count() -> None:
    """Common practice, no source: one bar is counted, and the player comes in on its last beat."""
    pickup = bar(voice(note("q", "1:3")), partial=True)
    given = score(section(pickup, bar(voice(note("w", "1:5"))), count_in=1, click=True))
    played = perform(given)
    assert [sound.start // DIVISIONS for sound in played.sounds] == [3, 4]
    assert clicks(given)[:5] == [(0, True, True), (1, False, True), (2, False, True), (3, False, False), (4, True, False)]
    assert [(each.tick, each.beats) for each in played.meters] == [(0, 4)]


def test_a_bar_that_a_repeat_cuts_in_two_is_no_pickup() -> None:
    halves = [
        bar(voice(note("h", "1:3")), partial=True, right=BarLine(repeat="backward")), bar(voice(note("h", "1:3")), partial=True)
    ]  # fmt: skip
    given = score(section(*halves, click=True))
    assert clicks(given) == [
        (0, True, False), (1, False, False), (2, True, False), (3, False, False), (4, False, False), (5, False, False)
    ]  # fmt: skip


def test_a_bar_that_is_not_whole_has_a_meter_of_its_own() -> None:
    given = score(section(bar(voice(note("e", "1:3")), partial=True), bar(voice(note("w", "1:5")))))
    assert [(each.tick, each.beats, each.unit) for each in perform(given).meters] == [(0, 1, 8), (DIVISIONS // 2, 4, 4)]


def test_a_key_that_changes_is_told_and_changes_back_when_its_bars_are_played_again() -> None:
    line = [bar(voice(note("w", "1:3"))), bar(voice(note("w", "1:4")), scale=A_MINOR, right=BarLine(repeat="backward"))]
    points = perform(score(section(*line, scale=E_MAJOR))).meters
    assert [(each.tick // DIVISIONS, each.fifths, each.minor) for each in points] == [
        (0, 4, False), (4, 0, True), (8, 4, False), (12, 0, True)
    ]  # fmt: skip


def with_backing(*, shown: bool = True) -> Score:
    drone = Backing(kind="drone", bars=(voice(note("w", "6:0")), voice(note("w", "6:0"))), shown=shown)
    vamp = Backing(kind="vamp", bars=(voice(note("h", "4:2 3:2"), note("h", "4:4 3:4")), voice(rest("w"))))
    line = [bar(voice(note("w", "1:3"))), bar(voice(note("w", "1:5")), right=BarLine(repeat="backward"))]
    return score(section(*line, backing=(drone, vamp)))


@pytest.mark.parametrize("shown", [True, False])
def test_second_parts_are_played_through_every_repeat_shown_or_not(shown: bool) -> None:
    sounds = perform(with_backing(shown=shown)).sounds
    assert [sound.start // DIVISIONS for sound in sounds if sound.part == "drone"] == [0, 4, 8, 12]
    assert [sound.start // DIVISIONS for sound in sounds if sound.part == "vamp"] == [0, 0, 2, 2, 8, 8, 10, 10]
    assert max(sound.velocity for sound in sounds if sound.part != "line") < min(s.velocity for s in sounds if s.part == "line")
    assert {sound.part for sound in perform(with_backing(), PlayOptions(backing=False)).sounds} == {"line"}


def test_words_chords_and_marks_are_told_where_they_are_played() -> None:
    item = note("h", "1:3", attached=Attached(word=Word(text="lan", hyphen=True)))
    given = score(section(bar(voice(note("h", "1:1"), item), rehearsal="B", right=BarLine(repeat="backward")), title="Ropes"))
    told = [(Fraction(each.tick, DIVISIONS), each.kind, each.text) for each in perform(given).texts]
    assert told == [
        (0, "marker", "Ropes"), (0, "marker", "B"), (2, "lyric", "lan-"), (4, "marker", "B"), (6, "lyric", "lan-")
    ]  # fmt: skip


def test_nothing_is_played_of_nothing() -> None:
    empty = perform(score())
    assert (empty.ticks, empty.sounds, empty.clicks, empty.passages) == (0, (), (), ())
