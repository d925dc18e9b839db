"""The tab read back by an independent reader gives the strings, frets, durations and bars of the event model."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.model.events import Event
from tabforge.model.score import Bar, Score
from tabforge.writers.ascii import write
from tabforge.writers.options import WriteOptions
from tests.writers.ascii import reader
from tests.writers.ascii.build import DIVISIONS
from tests.writers.ascii.strategies import scores

QUICK = settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
LONG = settings(max_examples=2000, deadline=None, suppress_health_check=list(HealthCheck))


def core(note: object) -> str:
    if note.tied_in:  # type: ignore[attr-defined]
        return "="
    dead = any(mark.technique.name == "dead note" for mark in note.marks)  # type: ignore[attr-defined]
    return "x" if dead else str(note.fret)  # type: ignore[attr-defined]


def label(event: Event) -> str:
    if event.grace:
        letter = "" if event.written.value.letter == "e" else event.written.value.letter
        return "g" + letter + ("!" if event.grace == "on" else "")
    text = event.written.value.letter + "." * event.written.dots
    if not event.notes:
        return "r" + text
    return "+" + text if all(note.tied_in for note in event.notes) else text


def expected(bar: Bar) -> list[tuple[dict[int, str], str, str]]:
    """Columns in order of time; grace notes are counted back from the moment they lead to."""
    columns: dict[tuple[int, int], tuple[dict[int, str], list[str]]] = {}
    for number, events in enumerate(bar.voices):
        for place, event in enumerate(events):
            rank = 0
            if event.grace:
                rank = -next(k for k in range(1, len(events) - place + 1) if place + k == len(events) or not events[place + k].grace)
            notes, labels = columns.setdefault((event.onset, rank), ({}, ["", ""]))
            notes.update({note.string: core(note) for note in event.notes})
            labels[number] = label(event)
    return [(notes, labels[0], labels[1]) for _, (notes, labels) in sorted(columns.items())]


def check(score: Score, width: int) -> None:
    text = write(score, WriteOptions(width=width, legend=False))[0].decode()
    found = reader.bars(text)
    bars = [bar for section in score.sections for bar in section.bars]
    assert len(found) == len(bars)
    for columns, bar in zip(found, bars, strict=True):
        assert [(each.notes, each.upper, each.lower) for each in columns] == expected(bar)


def check_lengths(score: Score) -> None:
    """The letters, dots and brackets of each line add up to the bar, wherever no tuplet is broken between two lines."""
    text = write(score, WriteOptions(width=4000, legend=False))[0].decode()
    for columns, bar in zip(reader.bars(text), (bar for section in score.sections for bar in section.bars), strict=True):
        for number, side in enumerate(("upper", "lower")[: len(bar.voices)]):
            lengths = [each.lengths[side] for each in columns if side in each.lengths]
            assert lengths == [Fraction(event.ticks, DIVISIONS) for event in bar.voices[number]]


@QUICK
@given(scores(rich=False), st.integers(40, 120))
def test_plain_scores_read_back(score: Score, width: int) -> None:
    check(score, width)


@QUICK
@given(scores(), st.integers(40, 120))
def test_scores_with_every_technique_read_back(score: Score, width: int) -> None:
    check(score, width)


@QUICK
@given(scores())
def test_the_rhythm_line_tells_every_duration(score: Score) -> None:
    check_lengths(score)


@pytest.mark.long
@LONG
@given(scores(), st.integers(40, 120))
def test_read_back_at_length(score: Score, width: int) -> None:
    check(score, width)
    check_lengths(score)
