"""The handbook's table of marks: what each format makes of each technique, from the formats' own tables, held against their writers.

``pytest tests/test_table.py --regen`` writes the table anew.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Final

import pytest

from tabforge.model.events import Event
from tabforge.model.score import Score
from tabforge.model.techniques import TECHNIQUES, Mark, Technique
from tabforge.pages import engrave
from tabforge.pages.carried import CARRIED as ON_PAGES
from tabforge.pipeline import study_from
from tabforge.writers import WRITERS
from tabforge.writers.ascii.carried import CARRIED as IN_TAB
from tabforge.writers.carriage import Carriage, Level
from tabforge.writers.loss import Loss
from tabforge.writers.midi.carried import CARRIED as IN_MIDI
from tabforge.writers.musicxml.carried import CARRIED as IN_MUSICXML
from tabforge.writers.options import WriteOptions
from tests.writers.midi.listing import listing

TABLE: Final = Path(__file__).parents[1] / "tabforge" / "handbook" / "techniques.md"
CASES: Final = Path(__file__).parent / "cases" / "techniques"


@dataclass(frozen=True, slots=True, kw_only=True)
class Format:
    """A column of the table: its heading, a key of ``writers.WRITERS`` or "pages", and the format's own table."""

    heading: str
    writer: str
    carried: dict[str, Carriage]


FORMATS: Final = (
    Format(heading="MusicXML", writer="musicxml", carried=IN_MUSICXML),
    Format(heading="ASCII tab", writer="tab", carried=IN_TAB),
    Format(heading="MIDI", writer="midi", carried=IN_MIDI),
    Format(heading="pages", writer="pages", carried=ON_PAGES),
)

WITH_A_SIGN: Final = (Level.FULL, Level.APPROXIMATED)

EVERY = pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda each: each.name)
IN_EACH = pytest.mark.parametrize("form", FORMATS, ids=lambda each: each.writer)

HEAD: Final = """# What each format carries of each mark

*Full*: everything the mark says stands in the file. *Approximated*: less than that, or only in words. *Needless*: it says how something is
to be written that this format does not write, so nothing is lost. *Unsupported*: it is not in the file. What is lost of a mark is told when
the file is written, with its place.

"""


def _in_the_language(technique: Technique) -> str:
    parts = ["for the whole chord" if technique.scope == "event" else "for each note of a chord"]
    parts += ["to the next note on its string"] if technique.leads else []
    parts += ["`-` carries it on"] if technique.extends else []
    return f"full: {', '.join(parts)}"


def _row(cells: tuple[str, ...]) -> str:
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |\n"


def _in_format(carriage: Carriage) -> str:
    return f"{carriage.level.value}: {carriage.how}"


def table() -> str:
    head = ("mark", "technique", "language", *(form.heading for form in FORMATS))
    rows = [
        (f"`{each.form}`", each.name, _in_the_language(each), *(_in_format(form.carried[each.name]) for form in FORMATS))
        for each in TECHNIQUES
    ]
    return HEAD + "".join(_row(cells) for cells in (head, ("---",) * len(head), *rows))


@cache
def study(technique: Technique) -> Score:
    """The case of a technique, compiled."""
    path = CASES / f"{technique.name.replace(' ', '-')}.riff"
    score = study_from(path.name, path.read_bytes()).score
    assert score is not None
    return score


def written(score: Score, form: Format) -> tuple[str, tuple[Loss, ...]]:
    """The music as the format has it, without the legend, which explains signs rather than placing them."""
    if form.writer == "pages":
        sheets, losses = engrave(score)
        return "".join(system.svg for sheet in sheets for system in sheet.systems), losses
    data, losses = WRITERS[form.writer].write(score, WriteOptions(legend=False))
    if form.writer == "midi":
        return listing(data), losses
    text = data.decode()
    # Titles and teaching text may hold any letters; the music of an ASCII tab begins at its first system.
    return text if form.writer == "musicxml" else text[text.index("\n\n", text.index("Scale:")) :], losses


def _each_event(score: Score, change: Callable[[Event], Event]) -> Score:
    sections = []
    for section in score.sections:
        bars = [replace(bar, voices=tuple(tuple(map(change, voice)) for voice in bar.voices)) for bar in section.bars]
        sections.append(replace(section, bars=tuple(bars)))
    return replace(score, sections=tuple(sections))


def without(score: Score, technique: Technique) -> Score:
    """The score as if the technique had never been written in it."""

    def kept(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
        return tuple(mark for mark in marks if mark.technique is not technique)

    def change(event: Event) -> Event:
        return replace(event, marks=kept(event.marks), notes=tuple(replace(note, marks=kept(note.marks)) for note in event.notes))

    return _each_event(score, change)


def test_the_table_is_made_from_the_formats_tables(regen: bool) -> None:
    if regen:
        TABLE.write_text(table(), encoding="utf-8")
    assert TABLE.read_text(encoding="utf-8") == table()


@IN_EACH
def test_every_technique_is_declared_and_no_other(form: Format) -> None:
    assert list(form.carried) == [technique.name for technique in TECHNIQUES]


@IN_EACH
@EVERY
def test_what_is_declared_stands_in_the_file(technique: Technique, form: Format) -> None:
    carriage = form.carried[technique.name]
    text, _ = written(study(technique), form)
    assert [each for each in carriage.shows if each not in text] == []
    assert bool(carriage.shows) is (carriage.level in WITH_A_SIGN)


@IN_EACH
@EVERY
def test_what_stands_in_the_file_comes_from_the_mark(technique: Technique, form: Format) -> None:
    bare, _ = written(without(study(technique), technique), form)
    marked, _ = written(study(technique), form)
    assert (marked != bare) is (form.carried[technique.name].level in WITH_A_SIGN)
    # Of what it shows, something is there because of it alone.
    shows = form.carried[technique.name].shows
    assert any(marked.count(each) > bare.count(each) for each in shows) or not shows


@IN_EACH
@EVERY
def test_losses_agree_with_the_level(technique: Technique, form: Format) -> None:
    """Full, needless: the case, which uses the mark in each of its ways, loses nothing. Unsupported: each mark is reported in its place."""
    _, losses = written(study(technique), form)
    level = form.carried[technique.name].level
    if level in {Level.FULL, Level.NEEDLESS}:
        assert losses == ()
    if level is Level.UNSUPPORTED:
        places = {event.span for event in _events(study(technique)) if any(mark.technique is technique for mark in _marks(event))}
        assert {loss.span for loss in losses if technique.name in loss.what} == places


def _events(score: Score) -> list[Event]:
    return [event for section in score.sections for bar in section.bars for voice in bar.voices for event in voice]


def _marks(event: Event) -> list[Mark]:
    return [*event.marks, *(mark for note in event.notes for mark in note.marks)]
