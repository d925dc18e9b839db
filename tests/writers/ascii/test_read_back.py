"""The tab read back by an independent reader gives the strings, frets, durations and bars of the event model."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.model.events import Event
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.score import SIGNS, Bar, Score
from tabforge.writers.ascii import write
from tabforge.writers.options import WriteOptions
from tests.writers.ascii import reader
from tests.writers.ascii.build import DIVISIONS
from tests.writers.ascii.strategies import scores

QUICK = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
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
        if is_rest(columns, bar):
            continue
        assert [(each.notes, each.upper, each.lower) for each in columns] == expected(bar)


def is_rest(columns: list[reader.Column], bar: Bar) -> bool:
    """Whether a bar was read as one of several bars of rest: then nothing may sound in it."""
    if not columns:
        assert all(not event.notes and not event.marks for events in bar.voices for event in events)
    return not columns


SIDES = ("upper", "lower")
EXTENTS = {"palm mute": {None: "PM"}, "let ring": {None: "LR"}, "half barre": {4: "hBIV"}, "barre": {1: "BI", 9: "BIX", 18: "BXVIII"}}
SWELLS = {"crescendo": "<", "diminuendo": ">"}


def check_lengths(score: Score) -> None:
    """On one long line: the letters, dots and brackets of each voice add up to the bar; dynamics, hairpins and extents stand over their
    events."""
    text = write(score, WriteOptions(width=4000, legend=False))[0].decode()
    found = iter(reader.bars(text))
    for section in score.sections:
        swelling = ["", ""]
        for bar in section.bars:
            columns = next(found)
            if is_rest(columns, bar):
                continue
            for number, side in enumerate(SIDES[: len(bar.voices)]):
                events = bar.voices[number]
                mine = [each for each in columns if side in each.lengths]
                assert [each.lengths[side] for each in mine] == [Fraction(event.ticks, DIVISIONS) for event in events]
                for column, event in zip(mine, events, strict=True):
                    assert column.loudness.get(side, ("", "")) == (event.attached.dynamic or "", swell(event, swelling, number))
                    names = {mark.technique.name: mark.amount for mark in event.marks}
                    seen, signs = column.extents.get(side, set()), {EXTENTS[name][names[name]] for name in names.keys() & EXTENTS.keys()}
                    # At the start of a line an extent that ends at once may have no room for its name.
                    assert seen == signs or (bar.new_line and column is mine[0] and seen - {""} < signs)


def swell(event: Event, swelling: list[str], number: int) -> str:
    """The hairpin that covers an event; ``swelling`` has what is open in each voice, before it and then after it."""
    covers = swelling[number]
    for hairpin in event.attached.hairpins:
        covers = SWELLS[hairpin.kind] if hairpin.begins else covers if hairpin.through else ""
        swelling[number] = covers if hairpin.begins or not hairpin.through else ""
    return covers


WAY = re.compile(r"\[(?:A|Bridge)\]|\(segno\)|\(coda\)|To Coda|D\.[CS]\.(?: al (?:Fine|Coda))?|Fine|rit\.|rall\.|accel\.|a tempo")


def check_way(score: Score) -> None:
    """On long lines: every rehearsal mark, sign and change of tempo stands over its line; lines begin where they are told to only."""
    found = iter(reader.systems(write(score, WriteOptions(width=4000, legend=False))[0].decode()))
    for section in score.sections:
        lines: list[list[Bar]] = []
        for bar in section.bars:
            if not lines or bar.new_line:
                lines.append([])
            lines[-1].append(bar)
        for bars in lines:
            seen = sorted(sign for row in next(found).above for sign in WAY.findall(row))
            marks = [f"[{bar.rehearsal}]" for bar in bars if bar.rehearsal]
            signs = [f"({sign})" if sign in ("segno", "coda") else SIGNS[sign] for bar in bars for sign in bar.signs]
            assert seen == sorted(marks + signs + [TEMPO_CHANGES[bar.tempo_change] for bar in bars if bar.tempo_change])
    assert next(found, None) is None


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
def test_the_rows_tell_every_duration_dynamic_and_extent(score: Score) -> None:
    check_lengths(score)


@QUICK
@given(scores())
def test_the_way_through_the_piece_is_told(score: Score) -> None:
    check_way(score)


@pytest.mark.long
@LONG
@given(scores(), st.integers(40, 120))
def test_read_back_at_length(score: Score, width: int) -> None:
    check(score, width)
    check_lengths(score)
    check_way(score)
