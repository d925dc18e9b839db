"""The book in ``examples``: what it promises is counted in what is made of it, and every study and chapter teaches."""

from __future__ import annotations

from pathlib import Path

import pytest

from tabforge.book.making import Making, make
from tabforge.book.manifest import Absent, read_book
from tabforge.book.model import LEVELS, Book, Exercise, Made
from tabforge.book.plan import exercises_of, files_of
from tabforge.model.score import Score
from tabforge.pipeline import study_from
from tabforge.writers.musicxml import write
from tabforge.writers.options import WriteOptions
from tests.proof.readback import compare
from tests.proof.xsd import problems

HOME = Path(__file__).parents[2] / "examples" / "harbour-book"

NO_TECHNIQUES = frozenset({"let ring", "accent", "strong accent", "staccato", "tenuto", "fermata", "barre", "half barre"})
"""Marks that say how a note is to sound, or where the hand lies, and are no techniques to be learnt. Common practice, no source."""


STUDIES = sorted((HOME / "studies").glob("*.riff"))


def fetch(path: str) -> bytes | Absent:
    file = HOME / path
    return file.read_bytes() if file.is_file() else Absent("there is no such file")


@pytest.fixture(scope="module")
def book() -> Book:
    book, findings = read_book("book.toml", (HOME / "book.toml").read_bytes(), fetch)
    assert findings == ()
    assert book is not None
    return book


@pytest.fixture(scope="module")
def exercises(book: Book) -> tuple[Exercise, ...]:
    return exercises_of(book)


@pytest.fixture(scope="module")
def made(exercises: tuple[Exercise, ...]) -> tuple[Made, ...]:
    """Every exercise, neither engraved nor sounded: its data is what is looked at."""
    making = Making(engraved=False, tracks=False)
    return tuple(make(exercise, (HOME / exercise.file).read_bytes(), making) for exercise in exercises)


@pytest.fixture(scope="module")
def scores() -> dict[str, Score]:
    found = {}
    for path in STUDIES:
        score = study_from(path.name, path.read_bytes()).score
        assert score is not None, path.name
        found[f"studies/{path.name}"] = score
    return found


def test_the_book_has_neither_errors_nor_advice(made: tuple[Made, ...]) -> None:
    assert {each.id: each.report for each in made if each.failed or each.report} == {}


def test_it_has_at_least_sixty_exercises_of_many_studies(made: tuple[Made, ...], exercises: tuple[Exercise, ...]) -> None:
    assert len(made) >= 60
    assert len({exercise.file for exercise in exercises}) >= 45
    assert all(part.title or part.text for each in made for part in each.parts)


def test_its_scales_techniques_and_tunings_are_many(made: tuple[Made, ...]) -> None:
    facts = [each.facts for each in made if each.facts is not None]
    assert len(facts) == len(made)
    assert len({scale for each in facts for scale in each.scales}) >= 10
    assert len({technique for each in facts for technique in each.techniques} - NO_TECHNIQUES) >= 6
    assert len({each.tuning for each in facts if each.instrument == "Guitar"}) >= 3


def test_bass_and_seven_strings_have_exercises(made: tuple[Made, ...]) -> None:
    instruments = [each.facts.instrument for each in made if each.facts is not None]
    assert instruments.count("Bass") >= 3
    assert instruments.count("Seven-String Guitar") >= 3


def test_each_mode_of_the_major_scale_is_taught(made: tuple[Made, ...]) -> None:
    scales = {scale for each in made if each.facts is not None for scale in each.facts.scales}
    assert {"major", "dorian", "phrygian", "lydian", "mixolydian", "natural minor", "locrian"} <= scales


def test_every_chapter_begins_with_an_introduction(book: Book) -> None:
    counts = {chapter.title: len(chapter.text.split()) for chapter in book.chapters}
    assert len(counts) == 12
    assert {title: count for title, count in counts.items() if not 80 <= count <= 250} == {}


def test_every_study_teaches_in_words(scores: dict[str, Score]) -> None:
    silent = [name for name, score in scores.items() if not 1 <= len(score.text) <= 3]
    assert silent == []
    assert [(name, section.title) for name, score in scores.items() for section in score.sections if not section.text] == []


def test_every_study_is_in_the_book_at_a_level(book: Book, exercises: tuple[Exercise, ...], scores: dict[str, Score]) -> None:
    assert set(scores) == {file for file in files_of(book) if file.endswith(".riff")}
    assert {exercise.options.level for exercise in exercises} == set(LEVELS)


def test_plans_diagrams_tab_fingers_and_tracks_are_all_shown(made: tuple[Made, ...], exercises: tuple[Exercise, ...]) -> None:
    assert any(each.plan for each in made)
    assert any(part.pictures for each in made for part in each.parts)
    assert any(part.tab for each in made for part in each.parts)
    assert any(exercise.options.fingering == "show" for exercise in exercises)
    assert any(exercise.options.tracks for exercise in exercises)
    assert any(exercise.options.hand == "left" for exercise in exercises)


def test_most_lines_come_home(scores: dict[str, Score]) -> None:
    """Most lines come home to their root; common practice, no source for how many."""
    ends = []
    for score in scores.values():
        for section in score.sections:
            voice = section.bars[-1].voices[0]
            sounding = [event for event in voice if event.notes]
            if section.scale is not None and sounding and len(sounding[-1].notes) == 1:
                root = section.scale.root.pitch_class
                ends.append(str(sounding[-1].notes[0].pitch.pitch_class) == str(root))
    assert len(ends) > 60
    assert sum(ends) / len(ends) > 0.9


@pytest.mark.parametrize("path", STUDIES, ids=lambda path: path.stem)
def test_every_study_is_valid_and_read_back(path: Path, scores: dict[str, Score]) -> None:
    """Sources: the W3C MusicXML 4.0 schema; music21 as an independent reader."""
    score = scores[f"studies/{path.name}"]
    document, _ = write(score)
    assert problems(document) == []
    assert compare(score, document, WriteOptions().staves) == []
