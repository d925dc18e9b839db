"""The small drawings of signs in the glossary, and how long exercises are kept on one page."""

from __future__ import annotations

from dataclasses import replace

import pytest

from tabforge.book.describing import facts_of
from tabforge.book.glossing import glossary, meaning, sign
from tabforge.book.indexing import indexes
from tabforge.book.model import LEVELS, Exercise, Facts, Made, StudyOptions
from tabforge.book.naming import titles_of
from tabforge.book.pdf import bind
from tabforge.book.signs import WIDTH, drawing, sample
from tabforge.model.techniques import BY_NAME, TECHNIQUES, Technique
from tabforge.pages import Engraver
from tabforge.pages.options import PAPERS
from tabforge.pipeline import study_from
from tests.book.bound import Bound
from tests.book.pdf_book import trial

POINT = 25.4 / 72


@pytest.fixture(scope="module")
def engraver() -> Engraver:
    return Engraver()


@pytest.mark.parametrize("technique", TECHNIQUES, ids=lambda technique: technique.name)
def test_every_technique_has_a_drawing_of_its_sign(technique: Technique, engraver: Engraver) -> None:
    outcome = study_from("sign.riff", sample(technique).encode())
    assert outcome.score is not None and not outcome.diagnostics
    used = facts_of(outcome.score, outcome.score.sections, None).techniques
    assert technique.name in used and set(used) <= {technique.name, "dead note"}
    drawn = drawing(technique, "Libertinus Serif", engraver)
    assert drawn.width == pytest.approx(WIDTH) and technique.name in drawn.label


def test_meanings_are_in_a_students_words() -> None:
    for each in TECHNIQUES:
        said = meaning(each)
        assert "#" not in said + sign(each) and "; -" not in said
        assert said[0].isupper() and said.endswith(".")
    assert meaning(BY_NAME["vibrato"]) == "Rock the pitch."
    assert meaning(BY_NAME["bend"]) == "Push the string until it sounds n whole steps higher; n is the number written with the sign."


def exercise(number: str, facts: Facts | None) -> tuple[Exercise, Made]:
    said = Exercise(id=f"e{number}", number=number, chapter=0, file="a.riff", options=StudyOptions())
    return said, Made(id=said.id, title="A", facts=facts, failed=facts is None)


def test_indexes_and_glossary_gather_exercises() -> None:
    usual = Facts(instrument="Guitar", tuning="standard", level="fluent", scales=("lydian", "Aeolian"), techniques=("vibrato", "bend"))
    pairs = [exercise("1", usual), exercise("2", None), exercise("3", replace(usual, level="first steps", techniques=("bend",)))]
    exercises, made = zip(*pairs, strict=True)
    found = {
        index.title: [(entry.word, [each.number for each in entry.exercises]) for entry in index.entries]
        for index in indexes(exercises, made)
    }
    assert found == {
        "Scales": [("Aeolian", ["1", "3"]), ("lydian", ["1", "3"])],
        "Techniques": [("bend", ["1", "3"]), ("vibrato", ["1"])],
        "Levels": [("first steps", ["3"]), ("fluent", ["1"])],
        "Instruments and tunings": [("Guitar: standard", ["1", "3"])],
    }
    assert [(each.technique.name, len(each.exercises)) for each in glossary(exercises, made)] == [("bend", 2), ("vibrato", 1)]
    assert LEVELS.index("first steps") < LEVELS.index("fluent")


def test_titles_that_are_alike_are_told_apart() -> None:
    usual = Facts(instrument="Guitar", tuning="standard (E2 A2)", key="Bb lydian")

    def titles(*facts: Facts | None) -> list[str]:
        return [title.removeprefix("A") for title in titles_of([exercise(str(number), each)[1] for number, each in enumerate(facts)])]

    assert titles(usual) == [""] and titles(usual, usual) == ["", ""]
    assert titles(usual, replace(usual, key="F# dorian"), None) == [": B♭ lydian", ": F♯ dorian", ""]
    assert titles(usual, replace(usual, tuning="drop D (D2 A2)")) == [": standard", ": drop D"]
    assert titles(usual, replace(usual, instrument="Bass")) == [": guitar", ": bass"]


def test_a_system_taller_than_the_page_is_made_to_fit() -> None:
    book, exercises, made = trial("a5")
    part = made[3].parts[0]
    assert part.sheet is not None
    tall = replace(part.sheet.systems[0], height=900.0, svg='<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 900"/>', width=100.0)
    sheet = replace(part.sheet, systems=(replace(tall, label="tall"),))
    data, _ = bind(book, exercises, (*made[:3], replace(made[3], parts=(replace(part, sheet=sheet),)), *made[4:]))
    (found,) = (each for each in Bound(data).figures() if each.alt == "tall")
    height = PAPERS["a5"][1] / POINT
    assert 0 < found.bottom < found.top < height and found.top - found.bottom > 0.7 * height


def test_a_short_exercise_is_not_cut_by_the_end_of_a_page() -> None:
    """However many stand before it."""
    book, exercises, made = trial()
    short = made[3]
    for before in range(1, 8):
        chapter = replace(book.chapters[0], text="Words.\n\n" * 6 * before)
        only = replace(book, chapters=(chapter,), cover_study=None)
        data, _ = bind(only, (replace(exercises[3], chapter=0),), (replace(short, plan=("One.",) * 8),))
        pdf = Bound(data)
        (page,) = (page for _, title, page in pdf.outline() if title.endswith(short.title))
        assert pdf.texts[page - 1].count("One.") == 8
