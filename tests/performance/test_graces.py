"""Grace notes: whose time they take (common practice, no source), and how much."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from tabforge.performance import perform, practice
from tabforge.writers.musicxml import graces
from tests.performance.playing import played, quarters
from tests.proof.scores import DIVISIONS, bar, note, rest, score, section, voice


def test_grace_notes_take_their_time_from_before_or_from_the_beat() -> None:
    one, grace, two = played(note("h", "1:3"), note("e", "1:5", grace="before"), note("h", "1:7"))
    assert quarters(two.start) == 2
    assert one.start + one.ticks == grace.start < two.start == grace.start + grace.ticks
    one, grace, two = played(note("h", "1:3"), note("e", "1:5", grace="on"), note("h", "1:7"))
    assert quarters(grace.start) == 2
    assert one.start + one.ticks == grace.start < two.start == grace.start + grace.ticks
    assert quarters(two.start + two.ticks) == 4
    # Nothing sounds before the first beat that could give it time.
    grace, two = played(note("e", "1:5", grace="before"), note("w", "1:7"))
    assert grace.start == 0 < two.start


def test_a_grace_note_takes_no_more_than_the_rest_before_it_has() -> None:
    items = [note("h.", "1:3"), note("e", "5:3"), rest("s"), note("s", "5:5", grace="before"), note("s", "1:7")]
    _, before, grace, last = played(*items)
    assert before.start + before.ticks < grace.start < last.start
    assert quarters(last.start - grace.start) == Fraction(1, 16)


def test_a_grace_note_to_which_a_jump_leads_takes_its_time_from_what_was_played_before() -> None:
    line = bar(voice(note("e", "5:2", grace="before"), note("h.", "1:3"), note("e", "3:0"), note("e", "5:3")), signs=("dc",))
    sounds = perform(score(section(line))).sounds
    low = [sound for sound in sounds if sound.string == 5]
    assert [sound.midi for sound in low] == [47, 48, 47, 48]
    assert all(one.start + one.ticks <= two.start for one, two in pairwise(low))


def test_grace_notes_take_the_share_that_the_notation_says() -> None:
    assert practice.GRACE_SHARE == graces._STOLEN / 100


def test_a_tie_goes_over_grace_notes() -> None:
    held, grace = played(note("h", "6:3", tie="out"), note("e", "1:5", grace="before"), note("h", "6:3", tie="in"))
    assert quarters(held.ticks) == 4
    assert grace.start + grace.ticks == 2 * DIVISIONS
