"""TAB on engraved pages: every number on the line of its string, in the order of time, above the staff's own notes.

The top line of TAB is string 1 (MusicXML 4.0, ``string``: 1 is the highest; ``staff-tuning``: line 1 is the bottom one).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest
from lxml import etree

from tabforge.model.events import Event, Note
from tabforge.pages import Sheet
from tests.pages.drawn import STUDIES, SVG, Numeral, numerals, sheets, study

EVERY = pytest.mark.parametrize("path", STUDIES, ids=lambda path: path.stem)


def drawn(sheet: Sheet) -> list[list[Numeral]]:
    return [numerals(system.svg) for system in sheet.systems]


@EVERY
def test_every_number_is_on_its_string(path: Path) -> None:
    found = [each for sheet in sheets(path) for system in drawn(sheet) for each in system]
    assert found
    assert [each for each in found if each.line != each.string] == []


def shown(event: Event, note: Note) -> str:
    dead = any(mark.technique.name == "dead note" for mark in note.marks)
    return "x" if dead else str(note.fret)


@EVERY
def test_every_note_that_is_struck_has_its_number(path: Path) -> None:
    """Notes that only go on by a tie may have none: the staff shows them."""
    _, score = study(path)
    for sheet in sheets(path):
        found = Counter(
            (each.bar, each.voice, each.tick, each.string, each.text) for system in drawn(sheet) for each in system
        )
        start = 0
        struck: Counter[tuple[int, int, int, int, str]] = Counter()
        tied: Counter[tuple[int, int, int, int, str]] = Counter()
        for index, bar in enumerate(score.sections[sheet.section].bars):
            for voice, events in enumerate(bar.voices):
                for event in events:
                    for note in event.notes:
                        key = (index, voice, start + event.onset, note.string, shown(event, note))
                        (tied if note.tied_in else struck)[key] += 1
            start += bar.ticks
        assert struck - found == Counter()
        assert found - struck - tied == Counter()


@EVERY
def test_numbers_go_on_as_time_does(path: Path) -> None:
    """In a voice of a system, what comes later stands further right. (A grace note has the time of the note it leads to.)"""
    for sheet in sheets(path):
        for system in drawn(sheet):
            for voice in (0, 1):
                places: dict[int, float] = {}
                for each in system:
                    if each.voice == voice:
                        places[each.tick] = max(each.x, places.get(each.tick, each.x))
                in_time = [places[tick] for tick in sorted(places)]
                assert all(before < after for before, after in pairwise(in_time))


@EVERY
def test_numbers_stand_under_their_notes(path: Path) -> None:
    """The staff's heads and TAB's numbers of one time share a place across the page."""
    for sheet in sheets(path):
        for system in sheet.systems:
            heads: dict[tuple[int, ...], list[float]] = {}
            root = etree.fromstring(system.svg)
            for group in root.iter(f"{SVG}g"):
                use = group.find(f"{SVG}use")
                if group.get("class") == "note" and use is not None:
                    x = float(use.get("transform").partition("(")[2].split()[0])
                    heads.setdefault(tuple(int(group.get(f"data-{name}")) for name in ("bar", "voice", "tick")), []).append(x)
            space = 180.0
            for each in numerals(system.svg):
                assert min(abs(each.x - x) for x in heads[each.bar, each.voice, each.tick]) < 2 * space


@EVERY
def test_notes_tell_their_place_in_the_text(path: Path) -> None:
    text, score = study(path)
    spans = {f"{event.span.start}-{event.span.end}" for each in score.sections for bar in each.bars for v in bar.voices for event in v}
    for sheet in sheets(path):
        for system in drawn(sheet):
            for each in system:
                assert each.at in spans
                start, end = map(int, each.at.split("-"))
                assert 0 <= start <= end <= len(text)


def test_a_grace_note_stands_before_its_note_and_is_smaller() -> None:
    path = next(each for each in STUDIES if each.stem == "grace-before")
    for sheet in sheets(path):
        for system in sheet.systems:
            sizes = [(group.get("data-tick"), float(text.get("x")), int(text.get("font-size"))) for group, text in _texts(system.svg)]
            small = [each for each in sizes if each[2] < max(size for _, _, size in sizes)]
            assert small
            for tick, x, size in small:
                assert any(other_tick == tick and other > x and larger > size for other_tick, other, larger in sizes)


def _texts(svg: str) -> Iterator[tuple[Any, Any]]:
    for group in etree.fromstring(svg).iter(f"{SVG}g"):
        text = group.find(f"{SVG}text")
        if group.get("data-string") and text is not None:
            yield group, text
