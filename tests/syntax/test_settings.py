"""Settings as they are read, each with the values that the reference shows and those at the edge of what it allows."""

from __future__ import annotations

from typing import Any

import pytest

from tests.syntax.reading import document, riff, run


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("title  Lantern  Bay: part 2", "Lantern  Bay: part 2"),
        ("subtitle see https://example.org/a", "see https://example.org/a"),
        ('author  the “Kiln” workshop "A // B"', 'the “Kiln” workshop "A // B"'),
        ("instrument  bass   guitar", "bass guitar"),
        ("tuning  drop D", "drop D"),
        ("tuning  E2 A2 D3 G3 B3 E4", ["E2", "A2", "D3", "G3", "B3", "E4"]),
        ("tuning  G4 C4 E4 A4", ["G4", "C4", "E4", "A4"]),
        ("capo  0", 0),
        ("capo  12", 12),
        ("scale  Bb2 lydian", {"root": "Bb2", "name": "lydian"}),
        ("scale  F##  Harmonic  minor", {"root": "F##", "name": "Harmonic minor"}),
        ("scale  D3 steps W W H W W W H", {"root": "D3", "steps": ["W", "W", "H", "W", "W", "W", "H"]}),
        ("scale  D3 steps W+H W+W", {"root": "D3", "steps": ["W+H", "W+W"]}),
        ('scale  D3 "Kiln fire" semitones 0 2 11', {"root": "D3", "name": "Kiln fire", "semitones": [0, 2, 11]}),
        ("scale  D3 degrees 1 2 3 #4 5 6 b7", {"root": "D3", "degrees": ["1", "2", "3", "#4", "5", "6", "b7"]}),
        ("meter  4/4", "4/4"),
        ("meter  3+2+2/8", "3+2+2/8"),
        ("tempo  96", {"bpm": 96}),
        ("tempo  96.5", {"bpm": 96.5}),
        ("tempo  q.=60", {"bpm": 60, "beat": "q."}),
        ('tempo  "Slowly // swung" q=60', {"bpm": 60, "beat": "q", "words": "Slowly // swung"}),
        ("pickup  e+s..", "e+s.."),
        ("swing  e", {"value": "e"}),
        ("swing  s 3:2", {"value": "s", "ratio": [3, 2]}),
        ("swing  off", "off"),
        ("keys  F Bb2 C#", ["F", "Bb2", "C#"]),
        ("keys  fifths", "fifths"),
    ],
)
def test_settings_of_the_header(line: str, value: Any) -> None:
    assert document(line)[line.split(maxsplit=1)[0]] == value


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("layout  3 per string from string 6", {"kind": "per string", "count": 3, "from": 6}),
        ("layout  2 per string from string 6 fret 5 to string 3", {"kind": "per string", "count": 2, "from": 6, "to": 3, "fret": 5}),
        ("layout  3 per string from string 6 degree b3", {"kind": "per string", "count": 3, "from": 6, "degree": "b3"}),
        ("layout  diagonal from string 6", {"kind": "diagonal", "from": 6}),
        ("layout  diagonal from string 5 degree 5 to string 2", {"kind": "diagonal", "from": 5, "to": 2, "degree": "5"}),
        ("layout  fragment 3 per string from string 6 fret 5", {"kind": "fragment", "count": 3, "from": 6, "fret": 5}),
        ("layout  shape E", {"kind": "shape", "shape": "E"}),
        ("layout  shape C fret 12", {"kind": "shape", "shape": "C", "fret": 12}),
        ("layout  position 0", {"kind": "position", "fret": 0}),
        ("layout  string 12", {"kind": "string", "string": 12}),
        ("layout  open", {"kind": "open"}),
        ("layout  free", {"kind": "free"}),
        ("path  up, down", ["up", "down"]),
        ("path  up down,up", ["up", "down", "up"]),
        ("order  1 2 3 4", [1, 2, 3, 4]),
        ("tones  1 3 #4 5", ["1", "3", "#4", "5"]),
        ("from  _5", "_5"),
        ("to  12", "12"),
        ("octaves  8", 8),
        ("rhythm  3( e e e )*2 q", "3(e e e)*2 q"),
        ("marks  pm - h", "pm - h"),
        ("fingers  1 2 4", "1 2 4"),
        ("picks  d u*3", "d u*3"),
        ("finish  rest", "rest"),
    ],
)
def test_lines_of_a_run(line: str, value: Any) -> None:
    (block,) = document(run(line))["blocks"]
    assert block[line.split(maxsplit=1)[0]] == value


def test_settings_of_a_block_are_its_own() -> None:
    study = document("scale C3 major\n" + run("scale D3 dorian", "text one", "text", "text two"))
    assert study["scale"]["root"] == "C3"
    assert study["blocks"][0]["scale"] == {"root": "D3", "name": "dorian"}
    assert study["blocks"][0]["text"] == ["one", "", "two"]


def test_the_header_may_be_indented() -> None:
    assert document("  title Bay\n\tcapo 2\n") == {"study": 1, "title": "Bay", "capo": 2, "blocks": []}


def test_blocks_with_and_without_a_name() -> None:
    study = document('run\nriff "A // B"\n  degrees 1\ntext\n  one\n\n\n  two (2)\n\ntext ""\n')
    assert study["blocks"] == [
        {"kind": "run"},
        {"kind": "riff", "name": "A // B", "systems": [{"degrees": ["1"]}]},
        {"kind": "text", "lines": ["one", "", "", "two (2)"]},
        {"kind": "text", "name": "", "lines": []},
    ]


def test_a_text_is_a_block_at_the_margin_with_a_name_and_a_setting_otherwise() -> None:
    assert document('text Play it "slowly"\ntext "Play" it\n')["text"] == ['Play it "slowly"', '"Play" it']
    assert document('text "Play it"\n  slowly\n')["blocks"] == [{"kind": "text", "name": "Play it", "lines": ["slowly"]}]
    assert document(riff('text "Play it"', "degrees 1"))["blocks"][0]["text"] == ['"Play it"']
    assert document('  text "Play it"\n')["text"] == ['"Play it"']


def test_an_empty_text_is_an_empty_study() -> None:
    assert document("") == document("\n \t\n\n") == {"study": 1, "blocks": []}
