"""The settings of the neck in force, and frets that move to another key by pitch."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.model.score import Score
from tests.compile.plain import codes, compiled, pitches_of, riff, score_of, study

FRETS = {"rhythm": ["q q q q"], "frets": ["1:0 1:1 1:2 1:3"]}


def places(score: Score, section: int = 0) -> str:
    bars = score.sections[section].bars
    return " ".join(f"{note.string}:{note.fret}" for bar in bars for event in bar.voices[0] for note in event.notes)


def pitches(score: Score, section: int = 0) -> str:
    return " ".join(str(note.pitch) for bar in score.sections[section].bars for event in bar.voices[0] for note in event.notes)


def bare(**settings: Any) -> dict[str, Any]:
    return {"study": 1, **settings}


# Fretting


def test_an_instrument_has_its_fretting() -> None:
    made = bare(instrument="mountain dulcimer", blocks=[riff({"rhythm": ["q q q q"], "frets": ["1:0 1:1 2:1 3:6"]})])
    assert pitches_of(made) == ["D4", "E4", "B3", "C4"]
    assert score_of(made).sections[0].fretting[:7] == (2, 4, 5, 7, 9, 10, 12)


def test_a_fretting_by_name_and_by_numbers() -> None:
    named = bare(fretting="diatonic", blocks=[riff(FRETS)])
    own = bare(fretting=[2, 4, 5], blocks=[riff(FRETS)])
    assert pitches_of(named) == pitches_of(own) == ["E4", "F#4", "G#4", "A4"]


def test_a_fretting_holds_for_its_block() -> None:
    made = score_of(bare(fretting="diatonic", blocks=[riff(FRETS, fretting="chromatic"), riff(FRETS)]))
    assert (pitches(made, 0), pitches(made, 1)) == ("E4 F4 F#4 G4", "E4 F#4 G#4 A4")


def test_the_numbers_are_the_frets_there_are() -> None:
    _, (found,) = compiled(bare(fretting=[2, 4], blocks=[riff(FRETS)]))
    assert (found.code.id, found.expected) == ("M331", "a fret from 0 to 2")


def test_a_degree_that_no_fret_gives() -> None:
    made = study(scale={"root": "D4", "name": "major"}, instrument="dulcimer", blocks=[riff({"rhythm": ["h h"], "degrees": ["1 b3"]})])
    _, (found,) = compiled(made)
    assert found.code.id == "N409"
    assert found.headline == "no fret of this neck gives F4"


def test_a_pin_that_is_another_note_is_told_the_right_fret() -> None:
    made = bare(instrument="mountain dulcimer", blocks=[riff({"rhythm": ["w"], "notes": ["G4@1:5"]})])
    _, (found,) = compiled(made)
    assert (found.code.id, found.headline, found.expected) == ("M329", "string 1, fret 5 is B4, not G4", "G4@1:3")


def test_a_natural_harmonic_lies_where_the_node_is_not_at_the_number() -> None:
    # Touched at half its length, fret 7 of a dulcimer, a string sounds its octave (the second partial).
    made = bare(instrument="mountain dulcimer", blocks=[riff({"rhythm": ["h h"], "frets": ["1:7 1:4"], "marks": ["nh nh"]})])
    assert pitches_of(made) == ["D5", "A5"]
    # On a banjo the octave of the short string lies over fret 17.
    made = bare(instrument="banjo", blocks=[riff({"rhythm": ["h h"], "frets": ["5:17 1:12"], "marks": ["nh nh"]})])
    assert pitches_of(made) == ["G5", "D5"]


# Short strings


def test_the_short_string_of_a_banjo() -> None:
    made = bare(instrument="banjo", blocks=[riff({"rhythm": ["q q q q"], "frets": ["5:0 5:7 5:6 5:17"]})])
    assert pitches_of(made) == ["G4", "A4", "G#4", "G5"]


def test_a_banjo_tuned_by_its_pitches_keeps_its_short_string() -> None:
    made = bare(instrument="banjo", tuning=["G4", "D3", "G3", "C4", "D4"], blocks=[riff({"rhythm": ["h h"], "frets": ["5:7 2:0"]})])
    assert pitches_of(made) == ["A4", "C4"]
    four = bare(instrument="banjo", tuning=["C3", "G3", "B3", "D4"], blocks=[riff({"rhythm": ["h h"], "frets": ["4:2 4:0"]})])
    assert pitches_of(four) == ["D3", "C3"]


@pytest.mark.parametrize("fret", [1, 5])
def test_a_fret_before_the_short_string(fret: int) -> None:
    made = bare(instrument="banjo", blocks=[riff({"rhythm": ["w"], "frets": [f"5:{fret}"]})])
    assert codes(made) == ["N410"]
    assert codes(bare(instrument="banjo", blocks=[riff({"rhythm": ["w"], "notes": [f"A4@5:{fret}"]})])) == ["N410"]


@pytest.mark.parametrize(("shape", "found"), [("00000", []), ("70002", []), ("30002", ["M342"]), ("60002", [])])
def test_a_chord_shape_knows_the_short_string(shape: str, found: list[str]) -> None:
    made = bare(instrument="banjo", blocks=[riff({"chords": [f"G@{shape}"], "rhythm": ["w"], "frets": ["1:0"]})])
    assert codes(made) == found


# Keys


def test_frets_on_a_banjo_move_by_pitch() -> None:
    made = score_of(study(scale={"root": "G3", "name": "major"}, keys=["A3"], instrument="banjo",
                          blocks=[riff({"rhythm": ["q q q q"], "frets": ["5:0 5:7 1:0 3:0"]})]))  # fmt: skip
    assert places(made, 1) == "5:7 5:9 1:2 3:2"
    assert pitches(made, 1) == "A4 B4 E4 A3"


def test_frets_on_a_dulcimer_move_by_pitch() -> None:
    # The first four notes of D major a fourth up: the frets go up by three, since D to G is three frets.
    made = score_of(study(scale={"root": "D4", "name": "mixolydian"}, keys=["G4"], instrument="dulcimer",
                          blocks=[riff({"rhythm": ["q q q q"], "frets": ["1:0 1:1 1:3 1:4"]})]))  # fmt: skip
    assert pitches(made, 1) == "G4 A4 C5 D5"
    assert places(made, 1) == "1:3 1:4 1:6 1:7"


def test_frets_that_a_key_has_no_place_for() -> None:
    _, found = compiled(study(scale={"root": "D4", "name": "mixolydian"}, keys=["E4"], instrument="dulcimer",
                              blocks=[riff({"rhythm": ["h h"], "frets": ["1:0 1:2"]})]))  # fmt: skip
    assert [each.code.id for each in found] == ["M334", "M334"]
    assert found[0].headline == "in this key the note would be G#4, which string 1 does not have"
    assert found[0].expected == "a note that string 1 has a fret for, from D4 to G6"


def test_a_pin_moves_by_pitch() -> None:
    made = score_of(study(scale={"root": "G4", "name": "major"}, keys=["A4"], instrument="banjo",
                          blocks=[riff({"rhythm": ["h h"], "degrees": ["1@5:0 2@5:7"]})]))  # fmt: skip
    assert (places(made, 0), places(made, 1)) == ("5:0 5:7", "5:7 5:9")


def test_on_a_guitar_frets_move_as_they_did() -> None:
    made = score_of(study(scale={"root": "E3", "name": "major"}, keys=["G3"], blocks=[riff(FRETS)]))
    assert places(made, 1) == "1:3 1:4 1:5 1:6"


def test_the_fret_of_a_layout_moves_by_pitch() -> None:
    run = {"kind": "run", "layout": {"kind": "per string", "count": 4, "from": 3, "to": 2, "fret": 0}}
    made = score_of(study(scale={"root": "G3", "name": "major"}, keys=["C4"], instrument="stick dulcimer", tuning=["G3", "D4", "G4"],
                          blocks=[run | {"layout": run["layout"] | {"count": 3, "to": 3}}]))  # fmt: skip
    assert (places(made, 0), places(made, 1)) == ("3:0 3:1 3:2", "3:3 3:4 3:5")


# Partial capo and hand


def test_a_partial_capo_is_told_and_changes_no_pitch() -> None:
    plain = score_of(bare(blocks=[riff(FRETS)]))
    made = score_of(bare(capo={"fret": 2, "strings": [5, 4, 3]}, blocks=[riff(FRETS), {"kind": "text", "lines": ["a"]}]))
    assert [each.partial_capo for each in made.sections] == [(2, (5, 4, 3)), (2, (5, 4, 3))]
    assert made.sections[0].capo == 0
    assert pitches(made) == pitches(plain)


def test_one_capo_takes_the_place_of_the_other() -> None:
    partial = {"fret": 2, "strings": [5]}
    made = score_of(bare(capo=3, blocks=[riff(FRETS, capo=partial), riff(FRETS), riff(FRETS, capo=0)]))
    assert [(each.capo, each.partial_capo) for each in made.sections] == [(0, (2, (5,))), (3, None), (0, None)]
    made = score_of(bare(capo=partial, blocks=[riff(FRETS, capo=0), riff(FRETS, capo=2), riff(FRETS)]))
    assert [(each.capo, each.partial_capo) for each in made.sections] == [(0, None), (2, None), (0, (2, (5,)))]


def test_the_strings_of_a_partial_capo_must_exist() -> None:
    _, found = compiled(bare(instrument="ukulele", capo={"fret": 2, "strings": [4, 5, 6]}, blocks=[riff(FRETS)]))
    assert [(each.code.id, each.headline, each.pointer) for each in dict.fromkeys(found)] == [
        ("M330", "the capo cannot lie on string 5: this tuning has 4 strings", "/capo"),
        ("M330", "the capo cannot lie on string 6: this tuning has 4 strings", "/capo"),
    ]
    _, (fewer,) = compiled(bare(capo={"fret": 2, "strings": [6]}, blocks=[riff(FRETS, tuning=["E2", "A2", "E4"])]))
    assert (fewer.code.id, fewer.pointer) == ("M330", "/blocks/0/tuning")


def test_the_hand() -> None:
    assert score_of(bare(hand="left", blocks=[riff(FRETS)])).left_handed
    assert not score_of(bare(hand="right", blocks=[riff(FRETS)])).left_handed
    assert not score_of(bare(blocks=[riff(FRETS)])).left_handed
