"""A row of key: the scale in force from a bar on. Key signatures are those that music21 gives its modes."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.model.score import Score
from tests.compile.plain import codes, compiled, pitches_of, riff, score_of, study

FOUR = {"rhythm": ["q q q q"]}


def keyed(*cells: str, **rows: Any) -> dict[str, Any]:
    degrees = rows.pop("degrees", ["1 3 4 7"] * len(cells))
    return study(scale={"root": "D3", "name": "major"}, blocks=[riff({**FOUR, "key": list(cells), "degrees": degrees, **rows})])


def sounds(document: dict[str, Any]) -> str:
    return " ".join(pitches_of(document))


def told(score: Score, section: int = 0) -> list[str]:
    return [f"{bar.scale.root} {bar.scale.name}" if bar.scale else "." for bar in score.sections[section].bars]


def test_degrees_are_counted_from_the_scale_in_force() -> None:
    made = keyed(".", "A2-dorian", ".", "Bb2-lydian")
    assert sounds(made) == "D3 F#3 G3 C#4 A2 C3 D3 G3 A2 C3 D3 G3 Bb2 D3 E3 A3"
    assert told(score_of(made)) == [".", "A2 dorian", ".", "Bb2 lydian"]


@pytest.mark.parametrize(
    ("cell", "tonic", "mode"),
    [
        ("A-dorian", "A", "dorian"),
        ("Bb-lydian", "B-", "lydian"),
        ("F#-phrygian", "F#", "phrygian"),
        ("Eb3-major", "E-", "major"),
        ("C-minor", "C", "minor"),
    ],
)
def test_the_signature_is_music21s(cell: str, tonic: str, mode: str) -> None:
    from music21.key import Key

    (_, bar) = score_of(keyed(".", cell)).sections[0].bars
    assert bar.scale is not None
    assert bar.scale.fifths == Key(tonic, mode).sharps


def test_a_change_with_the_first_bar_is_the_sections_scale_and_the_same_again_is_none() -> None:
    score = score_of(keyed("G2-minor", "G2-minor", "."))
    assert score.sections[0].scale is not None
    assert score.sections[0].scale.root.pitch_class.step == "G"
    assert told(score) == [".", ".", "."]


def test_it_holds_into_the_next_system_and_ends_with_the_block() -> None:
    systems = [{**FOUR, "key": [".", "E2-minor"], "degrees": ["1 3 4 7"] * 2}, {"degrees": ["1 3 4 7"]}]
    made = study(scale={"root": "D3", "name": "major"}, blocks=[riff(*systems), riff({**FOUR, "degrees": ["1 3 4 7"]})])
    assert sounds(made).endswith(" E2 G2 A2 D3 D3 F#3 G3 C#4")


def test_a_bar_again_is_read_in_the_new_scale() -> None:
    assert sounds(keyed(".", "G2-minor", degrees=["1 3 5 8", "%"])).endswith(" G2 Bb2 D3 G3")


def test_both_voices_follow() -> None:
    score = score_of(keyed(".", "G2-minor", degrees=["8 r r r"] * 2, voice2={**FOUR, "degrees": ["r 1 3 1"] * 2}))
    lower = [str(note.pitch) for bar in score.sections[0].bars for event in bar.voices[1] for note in event.notes]
    assert " ".join(lower) == "D3 F#3 D3 G2 Bb2 G2"


def test_a_second_voice_that_comes_late_has_the_scale_that_changed_before() -> None:
    systems = [
        {**FOUR, "key": [".", "G2-minor"], "degrees": ["1 3 4 7"] * 2},
        {"degrees": ["8 r r r"], "voice2": {**FOUR, "degrees": ["r 1 3 1"]}},
    ]
    score = score_of(study(scale={"root": "D3", "name": "major"}, blocks=[riff(*systems)]))
    assert [str(event.notes[0].pitch) for event in score.sections[0].bars[2].voices[1] if event.notes] == ["G2", "Bb2", "G2"]


def test_frets_are_spelled_and_harmonics_too_in_the_scale_in_force() -> None:
    rows = {**FOUR, "key": [".", "Bb2-major"], "frets": ["6:6 6:9 4:7 5:5"] * 2, "marks": [". . nh ."] * 2}
    made = study(scale={"root": "E2", "name": "major"}, blocks=[riff(rows)])
    assert sounds(made) == "A#2 C#3 A4 D3 Bb2 Db3 A4 D3"
    sharp = riff({**FOUR, "key": [".", "Eb3-major"], "frets": ["6:4 r r r"] * 2, "marks": ["ah12 . . ."] * 2})
    assert [each for each in pitches_of(study(scale={"root": "E2", "name": "major"}, blocks=[sharp])) if each != "r"] == ["G#3", "Ab3"]


def test_keys_move_the_change_with_the_study() -> None:
    score = score_of({**keyed(".", "A2-dorian"), "keys": ["F"]})
    assert [told(score, number) for number in (0, 1)] == [[".", "A2 dorian"], [".", "C3 dorian"]]


def test_numerals_are_chords_of_the_scale_in_force() -> None:
    score = score_of(keyed(".", "A2-dorian", chords=["IV", "IV"]))
    chords = [event.attached.chord for bar in score.sections[0].bars for event in bar.voices[0] if event.attached.chord]
    assert [chord.text for chord in chords] == ["G", "D"]


def test_what_no_scale_is_called() -> None:
    _, found = compiled(keyed(".", "A-dorain"))
    assert (found[0].code.id, found[0].suggestion) == ("M304", "dorian")


def test_a_row_that_is_too_long() -> None:
    made = keyed(".", "A2-dorian", "E2-minor", degrees=["1 3 4 7"] * 2)
    assert codes(made) == codes({**made, "blocks": [riff({**FOUR, "meter": [".", ".", "3/4"], "degrees": ["1 3 4 7"] * 2})]})
