"""Fingers in the score: the writer's, and those that are chosen."""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.compile import compile_study
from tests.compile.plain import Nowhere, riff, score_of

SCALE = {"rhythm": ["q q q q", "q q q q"], "notes": ["C3 D3 E3 F3", "G3 A3 B3 C4"]}


def told(document: dict[str, Any]) -> str:
    """Each note's place and finger: ``5:3=3``."""
    bars = [bar for section in score_of(document).sections for bar in section.bars]
    notes = [note for bar in bars for voice in bar.voices for event in voice for note in event.notes]
    return " ".join(f"{note.string}:{note.fret}" + (f"={note.finger}" if note.finger else "") for note in notes)


def bare(*blocks: dict[str, Any], **settings: Any) -> dict[str, Any]:
    return {"study": 1, **settings, "blocks": list(blocks)}


def test_chosen_fingers_are_shown_only_when_asked_for() -> None:
    # C major in the first position, as the first pages of any method finger it (common practice, from memory).
    assert told(bare(riff(SCALE))) == "5:3 4:0 4:2 4:3 3:0 3:2 2:0 2:1"
    assert told(bare(riff(SCALE), fingering="show")) == "5:3=3 4:0 4:2=2 4:3=3 3:0 3:2=2 2:0 2:1=1"
    assert told(bare(riff(SCALE, fingering="hide"), fingering="show")) == told(bare(riff(SCALE)))
    assert told(bare(riff(SCALE, fingering="show"))) == told(bare(riff(SCALE), fingering="show"))


@pytest.mark.parametrize("notes", ["C3 E3 G3 C4", "G4 B3 G3 C5", "C3+E3+G3 D3+F3+A3 E3+G3+B3 F3+A3+C4"])
def test_showing_fingers_moves_no_note(notes: str) -> None:
    rows = {"rhythm": ["q q q q"], "notes": [notes]}
    shown = told(bare(riff(rows), fingering="show"))
    assert " ".join(each.split("=")[0] for each in shown.split()) == told(bare(riff(rows)))


def test_written_fingers_are_kept_and_the_others_fit_them() -> None:
    rows = {"rhythm": ["h h"], "notes": ["C4 D4"], "fingers": ["1 ."]}
    assert told(bare(riff(rows | {"fingers": ["2 ."]}), fingering="show")).split()[0].endswith("=2")
    assert told(bare(riff(rows), fingering="show")).split()[0].endswith("=1")
    assert told(bare(riff(rows | {"fingers": ["2 ."]}))).split()[1].count("=") == 0


@pytest.mark.parametrize("mark", ["h", "p"])
def test_one_finger_never_hammers_on_or_pulls_off_alone(mark: str) -> None:
    # Common practice, no source: the string is struck or plucked by a finger other than the one that holds its end.
    rows = {"rhythm": ["q e e q q"], "notes": ["A2 C3 C#3 D3 E3", "A3 G3 E3 D3 B2"], "marks": [f". . {mark} . ."]}
    rows = rows if mark == "h" else rows | {"notes": ["A2 C3 D3 C#3 E3", "A3 G3 E3 D3 B2"]}
    shown = told(bare(riff(rows), fingering="show")).split()
    string, finger = zip(*[each.split("=") for each in shown[2:4]], strict=True)
    assert {place.split(":")[0] for place in string} == {"5"}
    assert len(set(finger)) == 2


@pytest.mark.parametrize("mark", ["sl", "ss"])
@pytest.mark.parametrize(
    ("frets", "way"),
    [
        ("4:5 3:5 3:7 2:5", "3:5 3:7"),
        ("2:5 1:5 1:8 1:5", "1:5 1:8"),
        ("4:7 3:7 3:5 2:6", "3:7 3:5"),
        ("5:3 5:5+4:5 5:7+4:7 5:3", "4:5 4:7"),
    ],
)
def test_a_finger_slides_to_where_it_came_from(mark: str, frets: str, way: str) -> None:
    # Common practice, no source: a slide is one finger moving along a string.
    rows = {"rhythm": ["q q q q"], "frets": [frets], "marks": [f". {mark} . ."]}
    notes = dict(note.split("=") for note in reversed(told(bare(riff(rows), fingering="show")).split()))
    assert len({notes[place] for place in way.split()}) == 1


def test_a_written_zero_takes_the_open_string() -> None:
    rows = {"rhythm": ["h h"], "notes": ["A4@2 B3"]}
    assert told(bare(riff(rows))) == "2:10 4:9"
    assert told(bare(riff(rows | {"fingers": [". 0"]}))) == "2:10 2:0"


def test_one_finger_under_a_chord_is_a_barre() -> None:
    rows = {"rhythm": ["w"], "notes": ["C4+F4"], "fingers": ["1"]}
    assert told(bare(riff(rows))) in ("1:1=1 2:1=1", "2:6=1 3:5=1")


@pytest.mark.parametrize(
    ("player", "notes"),
    [
        ("beginner", "F3 F2 D3 B3"),  # the open string rather than the fourth finger
        ("small hand", "E4 A4 C4 C4"),  # nothing from fret 1 to fret 5
        ("classical", "E4 B2 B2 A3"),  # two strings at one fret, two fingers
        ("lead", "D3 C3 A4 A4"),  # no open string
    ],
)
def test_each_player_has_an_effect(player: str, notes: str) -> None:
    rows = {"rhythm": ["q q q q"], "notes": [notes]}
    own = told(bare(riff(rows), player=player, fingering="show"))
    assert own != told(bare(riff(rows), fingering="show"))
    assert own == told(bare(riff(rows, player=player), fingering="show"))
    assert told(bare(riff(rows, player="usual"), player=player, fingering="show")) == told(bare(riff(rows), fingering="show"))


def test_the_tempo_tells_only_where_it_is_said() -> None:
    # At a slow tempo the line is played low and goes up for its last note; in haste it begins where it ends.
    rows = {"rhythm": ["e e e e+h"], "notes": ["G4 B3 G3 C5"]}
    slow, fast = (told(bare(riff(rows), tempo={"bpm": bpm})) for bpm in (40, 240))
    assert told(bare(riff(rows))) == slow == "1:3 2:0 3:0 1:8 1:8"
    assert fast == "2:8 4:9 5:10 1:8 1:8"
    # The tempo of the bar, not that of the beginning.
    changed = {**rows, "rhythm": ["w", "e e e e+h"], "notes": ["r", "G4 B3 G3 C5"], "tempo": ["40", "240"]}
    assert told(bare(riff(changed))) == fast


def test_the_written_strokes_tell() -> None:
    rows = {"rhythm": ["q q q q"], "notes": ["G3 E3 A4 B3"]}
    assert told(bare(riff(rows))) == "3:0 4:2 1:5 2:0"
    assert told(bare(riff(rows | {"picks": ["d u d u"]}))) == "4:5 4:2 1:5 2:0"


def test_an_unplayable_event_leaves_the_rest_of_the_fingers_right() -> None:
    document = bare(riff({"rhythm": ["q q q q"], "notes": ["C3 C1 E3 F3"]}), fingering="show")
    score, found = compile_study(document, Nowhere())  # type: ignore[arg-type]
    assert score is None
    assert [each.code.id for each in found] == ["N401"]
