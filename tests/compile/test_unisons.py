"""Two voices that strike one note together, and what is said where they clash."""

from __future__ import annotations

from typing import Any

from tests.compile.plain import codes, compiled, riff, score_of


def voices(upper: str, lower: str, kind: str = "frets", **settings: Any) -> dict[str, Any]:
    rhythm = " ".join(["q"] * 4)
    return {"study": 1, "blocks": [riff({"rhythm": [rhythm], kind: [upper], "voice2": {"rhythm": [rhythm], kind: [lower]}})], **settings}


def places(document: dict[str, Any]) -> list[str]:
    """For each voice its places, chords joined with +."""
    (bar,) = score_of(document).sections[0].bars
    return [" ".join("+".join(f"{note.string}:{note.fret}" for note in event.notes) or "r" for event in voice) for voice in bar.voices]


def test_one_note_of_both_voices_is_one_place() -> None:
    assert places(voices("1:0 2:3 2:1 1:3", "1:0 2:3+6:3 5:3+2:1 r")) == ["1:0 2:3 2:1 1:3", "1:0 2:3+6:3 2:1+5:3 r"]


def test_a_named_note_of_both_voices_is_one_place_and_takes_the_pin_of_either() -> None:
    first, second = places(voices("E4 C4 r r", "E4 C4@3 r r", "notes"))
    assert first == second
    assert first.split()[1] == "3:5"


def test_notes_pinned_apart_stay_apart() -> None:
    assert places(voices("1:0 r r r", "2:5 r r r")) == ["1:0 r r r", "2:5 r r r"]


def test_a_chord_may_still_have_a_note_twice() -> None:
    (first, _) = places(voices("1:0+2:5 r r r", "1:0 r r r"))
    assert first == "1:0+2:5 r r r"


def test_fingers_that_are_shown_are_both_voices() -> None:
    (bar,) = score_of(voices("2:1 r r r", "2:1+5:3 r r r", fingering="show")).sections[0].bars
    shown = [{note.string: note.finger for note in voice[0].notes} for voice in bar.voices]
    assert shown[0][2] is not None
    assert shown[0][2] == shown[1][2]


def test_a_clash_of_two_voices_is_told_of_them() -> None:
    _, (found,) = compiled(voices("2:1 r r r", "2:3 r r r"))
    assert (found.code.id, found.headline) == ("N406", "two notes of the two voices are asked for on string 2, which can sound only one")
    assert codes(voices("2:1 r r r", "2:1 r r r")) == []


def test_a_clash_in_one_voice_is_told_of_its_chord() -> None:
    _, (found,) = compiled({"study": 1, "blocks": [riff({"rhythm": ["w"], "frets": ["2:1+2:3"]})]})
    assert found.headline == "two notes of this chord are asked for on string 2, which can sound only one"
