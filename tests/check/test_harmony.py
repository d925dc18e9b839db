# ruff: noqa: E501  # tables are read by their columns
"""Advice about harmony and the ear, and how it is allowed. What is advised against is common practice, no source."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Final

import pytest

from tabforge.check.listening import strong_onsets
from tabforge.diagnostics.catalogue import CODES
from tabforge.diagnostics.core import Severity
from tabforge.model.meter import Meter
from tabforge.pipeline import Outcome, build, study_from
from tabforge.writers import WRITERS

EXAMPLES: Final = sorted((Path(__file__).parents[2] / "examples").glob("*.riff"))
EAR: Final = {"A540", "A541", "A542", "A543", "A544"}


def outcome(text: str, name: str = "sluice.riff") -> Outcome:
    return study_from(name, text.encode())


def codes(text: str) -> list[str]:
    return [each.code.id for each in outcome(text).diagnostics]


def riff(rows: str, scale: str = "C3 major", header: str = "", block: str = "") -> str:
    settings = f"  {block}\n" if block else ""
    return f'scale {scale}\n{header}\nriff "Sluice"\n{settings}' + "".join(f"  {row}\n" for row in rows.split("\n"))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_examples_say_what_they_name(path: Path) -> None:
    found = study_from(path.name, path.read_bytes())
    assert not {each.code.id for each in found.diagnostics} & EAR


@pytest.mark.parametrize(("rows", "scale", "earned"), [
    # A chromatic note goes on by a step: passing note, neighbour, approach from two sides, a chain of half steps.
    ("rhythm q q q q\ndegrees 1 b3 3 1", "C3 major", []),
    ("rhythm q q q q\ndegrees 5 b6 5 1", "C3 major", []),
    ("rhythm q q q q\ndegrees 3 b3 2 1", "C3 major", []),
    ("rhythm q q q q\ndegrees 5 #4 n4 3", "C3 major", []),
    ("rhythm q q h\ndegrees 2 b2 1", "C3 major", []),
    ("rhythm q q q q\ndegrees 1 b3 6 1", "C3 major", ["A541"]),
    ("rhythm q q h\ndegrees 1 3 b7", "C3 major", ["A541"]),
    # The same note again is no step, and does not take it away.
    ("rhythm q q q q\ndegrees 1 b3 b3 3", "C3 major", []),
    ("rhythm q q q q\ndegrees 1 b3 b3 6", "C3 major", ["A541", "A541"]),
    ("rhythm q q q q\ndegrees 1 b3 x@4 3", "C3 major", []),
    ("rhythm q q q q\ndegrees 1 b3 r 3", "C3 major", []),
    # A tone of the chord that is named belongs to it; the chord before does not help.
    ("chords E7 . Am .\nrhythm q q q q\nnotes E3 G#3 C4 A3", "A2 natural minor", []),
    ("chords Am . E7 .\nrhythm q q q q\nnotes E3 G#3 C4 E4", "A2 natural minor", ["A541"]),
    # The next note on its string leads on, as in an arpeggio.
    ("rhythm q q q q\nfrets 4:1 3:0 1:0 4:2", "C3 major", []),
    ("rhythm q q q q\nfrets 4:1 3:0 1:0 4:5", "C3 major", ["A541"]),
    # Where there is no pitch of its own, or it is bent, nothing is said.
    ("rhythm q q h\nfrets 4:1 3:0 1:0\nmarks x . .", "C3 major", []),
    ("rhythm h h\nfrets 3:8 1:0\nmarks b1/2 .", "C3 major", []),
])  # fmt: skip
def test_chromatic_notes(rows: str, scale: str, earned: list[str]) -> None:
    assert codes(riff(rows, scale)) == earned


def test_a_repeated_cell_is_told_once() -> None:
    assert codes(riff("rhythm h h | h h\ndegrees 1 b3 | %", "C3 major")) == ["A541"]


LYDIAN: Final = "rhythm e*8\ndegrees 1 3 5 3 8 7 5 3"


def test_a_header_s_scale_is_looked_for_in_all_its_blocks() -> None:
    assert codes(riff(LYDIAN, "F3 lydian")) == ["A542"]
    assert codes(riff(LYDIAN, "F3 lydian") + '\nriff "Bank"\n  rhythm h h\n  degrees #4 5\n') == []
    assert codes(riff(LYDIAN, "F3 lydian") + '\nriff "Bank"\n  scale F3 lydian\n  rhythm h h\n  degrees #4 5\n') == ["A542"]


@pytest.mark.parametrize("scale", ["F3 major", "F3 natural minor", "F3 minor pentatonic", 'F3 "Kiln" degrees 1 2 3 #4 5 6 7'])
def test_scales_without_a_colour_of_their_own_or_without_a_name_are_left_alone(scale: str) -> None:
    assert "A542" not in codes(riff("rhythm e*8\ndegrees 1 5 1 5 8 5 8 1", scale))


def test_a_few_notes_say_nothing_yet() -> None:
    assert codes(riff("rhythm q q h\ndegrees 1 3 5", "F3 lydian")) == []


@pytest.mark.parametrize(("rows", "earned"), [
    ("rhythm q q q q | q q q q\ndegrees 2 1 4 3 | 5 6 7 6", ["A543"]), ("rhythm q q q q | q q q q\ndegrees 2 4 1 3 | 5 6 7 6", []),
    ("rhythm q q q q | q q q q\ndegrees 2 3 4 1 | = 6 7 6", []), ("rhythm q q q q | q q q q\ndegrees 1+3 4 2 3 | 5 6 7 6", []),
    ("rhythm q q q q q q q q\ndegrees 2 1 4 3 5 6 7 6", []),
])
def test_the_root_on_strong_beats(rows: str, earned: list[str]) -> None:
    header = "meter 8/4\n" if "|" not in rows else ""
    assert codes(riff(rows, "C3 major", header)) == earned


def test_a_run_goes_where_its_layout_takes_it() -> None:
    assert codes("scale C3 major\n\nrun\n  layout position 5\n  from 5\n  rhythm q\n") == []


@pytest.mark.parametrize(("meter", "strong"), [
    (Meter(groups=(4,), unit=4), {0, 960}), (Meter(groups=(3,), unit=4), {0}), (Meter(groups=(2,), unit=4), {0}), (Meter(groups=(6,), unit=8), {0, 720}),
    (Meter(groups=(3, 3, 2), unit=8), {0, 720, 1440}), (Meter(groups=(5,), unit=4), {0}), (Meter(groups=(12,), unit=8), {0, 720, 1440, 2160}),
])
def test_strong_beats(meter: Meter, strong: set[int]) -> None:
    assert strong_onsets(meter, 480) == strong


@pytest.mark.parametrize(("chords", "scale", "earned"), [
    ("F G7 C F", "F3 lydian", ["A544"]), ("F G7 F C", "F3 lydian", []), ("F G C F", "F3 lydian", []), ("Dm G7 Dm G7", "D3 dorian", []), ("Dm G7 Cmaj7 Dm", "D3 dorian", ["A544"]),
    ("Em Bdim C Em", "E3 phrygian", ["A544"]), ("C G7 C F", "C3 major", []), ("Am G7 C Am", "A2 natural minor", []), ("E G#dim7 Am E", "E3 phrygian dominant", ["A544"]),
    ("F G/F F C", "F3 lydian", []),
])
def test_progressions_that_lead_away(chords: str, scale: str, earned: list[str]) -> None:
    assert codes(riff(f"chords {chords}\nrhythm q q q q\ndegrees 1 2 5 1", scale)) == earned


def test_too_many_notes_outside() -> None:
    assert "A540" in codes(riff("rhythm e*8\ndegrees 1 b2 1 b2 1 b2 1 b2", "C3 major"))
    assert "A540" not in codes(riff("rhythm e*8\ndegrees 1 b2 1 2 3 4 5 1", "C3 major"))


def test_another_key_is_not_judged_again() -> None:
    assert codes(riff(LYDIAN, "F3 lydian", "keys fifths\n")) == ["A542"]


def test_the_handbook_tells_every_code_of_the_ear() -> None:
    handbook = (Path(__file__).parents[2] / "tabforge" / "handbook" / "language.md").read_text(encoding="utf-8")
    rows = [line.split("`")[1] for line in handbook.partition("\n## Advice\n")[2].splitlines() if line.startswith("| `A")]
    assert set(rows) == EAR
    assert all(CODES[code].severity is Severity.ADVICE for code in rows)


# What is allowed

UNHEARD: Final = riff(LYDIAN, "F3 lydian")


def test_advice_is_allowed_in_the_header_or_in_its_block() -> None:
    chromatic = "rhythm q q q q\ndegrees 1 b3 6 1"
    assert codes(riff(chromatic, header="allow A541\n")) == []
    assert codes(riff(chromatic, block="allow A541")) == []
    assert codes(riff(chromatic, block="allow A543")) == ["A541"]
    twice = riff(chromatic, block="allow A541") + '\nriff "Bank"\n' + "".join(f"  {row}\n" for row in chromatic.split("\n"))
    assert codes(twice) == ["A541"]


def test_any_advice_can_be_allowed_and_what_a_format_cannot_hold_too() -> None:
    text = 'riff "Bench vice"\n{}  rhythm   h    h\n  frets    5:3  5\n  marks    tr5  .\n'
    assert "A550" in {each.code.id for each in build("a.riff", text.format("").encode(), ["musicxml"]).outcome.diagnostics}
    assert build("a.riff", text.format("  allow A550\n").encode(), ["musicxml"]).outcome.diagnostics == ()
    assert build("a.riff", ("allow A550\n\n" + text.format("")).encode(), ["musicxml"]).outcome.diagnostics == ()


@pytest.mark.parametrize("code", [each for each in CODES.values() if each.severity is Severity.ADVICE and each.id[0] != "B"], ids=lambda code: code.id)
def test_every_code_of_advice_can_be_allowed(code: object) -> None:
    wrong, name = str(getattr(code, "wrong", "")), str(getattr(code, "id", ""))
    if wrong[:1] == "{":
        document = json.loads(wrong)
        document["allow"] = [name]
        found = build("a.json", json.dumps(document).encode(), WRITERS).outcome
    else:
        found = build("a.riff", f"allow {name}\n{wrong}".encode(), WRITERS).outcome
    assert name not in {each.code.id for each in found.diagnostics}
    assert not found.failed


@pytest.mark.parametrize(("text", "headline", "suggestion"), [
    ("A549", "there is no advice A549", "A54"), ("N401", "N401 is an error, and only advice can be allowed", None), ("Z999", "there is no advice Z999", None),
])  # fmt: skip
def test_a_code_that_cannot_be_allowed_is_an_error(text: str, headline: str, suggestion: str | None) -> None:
    for source in (outcome(riff("rhythm w\ndegrees 1", header=f"allow {text}\n")), outcome(riff("rhythm w\ndegrees 1", block=f"allow {text}"))):
        (found,) = source.diagnostics
        assert (found.code.id, found.headline) == ("M364", headline)
        assert (found.suggestion or "").startswith(suggestion or "")
        assert bool(found.suggestion) == bool(suggestion)
        assert source.source.text[found.span.start : found.span.end] == text
        assert source.failed


def test_an_error_is_not_silenced_by_naming_it() -> None:
    assert "M364" in codes(riff("rhythm w\ndegrees 1", header="allow M301\n"))


@pytest.mark.parametrize(("text", "near"), [("a541", "A541"), ("A541, A543", "A541"), ("A54", "A54"), ("colour", None)])
def test_what_is_no_code_is_told_the_nearest(text: str, near: str | None) -> None:
    found = outcome(riff("rhythm w\ndegrees 1", header=f"allow {text}\n")).diagnostics
    assert found
    assert all(each.is_error for each in found)
    assert (found[0].suggestion or "").startswith(near or "")


def test_json_says_it_alike() -> None:
    document = {"study": 1, "scale": {"root": "C3", "name": "major"}, "blocks": [{"kind": "riff", "allow": ["A541"], "systems": [{"rhythm": ["q q h"], "degrees": ["1 b3 6"]}]}]}
    assert outcome(json.dumps(document), "a.json").diagnostics == ()
    document["allow"] = ["A777"]
    (found,) = outcome(json.dumps(document), "a.json").diagnostics
    assert found.pointer == "/allow/0"
