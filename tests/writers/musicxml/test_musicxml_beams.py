"""Beams.

Sources: music21's ``makeBeams`` for what every convention shares (which notes stand under one beam in meters over 8, and in meters over 4
where no beat holds two plain eighths; how many lines a note has). The rest is common practice, no source: joined eighths, hooks, tuplets.
"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tabforge.model.events import Event
from tests.proof.scores import DIVISIONS, Item, bar, meter_of, note, one_bar, rest, score, section, tuplet, value, voice
from tests.writers.musicxml.xml import beams, notes, tree

B, C, E, F, K = "begin", "continue", "end", "forward hook", "backward hook"


def written(items: list[Item], meter: str) -> list[tuple[str, ...]]:
    return [beams(each) for each in notes(tree(one_bar(*items, meter=meter)))]


def rhythm(text: str) -> list[Item]:
    """Notes from values; ``r`` before a value is a rest."""
    return [rest(word[1:]) if word.startswith("r") else note(word, "3:5") for word in text.split()]


def reference(events: tuple[Event, ...], meter: str) -> list[list[Any]]:
    """music21's beams of the same rhythm."""
    from music21 import meter as meters
    from music21 import note as notes21
    from music21 import stream

    measure = stream.Measure()
    measure.timeSignature = meters.TimeSignature(meter)
    for event in events:
        element = notes21.Note("C4") if event.notes else notes21.Rest()
        element.duration.quarterLength = event.ticks / DIVISIONS
        measure.append(element)
    measure.makeBeams(inPlace=True)
    return [[] if each.isRest else list(each.beams.beamsList) for each in measure.notesAndRests]


BEATS = {
    "6/8": (0, 1.5), "9/8": (0, 1.5, 3), "12/8": (0, 1.5, 3, 4.5), "3/8": (0,), "2+2+3/8": (0, 1, 2), "3+2/8": (0, 1.5),
    "4/4": (0, 1, 2, 3), "3/4": (0, 1, 2), "2/4": (0, 1),
}  # fmt: skip
"""Where the beats begin, in quarter notes. Common practice, no source."""


@given(
    st.sampled_from(list(BEATS)),
    st.lists(st.sampled_from(("q.", "q", "e.", "e", "e", "s", "s", "t", "re", "rs", "rq")), min_size=1, max_size=24),
)
@settings(max_examples=150, deadline=None)
def test_notes_share_a_beam_as_the_reference_has_it(meter: str, words: list[str]) -> None:
    whole = meter_of(meter).quarters
    chosen: list[str] = []
    at = 0 * whole
    for word in words:
        end = at + value(word.lstrip("r")).quarters
        # Flagged notes that hide a beat are for the compiler to split; the reference leaves a stray beam on them.
        if end <= whole and ("q" in word or not any(at < beat < end for beat in BEATS[meter])):
            chosen.append(word)
            at = end
    items = rhythm(" ".join([*chosen, *["rt"] * int((whole - at) * 8)]))
    events = voice(*items)
    if meter.endswith("/4"):
        starts = [event.onset // DIVISIONS for event in events if event.notes and event.written == value("e")]
        assume(not any(starts.count(beat) == 2 for beat in starts))
    theirs = reference(events, meter)
    ours = written(items, meter)
    first = {"start": B, "continue": C, "stop": E}
    assert [lines[:1] for lines in ours] == [tuple(first[line.type] for line in lines[:1]) for lines in theirs]
    assert [len(lines) for lines in ours] == [len(lines) for lines in theirs]


@pytest.mark.parametrize(
    ("meter", "text", "groups"),
    [
        ("4/4", "e e e e e e e e", [4, 4]),
        ("4/4", "q e e e e q", [2, 2]),  # never over the middle of the bar
        ("4/4", "e e e s s q q", [2, 3]),  # a beat that is not plain stands alone
        ("4/4", "re e e e e e e e", [2, 4]),  # a rest breaks the beam, and its beat is not plain
        ("3/4", "e e e e e e", [6]),
        ("3/4", "q e e e e", [4]),
        ("2/4", "e e e e", [4]),
        ("2/2", "e e e e e e e e", [4, 4]),
        ("5/4", "e e e e e e e e e e", [2, 2, 2, 2, 2]),
        ("3+2/4", "e e e e e e e e e e", [6, 4]),
        ("6/8", "e e e e e e", [3, 3]),
        ("12/8", "q e q e e e e e e e", [3, 3]),
        ("2+2+3/8", "e e e e e e e", [2, 2, 3]),
        ("7/8", "e e e e e e e", [2, 2, 3]),
        ("5/8", "e e e e e", [2, 3]),
    ],
)
def test_eighths_join_as_the_meter_has_it(meter: str, text: str, groups: list[int]) -> None:
    found = [lines[0] for lines in written(rhythm(text), meter) if lines]
    assert found == [value for size in groups for value in (B, *[C] * (size - 2), E)]


@pytest.mark.parametrize(
    ("meter", "text", "wanted"),
    [
        ("2/4", "e. s s e.", [(B,), (E, K), (B, F), (E,)]),
        ("2/4", "s e s q", [(B, F), (C,), (E, K), ()]),
        ("2/4", "e s s s s e", [(B,), (C, B), (E, E), (B, B), (C, E), (E,)]),
        ("6/8", "e. s e q.", [(B,), (C, K), (E,), ()]),
        ("6/8", "e s e. q.", [(B,), (C, F), (E,), ()]),
        # Eight thirty-seconds: one line goes through, the others break at the eighth.
        ("1/4", "t t t t t t t t", [(B, B, B), (C, C, C), (C, C, C), (C, E, E), (C, B, B), (C, C, C), (C, C, C), (E, E, E)]),
        ("1/4", "e.. t", [(B,), (E, K, K)]),
        ("1/4", "e. t t", [(B,), (C, B, B), (E, E, E)]),
    ],
)
def test_further_lines_and_hooks(meter: str, text: str, wanted: list[tuple[str, ...]]) -> None:
    assert written(rhythm(text), meter) == wanted


def test_beams_in_tuplets() -> None:
    triplet = tuplet("3:2", "e", *rhythm("e e e"))
    assert written([*triplet, *rhythm("q h")], "4/4")[:3] == [(B,), (C,), (E,)]
    # Wider than a beat: five eighths in the time of four are one group.
    assert written([*tuplet("5:4", "e", *rhythm("e e e e e")), *rhythm("h")], "4/4")[:5] == [(B,), (C,), (C,), (C,), (E,)]
    # A quarter-note triplet counts in quarters, and so do its beams.
    assert written([*tuplet("3:2", "q", *rhythm("e e q e e")), *rhythm("h")], "4/4")[:5] == [(B,), (E,), (), (B,), (E,)]
    # Two sextuplet halves in one beat: the second line breaks between them.
    halves = [*tuplet("3:2", "s", *rhythm("s s s")), *tuplet("3:2", "s", *rhythm("s s s"))]
    assert written([*halves, *rhythm("q h")], "4/4")[:6] == [(B, B), (C, C), (C, E), (C, B), (C, C), (E, E)]


def test_a_bracket_only_where_no_beam_shows_the_tuplet() -> None:
    def bracket(*items: Item) -> list[tuple[str, str]]:
        document = tree(one_bar(*items))
        return [(each.get("bracket"), each.get("show-number")) for each in document.iter("tuplet") if each.get("type") == "start"]

    on_tab = ("no", "none")
    assert bracket(*tuplet("3:2", "e", *rhythm("e e e")), *rhythm("q h")) == [("no", "actual"), on_tab]
    assert bracket(*tuplet("3:2", "e", *rhythm("q e")), *rhythm("q h")) == [("yes", "actual"), on_tab]
    assert bracket(*tuplet("3:2", "e", *rhythm("e re e")), *rhythm("q h")) == [("yes", "actual"), on_tab]
    # Three eighths and another pair under one beam: the number alone would not say which three.
    joined = [*tuplet("3:2", "s", *rhythm("s s s")), *rhythm("e q h")]
    assert bracket(*joined) == [("yes", "actual"), on_tab]
    # An unusual ratio shows both numbers.
    assert bracket(*tuplet("5:6", "s", *rhythm("s s s s s")), *rhythm("e h")) == [("no", "both"), on_tab]


def test_grace_notes_have_beams_of_their_own() -> None:
    def grace(length: str, kind: str) -> Item:
        return note(length, "3:5", grace=kind)

    items = [*rhythm("e"), grace("s", "before"), grace("s", "before"), *rhythm("e"), grace("e", "on"), *rhythm("q h")]
    assert written(items, "4/4") == [(B,), (B, B), (E, E), (E,), (), (), ()]


def test_a_pickup_is_beamed_as_the_end_of_its_bar() -> None:
    pickup = bar(voice(*rhythm("e e e")), partial=True)
    document = tree(score(section(pickup, bar(voice(*rhythm("w"))))))
    # Three eighths before the bar: the last two are beat four, the first is the end of beat three.
    assert [beams(each) for each in notes(document)] == [(), (B,), (E,), ()]
