"""Studies with other settings than their own: what is changed, and that nothing else is."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tabforge.model.score import Score
from tabforge.pipeline import study_from
from tabforge.readers import READERS
from tabforge.source import Source
from tabforge.syntax.altered import AS_WRITTEN, Changes, altered

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.riff"))

STUDY = b"""\
title Two quays
scale A2 dorian
tempo 80
text Listen to the sixth.

text "Before"
  Breathe.

run "Steps"
  layout free
  octaves 1
  rhythm q

riff "Names"
  tempo 120
  text By name.
  rhythm  q q h
  notes   A2 C3 E3
"""


def score(data: bytes, **changes: Any) -> Score:
    outcome = study_from("study.riff", data, Changes(**changes))
    assert outcome.score is not None, [each.headline for each in outcome.diagnostics]
    return outcome.score


def pitches(made: Score, section: int) -> list[int]:
    return [note.pitch.midi for bar in made.sections[section].bars for event in bar.voices[0] for note in event.notes]


def test_on_another_root_everything_moves_and_the_texts_stay() -> None:
    plain, moved = score(STUDY), score(STUDY, key="C3")
    assert moved.sections[1].scale is not None
    assert str(moved.sections[1].scale.root) == "C3"
    for section in (1, 2):
        assert pitches(moved, section) == [midi + 3 for midi in pitches(plain, section)]
    assert [each.text for each in moved.sections] == [each.text for each in plain.sections]
    assert [each.title for each in moved.sections] == ["Before", "Steps", "Names"]


def test_it_is_written_on_that_root_alone() -> None:
    data = STUDY.replace(b"tempo 80\n", b"tempo 80\nkeys fifths\n")
    assert len(score(data).sections) > 20
    assert len(score(data, key="C3").sections) == 3


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_on_its_own_root_a_study_is_itself(path: Path) -> None:
    plain = study_from(path.name, path.read_bytes()).score
    assert plain is not None
    first = next((section.scale for section in plain.sections if section.scale), None)
    if first is None:
        pytest.skip("has no scale")
    own = study_from(path.name, path.read_bytes(), Changes(key=str(first.root))).score
    assert own is not None
    titles = [section.title.split(" in ")[0] for section in own.sections]
    assert titles == [section.title.split(" in ")[0] for section in plain.sections][: len(titles)]
    assert pitches(own, 0) == pitches(plain, 0)


def test_the_tempo_of_a_block_keeps_its_ratio() -> None:
    made = score(STUDY, tempo=60)
    tempos = [section.bars[0].tempo for section in made.sections if section.bars]
    assert [tempo and tempo.bpm for tempo in tempos] == [60, 90]


def test_another_instrument_begins_where_it_can() -> None:
    data = STUDY.replace(b"tempo 80\n", b"tempo 80\ntuning drop D\ncapo 2\n").replace(b"notes   A2 C3 E3", b"degrees 1 3 5")
    made = score(data, instrument="bass")
    assert made.instrument.name == "bass"
    assert made.sections[1].capo == 0
    assert made.sections[1].scale is not None
    assert str(made.sections[1].scale.root) == "A1"


def test_hand_tuning_fingering_and_layout() -> None:
    tuning = ("D2", "A2", "D3", "G3", "B3", "E4")
    made = score(STUDY, hand="left", tuning=tuning, fingering="show", layout={"kind": "string", "string": 5})
    assert made.left_handed
    assert str(made.sections[1].tuning) == "D2 A2 D3 G3 B3 E4"
    notes = [note for bar in made.sections[1].bars for event in bar.voices[0] for note in event.notes]
    assert all(note.finger for note in notes if note.fret)
    assert {note.string for note in notes} == {5}


def test_a_study_without_a_scale_cannot_be_moved_and_says_why() -> None:
    outcome = study_from("study.riff", b'title T\n\nriff "A"\n  rhythm w\n  frets 6:3\n', Changes(key="C"))
    assert [each.code.id for each in outcome.diagnostics if each.is_error]
    assert "scale" in outcome.diagnostics[0].headline


def test_nothing_asked_for_is_the_same_object() -> None:
    document = READERS["riff"](Source("study.riff", STUDY.decode())).document
    assert document is not None
    before = repr(document)
    assert altered(document, AS_WRITTEN) is document
    assert altered(document, Changes(tempo=50, instrument="bass", key="D")) is not document
    assert repr(document) == before, "the document itself is left alone"


def test_of_some_blocks_the_first_says_the_tempo_and_only_they_must_fit() -> None:
    data = STUDY.replace(b"  tempo 120\n", b"").replace(b"notes   A2 C3 E3", b"frets 6:0 5:3 4:2")
    assert study_from("study.riff", data, Changes(key="G2")).score is None, "the riff is pinned to its open string"
    made = score(data, key="G2", blocks=("steps",))
    played = [section for section in made.sections if section.bars]
    assert [section.title for section in played] == ["Steps"]
    assert played[0].bars[0].tempo is not None
    later = score(data, blocks=("Names",))
    assert [section.bars[0].tempo and section.bars[0].tempo.bpm for section in later.sections if section.bars] == [80]


def test_a_pickup_stays_with_its_block() -> None:
    data = STUDY.replace(b"tempo 80\n", b"tempo 80\npickup q\n")
    assert [section.bars[0].partial for section in score(data).sections if section.bars] == [True, False]
    assert [section.bars[0].partial for section in score(data, blocks=("Names",)).sections if section.bars] == [False]
