"""Notes on necks whose frets lie between the half steps: what they sound, how they are spelled, and how they move."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.model.pitch import Pitch, parse_pitch
from tests.compile.plain import codes, compiled, pitches_of, riff, score_of

QUARTERS = [number / 2 for number in range(1, 25)]
UNEQUAL = [0.98, 2.04, 2.94, 3.86, 4.98, 5.9, 7.02, 7.96, 9.06, 9.96, 10.88, 12]


def sounding(cells: str, kind: str = "frets", fretting: list[float] = QUARTERS, **more: Any) -> list[str]:
    rhythm = " ".join(["q"] * 4)
    return pitches_of({"study": 1, "fretting": fretting, "blocks": [riff({"rhythm": [rhythm], kind: [cells]})], **more})


@pytest.mark.parametrize(
    ("text", "pitch"),
    [
        ("C4+50", Pitch("C", 0, 4, 50)),
        ("E4-50", Pitch("E", -1, 4, 50)),
        ("Bb2-14", Pitch("B", -1, 2, -14)),
        ("F#-1+3", Pitch("F", 1, -1, 3)),
    ],
)
def test_a_pitch_with_its_cents(text: str, pitch: Pitch) -> None:
    assert parse_pitch(text) == pitch
    assert parse_pitch(str(pitch)) == pitch


@pytest.mark.parametrize("text", ["C4+0", "C4+51", "C4+", "C+50", "C4+050", "C4 +50"])
def test_what_is_no_pitch_with_cents(text: str) -> None:
    assert parse_pitch(text) is None


def test_frets_sound_what_they_give_and_are_spelled_with_the_least_alteration() -> None:
    # A quarter tone above C# is a half flat D rather than a sharp and a half C; common practice, no source.
    assert sounding("2:2 2:3 2:5 2:7") == ["C4", "C4+50", "Db4+50", "D4+50"]


def test_named_notes_land_on_the_nearest_fret() -> None:
    assert sounding("C4 C4+50 D4-50 E4-40@2", "notes") == ["C4", "C4+50", "Db4+50", "Eb4+50"]


def test_notes_of_another_temperament_carry_its_cents() -> None:
    scale = {"root": "C3", "name": "major"}
    found = sounding("1 2 3 4", "degrees", UNEQUAL, scale=scale)
    assert found == ["C3-6", "D3", "E3+4", "F3-6"]


def test_a_note_halfway_that_no_fret_gives() -> None:
    _, (found,) = compiled({"study": 1, "blocks": [riff({"rhythm": ["w"], "notes": ["C4+50"]})]})
    assert (found.code.id, found.headline) == ("N409", "no fret of this neck gives C4+50")


def test_a_pin_with_another_quarter_tone() -> None:
    _, (found,) = compiled({"study": 1, "fretting": QUARTERS, "blocks": [riff({"rhythm": ["w"], "notes": ["C4+50@2:2"]})]})
    assert (found.code.id, found.headline, found.expected) == ("M329", "string 2, fret 2 is C4, not C4+50", "C4+50@2:3")


def test_keys_move_quarter_tones_by_pitch() -> None:
    made = {"study": 1, "scale": {"root": "A2", "name": "minor"}, "keys": ["B"], "fretting": QUARTERS}
    blocks = [riff({"rhythm": ["q q q q"], "frets": ["5:0 1 2 3"]}), riff({"rhythm": ["h h"], "notes": ["A2+50 C3-50"]})]
    score = score_of({**made, "blocks": blocks})
    moved = [str(note.pitch) for section in score.sections[2:] for event in section.bars[0].voices[0] for note in event.notes]
    assert moved == ["B2", "B2+50", "C3", "C3+50", "B2+50", "Db3+50"]


def test_a_harmonic_sounds_over_the_nearest_node() -> None:
    rows = {"rhythm": ["h h"], "frets": ["6:7 6:12"], "marks": ["nh nh"]}
    assert pitches_of({"study": 1, "fretting": UNEQUAL, "blocks": [riff(rows)]}) == ["B3", "E3"]
    assert codes({"study": 1, "fretting": QUARTERS, "blocks": [riff({"rhythm": ["w"], "frets": ["6:14"], "marks": ["nh"]})]}) == []
    assert codes({"study": 1, "fretting": QUARTERS, "blocks": [riff({"rhythm": ["w"], "frets": ["6:12"], "marks": ["nh"]})]}) == ["M340"]


def test_more_than_hundredths_are_refused() -> None:
    assert set(codes({"study": 1, "fretting": [0.5, 1.005], "blocks": []})) == {"N411"}
