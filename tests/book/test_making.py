"""Exercises: what is made of a study, with the options of a manifest."""

from __future__ import annotations

import pickle
from typing import Any

import pytest

from tabforge.book.making import Making, make
from tabforge.book.model import Exercise, Made, StudyOptions

STUDY = b"""\
title  Quay steps
scale  A2 aeolian
tempo  66
text   Breathe.

run "First"
  layout position 5
  path   up
  rhythm q

riff "Second"
  text    Listen.
  rhythm  e e q h | w
  degrees 1 3 5 8 | 1
  marks   h . . v | lr
"""


def made(data: bytes = STUDY, *, engraved: bool = False, title: str | None = None, **options: Any) -> Made:
    exercise = Exercise(id="quay", number="1.1", chapter=0, file="quay.riff", options=StudyOptions(**options), title=title)
    return make(exercise, data, Making(engraved=engraved))


def test_everything_a_book_needs_of_a_study() -> None:
    found = made(engraved=True, tab=True, diagrams=True, level="settled")
    assert (found.title, found.text, found.failed, found.report) == ("Quay steps", ("Breathe.",), False, "")
    assert [part.title for part in found.parts] == ["First", "Second"]
    assert [bool(part.sheet and part.sheet.systems) for part in found.parts] == [True, True]
    assert [len(part.pictures) for part in found.parts] == [1, 1]
    assert found.parts[1].text == ("Listen.",)
    assert found.facts is not None
    assert (found.facts.key, found.facts.meter, found.facts.tempo, found.facts.level) == (
        "A aeolian", "4/4", "quarter note = 66", "settled",
    )
    assert found.facts.scales == ("natural minor",), "an index has a scale under one name"
    assert found.facts.techniques == ("hammer-on", "vibrato", "let ring")
    assert set(found.files) == {".musicxml", ".mid", ".tab.txt"}
    assert found.files[".mid"][:4] == b"MThd", "Standard MIDI Files 1.0: the header chunk's type"
    tab = found.parts[0].tab
    assert tab is not None
    assert "Tuning" not in tab
    assert tab.count("|-") >= 6


def test_what_is_not_asked_for_is_not_there() -> None:
    found = made()
    assert [(part.pictures, part.sheet, part.tab) for part in found.parts] == [((), None, None)] * 2
    assert found.plan == ()
    assert made(plan=True).plan
    assert made(title="Another").title == "Another"


def test_one_block_keeps_the_tempo_of_the_study() -> None:
    found = made(blocks=("second",))
    assert [part.title for part in found.parts] == ["Second"]
    assert found.facts is not None
    assert found.facts.tempo == "quarter note = 66"


def test_a_block_that_is_not_there_is_told_with_the_nearest() -> None:
    found = made(blocks=("Secnd",))
    assert found.failed
    assert found.report == "This study has no block “Secnd”. Did you mean “Second”?\n"


def test_an_option_that_cannot_be_had_is_told() -> None:
    found = made(instrument="bass", tuning="open G")
    assert found.failed
    assert found.files == {}
    assert "Bass has no tuning called “open G”" in found.report


OPTIONS = ({"key": "C"}, {"tempo": 120.0}, {"tuning": "drop D"}, {"hand": "left"}, {"fingering": "show"})


@pytest.mark.parametrize("options", OPTIONS, ids=str)
def test_each_option_has_its_effect(options: dict[str, Any]) -> None:
    plain, changed = made(diagrams=True), made(**{"diagrams": True, **options})
    assert not changed.failed, changed.report
    assert (plain.files[".musicxml"], plain.parts) != (changed.files[".musicxml"], changed.parts)


def test_it_is_the_same_every_time_and_can_be_sent_to_another_process() -> None:
    found = made(engraved=True, diagrams=True, plan=True)
    assert pickle.dumps(found) == pickle.dumps(made(engraved=True, diagrams=True, plan=True))
    assert pickle.loads(pickle.dumps(found)) == found


def test_a_track_is_counted_in_as_the_study_says_or_by_a_bar() -> None:
    pytest.importorskip("soundfile")
    none, two = (made(STUDY.replace(b"tempo  66", b"tempo  66\ncount-in " + count), tracks=True) for count in (b"0", b"2"))
    usual = made(tracks=True)
    assert len(none.files[".mp3"]) < len(usual.files[".mp3"]) < len(two.files[".mp3"])


def test_second_parts_are_told_in_words_where_they_are_shown() -> None:
    """The pages draw the first part alone."""
    shown, hidden = (made(STUDY.replace(b"tempo  66", b"tempo  66\ndrone 1+5\nbacking " + word)) for word in (b"show", b"hide"))
    assert [part.text[-1] for part in shown.parts] == ["Drone: A2 E3 (x02xxx), held"] * 2
    assert [part.text for part in hidden.parts] == [(), ("Listen.",)]
