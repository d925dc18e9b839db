"""Strokes where the writer gives none, and what rings on while others are struck."""

from __future__ import annotations

from typing import Any

import pytest

from tests.compile.plain import riff, score_of

THREE_STRINGS = {"kind": "per string", "count": 3, "from": 6, "to": 4}
RUN = {"kind": "run", "scale": {"root": "A2", "name": "minor"}, "layout": THREE_STRINGS, "rhythm": "s"}


def events(block: dict[str, Any], **settings: Any) -> list[Any]:
    document = {"study": 1, **settings, "blocks": [block]}
    bars = [bar for section in score_of(document).sections for bar in section.bars]
    return [event for bar in bars for event in bar.voices[0] if event.notes and not event.notes[0].tied_in]


def strokes(block: dict[str, Any], **settings: Any) -> str:
    return "".join(event.attached.stroke or "." for event in events(block, **settings))


def slurs(block: dict[str, Any], **settings: Any) -> str:
    """``h`` or ``p`` for each note that leads on."""
    found = []
    for event in events(block, **settings):
        leads = [mark.technique.form for mark in event.notes[0].marks if mark.role.value == "start"]
        found.append(leads[0] if leads else ".")
    return "".join(found)


# Strokes as methods for the pick print them: down on the beat, up between; the gallop down down up; triplets in turn (common practice, from
# memory, no source).
SWINGING = [
    ("q q q q", "dddd", {}),
    ("e*8", "dudududu", {}),
    ("s*16", "du" * 8, {}),
    ("e s s e s s e s s e s s", "ddu" * 4, {}),
    ("s s e s s e s s e s s e", "dud" * 4, {}),
    ("e q e h", "duud", {}),
    ("q. e h", "dud", {}),
    ("3(e e e) 3(e e e) 3(e e e) q", "dududududd", {}),
    ("e*6", "dududu", {"meter": "6/8"}),
    ("s*12", "du" * 6, {"meter": "6/8"}),
    ("e e e e e e e", "dududud", {"meter": "2+2+3/8"}),
]


@pytest.mark.parametrize(("rhythm", "usual", "settings"), SWINGING)
def test_alternate_strokes_swing_with_the_beat(rhythm: str, usual: str, settings: dict[str, Any]) -> None:
    rows = {"rhythm": [rhythm], "notes": [f"E3*{len(usual)}"]}
    assert strokes(riff(rows), strokes="alternate", **settings) == usual


def test_a_rest_and_a_hold_let_the_hand_swing_on() -> None:
    rows = {"rhythm": ["e e e e e e e e"], "notes": ["E3 r E3 = r E3 E3 E3"]}
    assert strokes(riff(rows), strokes="alternate") == "ddudu"


def test_what_the_writer_says_stands() -> None:
    rows = {"rhythm": ["e e e e h"], "notes": ["E3 F3 G3 A3 E3"], "picks": [". d . p ."], "marks": ["h . . . tp3"]}
    assert strokes(riff(rows), strokes="alternate") == "ddd.."
    assert strokes(riff(rows)) == ".d..."
    assert strokes(riff(rows, strokes="written"), strokes="alternate") == ".d..."


def test_the_setting_of_a_block_goes_before_that_of_the_header() -> None:
    assert strokes({**RUN, "strokes": "economy"}, strokes="alternate") == "dud" * 3
    assert strokes(RUN, strokes="alternate") == "dudududud"


def test_legato_picks_the_first_note_on_a_string() -> None:
    assert slurs(RUN, strokes="legato") == "hh." * 3
    assert slurs({**RUN, "path": ["down"]}, strokes="legato") == "pp." * 3
    assert strokes(RUN, strokes="legato") == "." * 9


def test_legato_leaves_alone_what_cannot_be_slurred() -> None:
    def told(notes: str, **rows: str) -> str:
        count = len(notes.split())
        given = {"rhythm": [f"e*{count} q*{(8 - count) // 2}"], "notes": [notes + f" r*{(8 - count) // 2}"]}
        return slurs(riff(given | {word: [text + f" .*{(8 - count) // 2}"] for word, text in rows.items()}), strokes="legato")

    assert told("D4@3 E4@3 E4@3 D4@3") == "h.p."
    assert told("D4@3 r E4@3 D4@3") == ".p."
    assert told("D4@3 E4@2 D4@2 E4@2") == ".ph."
    assert told("D4@3 E4@3 D4@3 E4@3", picks=". d . .") == ".ph."
    assert told("D4@3 E4@3 D4@3 E4@3", marks="sl . t .") == "sl..."
    assert told("D4@3 E4@3 D4@3 E4@3", marks=". . . b1") == "hp.."


def fingers(rows: dict[str, Any]) -> str:
    found = [event.notes[0] for event in events(riff(rows), fingering="show")]
    return " ".join(f"{note.string}:{note.fret}={note.finger or 0}" for note in found)


# The barre of F sharp minor, the grip of C and that of G as charts finger them (common practice, from memory).
BROKEN = [
    ("F#2 C#3 F#3 A3 C#4 A3 F#3 C#3", "6:2=1 5:4=3 4:4=4 3:2=1 2:2=1 3:2=1 4:4=4 5:4=3"),
    ("C3 E3 G3 C4 E4 C4 G3 E3", "5:3=3 4:2=2 3:0=0 2:1=1 1:0=0 2:1=1 3:0=0 4:2=2"),
    ("G2 B2 D3 G3 B3 G4 B3 G3", None),
]


@pytest.mark.parametrize(("notes", "usual"), BROKEN)
def test_a_broken_chord_that_rings_is_held_as_a_chord(notes: str, usual: str | None) -> None:
    told = fingers({"rhythm": ["e*8"], "notes": [notes], "marks": ["lr -*7"]})
    assert usual is None or told == usual
    # Each string has one fret and each finger one place from the first note to the last.
    places = {each.split(":")[0]: each for each in told.split()}
    assert all(places[each.split(":")[0]] == each for each in told.split())
    held = [each.split("=") for each in set(told.split())]
    fretted = [(finger, place.split(":")[1]) for place, finger in held if finger != "0"]
    assert len({finger for finger, _ in fretted}) == len(set(fretted))


def test_what_cannot_ring_on_is_let_go_without_a_word() -> None:
    # Seven steps of a scale on six strings: something has to end.
    rows = {"rhythm": ["e*8"], "notes": ["E3 F3 G3 A3 B3 C4 D4 E4"], "marks": ["lr -*7"]}
    assert len(events(riff(rows))) == 8


def test_a_new_bar_and_a_new_chord_free_the_hand() -> None:
    def at_end(**rows: list[str]) -> str:
        return fingers({"rhythm": ["e e e e h", "w"], "notes": ["C3 E3 G3 C4 E4", "F2"], **rows}).split()[-1]

    held = at_end(marks=["lr - - - -", "-"])
    assert held == at_end()
