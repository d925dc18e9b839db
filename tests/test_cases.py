"""One small study for each technique, notation element and kind of instrument, each proved on its own.

A case is one file, ``tests/cases/<folder>/<what it shows>.riff``, which begins with a comment that says what it shows; its ASCII tab is
stored beside it and read by a musician: ``pytest tests/test_cases.py --regen`` writes it anew.

Sources: the W3C MusicXML 4.0 schema (``tests.proof.xsd``); music21 as an independent reader (``tests.proof.readback``); verovio as an
independent engraver (``tests.proof.engraver``).
"""

from __future__ import annotations

import re
from functools import cache
from itertools import chain
from pathlib import Path
from typing import Final

import pytest

from tabforge.limits import MAX_STRINGS, MIN_STRINGS
from tabforge.model.events import DYNAMICS, Event
from tabforge.model.meter import TEMPO_CHANGES
from tabforge.model.score import SIGNS, Score
from tabforge.model.techniques import TECHNIQUES
from tabforge.model.values import VALUES
from tabforge.pipeline import study_from, tidied
from tabforge.readers import READERS
from tabforge.source import Source
from tabforge.syntax.document import Study
from tabforge.syntax.grammar import ROWS, SETTINGS, VOICINGS
from tabforge.theory.chord_table import QUALITIES
from tabforge.writers.ascii import write as write_tab
from tabforge.writers.musicxml import write as write_musicxml
from tabforge.writers.options import DEFAULTS, STAVES, Staves, WriteOptions
from tests.notation_shows import SHOWS
from tests.proof.engraver import complaints, misplaced
from tests.proof.readback import compare
from tests.proof.xsd import problems

ROOT: Final = Path(__file__).parent / "cases"
FOLDERS: Final = ("techniques", "notation", "instruments", "chords")
CASES: Final = tuple(sorted(chain.from_iterable((ROOT / folder).glob("*.riff") for folder in FOLDERS)))
STORED: Final = ".tab.txt"

EVERY = pytest.mark.parametrize("path", CASES, ids=[f"{path.parent.name}/{path.stem}" for path in CASES])


@cache
def compiled(path: Path) -> Score:
    outcome = study_from(path.name, path.read_bytes())
    assert outcome.diagnostics == ()
    assert outcome.score is not None
    return outcome.score


def document(text: str) -> Study:
    """A text's document, without errors."""
    reading = READERS["riff"](Source("case.riff", text))
    assert reading.diagnostics == ()
    assert reading.document is not None
    return reading.document


def events(score: Score) -> list[Event]:
    return [event for section in score.sections for bar in section.bars for voice in bar.voices for event in voice]


@EVERY
def test_it_says_what_it_shows_and_compiles_without_a_word(path: Path) -> None:
    first = path.read_text(encoding="utf-8").split("\n", 1)[0]
    assert re.fullmatch(r"// [A-Z0-9].{8,}\.", first)
    assert compiled(path).sections


@EVERY
def test_laying_it_out_loses_nothing_and_changes_nothing_twice(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    once, _ = tidied(path.name, text.encode())
    assert once is not None
    assert document(once) == document(text)
    assert tidied(path.name, once.encode())[0] == once
    assert once == text, "a case is stored in the canonical layout"


@pytest.mark.parametrize("staves", STAVES)
@EVERY
def test_its_musicxml_is_valid_read_back_and_engraved(path: Path, staves: Staves) -> None:
    score = compiled(path)
    found, _ = write_musicxml(score, WriteOptions(staves=staves))
    assert problems(found) == []
    assert compare(score, found, staves) == []
    assert complaints(found) == []
    if staves != "notation":
        assert misplaced(score, found) == []


@EVERY
def test_its_ascii_tab_is_the_stored_one(path: Path, regen: bool) -> None:
    made = write_tab(compiled(path), DEFAULTS)[0].decode()
    stored = path.with_name(path.stem + STORED)
    if regen:
        stored.write_text(made, encoding="utf-8")
    assert stored.exists(), "no stored tab: run pytest --regen and read what it writes"
    assert stored.read_text(encoding="utf-8") == made


def test_no_file_is_orphaned_or_empty() -> None:
    there = {path for folder in FOLDERS for path in (ROOT / folder).iterdir()}
    assert there == {*CASES, *(path.with_name(path.stem + STORED) for path in CASES)}
    assert all(path.read_text(encoding="utf-8").strip() for path in there)
    assert all(any(path.parent.name == folder for path in CASES) for folder in FOLDERS)


def test_every_technique_has_its_case() -> None:
    cases = {path.stem: compiled(path) for path in CASES if path.parent.name == "techniques"}
    assert set(cases) == {technique.name.replace(" ", "-") for technique in TECHNIQUES}
    for technique in TECHNIQUES:
        score = cases[technique.name.replace(" ", "-")]
        marks = [mark for event in events(score) for mark in chain(event.marks, *(note.marks for note in event.notes))]
        assert any(mark.technique is technique for mark in marks), technique.name


NOTATION_CASES: Final = {path.stem: path for path in CASES if path.parent.name == "notation"}


def test_every_notation_case_says_what_must_be_seen() -> None:
    assert set(SHOWS) == set(NOTATION_CASES)


@pytest.mark.parametrize("name", NOTATION_CASES)
def test_what_a_notation_case_is_about_is_seen(name: str) -> None:
    musicxml, tab = SHOWS[name]
    score = compiled(NOTATION_CASES[name])
    document = write_musicxml(score, DEFAULTS)[0].decode()
    assert [piece for piece in musicxml if piece not in document] == []
    page = write_tab(score, DEFAULTS)[0].decode()
    assert [piece for piece in tab if piece not in page] == []


def _words(folder: str) -> list[list[str]]:
    """The lines of a folder's cases, each as its words, comments left out."""
    texts = (path.read_text(encoding="utf-8") for path in CASES if path.parent.name == folder)
    return [line.split("//")[0].split() for text in texts for line in text.splitlines() if line.split("//")[0].strip()]


NOTATION: Final = _words("notation")
CHORDS: Final = _words("chords")


@pytest.mark.parametrize("word", [*ROWS, *SETTINGS])
def test_every_row_and_setting_has_its_case(word: str) -> None:
    assert any(line[0] == word for line in chain(NOTATION, _words("instruments"), CHORDS))


@pytest.mark.parametrize(
    ("word", "cells"),
    [
        ("signs", [*SIGNS, "newline"]),
        ("dynamics", [*DYNAMICS, "<", ">", "-"]),
        ("tempo", [*TEMPO_CHANGES]),
        ("picks", [*"dupima"]),
        ("fingers", [*"01234T"]),
        ("strum", ["d", "u", "gd", "gu", "xd", "xu", "r", "."]),
        ("picking", [*"pima", "r", "."]),
        ("voicing", [word for voicing in VOICINGS for word in voicing.split()]),
    ],
)
def test_every_cell_of_a_closed_row_has_its_case(word: str, cells: list[str]) -> None:
    used = {part for line in (*NOTATION, *CHORDS) if line[0] == word for cell in line[1:] for part in (cell, *cell.split("+"))}
    assert set(cells) <= used


def test_every_value_with_every_dot_has_its_case() -> None:
    written = {(event.written.value, event.written.dots) for path in CASES for event in events(compiled(path))}
    assert {value for value, _ in written} == set(VALUES)
    assert {dots for _, dots in written} == {0, 1, 2}


def test_every_quality_of_chord_has_its_case() -> None:
    symbols = [event.attached.chord for path in CASES for event in events(compiled(path)) if event.attached.chord]
    used = {symbol.suffix for symbol in symbols}
    assert [quality.forms[0] for quality in QUALITIES if not used & set(quality.forms)] == []
    assert any(symbol.root is None for symbol in symbols)
    assert any(symbol.bass for symbol in symbols)
    assert any(symbol.shape for symbol in symbols)


def test_every_number_of_strings_has_its_case() -> None:
    numbers = {len(section.tuning) for path in CASES if path.parent.name == "instruments" for section in compiled(path).sections}
    assert numbers == set(range(MIN_STRINGS, MAX_STRINGS + 1))


def test_re_entrant_tunings_and_clefs_have_their_cases() -> None:
    instruments = [compiled(path) for path in CASES if path.parent.name == "instruments"]
    assert {score.instrument.clef for score in instruments} == {"G", "F"}
    orders = [[pitch.midi for pitch in section.tuning.strings] for score in instruments for section in score.sections]
    assert any(order != sorted(order, reverse=True) for order in orders)
