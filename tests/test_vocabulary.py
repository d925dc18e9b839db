"""Studies over the full vocabulary, from their text to every export and back.

Sources: the W3C MusicXML 4.0 schema (``tests.proof.xsd``); music21 as an independent reader (``tests.proof.readback``); verovio as an
independent engraver (``tests.proof.engraver``); a reader of ASCII tab written from its documented form (``tests.writers.ascii.reader``).
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tabforge.model.events import Event
from tabforge.model.score import Score
from tabforge.model.techniques import TECHNIQUES
from tabforge.pipeline import study_from, tidied
from tabforge.readers import READERS
from tabforge.source import Source
from tabforge.syntax.grammar import ROWS, SETTINGS
from tabforge.writers.ascii import write as write_tab
from tabforge.writers.musicxml import write as write_musicxml
from tabforge.writers.options import STAVES, Staves, WriteOptions
from tests.proof.engraver import complaints
from tests.proof.readback import compare
from tests.proof.xsd import problems
from tests.vocabulary import METERS, TUPLETS, VALUES, Given, Maker, Struck, studies
from tests.writers.ascii import reader
from tests.writers.ascii.test_read_back import expected, is_rest

QUIET = {"deadline": None, "suppress_health_check": list(HealthCheck)}
layouts = st.sampled_from(STAVES)
LETTERS = {"w": 32, "h": 16, "q": 8, "e": 4, "s": 2, "t": 1}


def compiled(study: Given) -> Score:
    outcome = study_from("proof.riff", study.text.encode())
    assert [f"{each.headline} at {outcome.source.position(each.span.start)}" for each in outcome.diagnostics if each.is_error] == []
    assert outcome.score is not None
    return outcome.score


def adds_up(score: Score) -> None:
    """Every voice fills its bar without a gap, and every event lasts as long as it is written."""
    for section in score.sections:
        for bar in section.bars:
            if not bar.partial:
                assert Fraction(bar.ticks, score.divisions) == bar.meter.quarters
            for voice in bar.voices:
                at = 0
                for event in voice:
                    assert event.onset == at
                    if not _whole_rest(voice):
                        assert event.ticks == (0 if event.grace else event.written.quarters * score.divisions)
                    at += event.ticks
                assert at == bar.ticks


def _whole_rest(voice: tuple[Event, ...]) -> bool:
    """A whole rest is that of any bar, however long it is."""
    return len(voice) == 1 and not voice[0].notes and voice[0].written.value.letter == "w"


def struck(score: Score, told: tuple[Struck, ...]) -> list[Struck]:
    """What is struck in a score; the places left out where they are in ``told``."""
    unplaced = {(each.section, each.voice, each.onset) for each in told if each.places is None}
    found = []
    for number, section in enumerate(score.sections):
        start = 0
        for bar in section.bars:
            for voice, events in enumerate(bar.voices):
                for event in events:
                    notes = [note for note in event.notes if not note.tied_in]
                    if not notes:
                        continue
                    onset = Fraction(start + event.onset, score.divisions)
                    # A dead note has a string; at which fret the hand lies over it is nobody's business.
                    dead = any(mark.technique.name == "dead note" for note in notes for mark in note.marks)
                    places = tuple(sorted((note.string, None if dead else note.fret) for note in notes))
                    found.append(Struck(number, voice, onset, None if (number, voice, onset) in unplaced else places))
            start += bar.ticks
    return found


def text_of(study: Given) -> None:
    """Laid out, the text has the same document; laid out again, the same text."""
    once, _ = tidied("proof.riff", study.text.encode())
    assert once is not None
    assert tidied("proof.riff", once.encode())[0] == once
    before, after = (READERS["riff"](Source("proof.riff", text)).document for text in (study.text, once))
    assert before == after


def musicxml_of(score: Score, staves: Staves) -> None:
    options = WriteOptions(staves=staves)
    document, _ = write_musicxml(score, options)
    assert problems(document) == []
    assert compare(score, document, staves) == []
    assert write_musicxml(score, options)[0] == document


def tab_of(score: Score, width: int) -> None:
    """Its columns are the model's, and on a line that holds each bar whole its letters and brackets tell every duration."""
    options = WriteOptions(width=width, legend=False)
    text = write_tab(score, options)[0]
    assert write_tab(score, options)[0] == text
    bars = [bar for section in score.sections for bar in section.bars]
    columns = reader.bars(text.decode())
    assert len(columns) == len(bars)
    for found, bar in zip(columns, bars, strict=True):
        assert is_rest(found, bar) or [(each.notes, each.upper, each.lower) for each in found] == expected(bar)
    wide = reader.bars(write_tab(score, WriteOptions(width=4000, legend=False))[0].decode())
    for found, bar in zip(wide, bars, strict=True):
        for number, side in enumerate(("upper", "lower")[: len(bar.voices)]):
            if _whole_rest(bar.voices[number]) or is_rest(found, bar):
                continue
            lengths = [each.lengths[side] for each in found if side in each.lengths]
            assert lengths == [Fraction(event.ticks, score.divisions) for event in bar.voices[number]]


def _whole(study: Given, staves: Staves, width: int) -> None:
    score = compiled(study)
    adds_up(score)
    assert Counter(struck(score, study.struck)) == Counter(study.struck)
    text_of(study)
    musicxml_of(score, staves)
    tab_of(score, width)


@given(studies(), layouts, st.integers(60, 120))
@settings(max_examples=60, **QUIET)
def test_any_study_arrives_in_every_export(study: Given, staves: Staves, width: int) -> None:
    _whole(study, staves, width)


@given(studies(), layouts)
@settings(max_examples=15, **QUIET)
def test_any_study_loads_in_an_engraver(study: Given, staves: Staves) -> None:
    assert complaints(write_musicxml(compiled(study), WriteOptions(staves=staves))[0]) == []


@pytest.mark.long
@given(studies(), layouts, st.integers(60, 120))
@settings(max_examples=2000, **QUIET)
def test_any_study_at_length(study: Given, staves: Staves, width: int) -> None:
    _whole(study, staves, width)


def test_the_tables_of_lengths_add_up() -> None:
    for text, (length, parts) in TUPLETS.items():
        assert sum(map(Fraction, parts.split())) == length, text
    for text, length in VALUES.items():
        dotted = [(LETTERS[part[0]], part.count(".")) for part in text.split("+")]
        assert sum(value * (2 - Fraction(1, 2**dots)) for value, dots in dotted) == length, text
    for text, length in METERS.items():
        top, unit = text.split("/")
        assert sum(map(int, top.split("+"))) * 32 == length * int(unit), text


def test_the_studies_use_the_whole_vocabulary() -> None:
    """Else the properties above would hold of less than they say. Keys alone are left out: they would move what is pinned off the neck."""
    rows = {*ROWS, *(word for word, setting in SETTINGS.items() if setting.where & {"riff", "chords", "header"})} - {"keys"}
    marks = {technique.name for technique in TECHNIQUES}
    for seed in range(400):
        text = Maker(Random(seed)).study().text
        rows -= {line.split()[0] for line in text.splitlines() if line}
        score = study_from("proof.riff", text.encode()).score
        assert score is not None, text
        events = [event for section in score.sections for bar in section.bars for voice in bar.voices for event in voice]
        marks -= {mark.technique.name for event in events for mark in event.marks}
        marks -= {mark.technique.name for event in events for note in event.notes for mark in note.marks}
        if not rows and not marks:
            return
    pytest.fail(f"never used: {sorted(rows | marks)}")
