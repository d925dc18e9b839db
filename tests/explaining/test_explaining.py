# ruff: noqa: E501  # tables are read by their columns
"""What explanations say, as data and as text. Facts of harmony are common practice, no source, unless a line says otherwise."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any, Final, get_type_hints

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from tabforge import schema
from tabforge.explaining import facts
from tabforge.explaining.asked import chord_asked, facts_of, scale_asked
from tabforge.explaining.chord_text import chord_text, spoken
from tabforge.explaining.chords import chord_facts
from tabforge.explaining.layout import WIDTH, counted, listed, table
from tabforge.explaining.rendered import rendered
from tabforge.explaining.scale_text import scale_text
from tabforge.explaining.scales import scale_facts
from tabforge.explaining.studies import beat_text, study_facts
from tabforge.explaining.study_text import study_text
from tabforge.model.meter import Meter
from tabforge.model.pitch import STEPS, Pitch
from tabforge.model.score import BACKINGS, Backing
from tabforge.pipeline import study_from
from tabforge.theory.labels import read_label
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale, scale_from_semitones

EXAMPLES: Final = sorted((Path(__file__).parents[2] / "examples").glob("*.riff"))
SCHEMA: Final = schema.load("explanation")
GUARD: Final = Draft202012Validator(SCHEMA)

STUDY: Final = """\
title    Tide gate
scale    F3 lydian

riff "Sluice"
  chords   F    .  .  .   | G7   .   C    .
  rhythm   q    q  q  q   | q    q   e  e q
  degrees  1    #4 5  b3  | 2    x@4 5  = 8
  marks    .    h  .  .   | .    .   .  . v

run "Bank"
  layout   position 5
  rhythm   e
"""


def told(text: str, name: str = "gate.riff") -> facts.StudyFacts:
    outcome = study_from(name, text.encode())
    assert outcome.score is not None, outcome.diagnostics
    return study_facts(outcome.score)


def lines(text: str) -> dict[str, str]:
    """What stands beside each word."""
    found: dict[str, str] = {}
    for line in text.split("\n"):
        word, _, said = line.strip().partition("  ")
        if said:
            found.setdefault(word, said.strip())
    return found


def test_a_mode_says_what_to_stay_on_and_what_to_leave_alone() -> None:
    scale = scale_asked("Bb lydian")
    assert scale is not None
    said = lines(scale_text(scale_facts(scale)))
    assert said["Notes"] == "Bb C D E F G A"
    assert said["Colour"] == "#4 (E): what sets it apart from Bb major"
    assert said["Tritone"] == "Bb and E: Bb pulls to A and E pulls to F, home of F major"
    assert said["Stay on"] == "I (Bb, Bbmaj7)"
    assert said["Colour with"] == "II (C), vii (Am, Am7)"
    assert said["Leave alone"] == "V (F, Fmaj7), the home of F major; iv° (Edim, Em7b5), II7 (C7), which pull there"
    assert said["Vamp"] == "I II: Bb C"
    assert said["4"] if "4" in said else said["#4"] == "iv°      Edim   Em7b5    Em7b5b9"


def test_a_scale_whose_home_pulls_is_told_to_have_a_drone() -> None:
    scale = scale_asked("B locrian")
    assert scale is not None
    assert "a drone on B holds it" in " ".join(scale_text(scale_facts(scale)).split())
    assert not scale_facts(scale_asked("B dorian") or scale)["home_pulls"]


def test_plain_major_leads_home_and_has_nothing_to_leave_alone() -> None:
    scale = scale_asked("C major")
    assert scale is not None
    said = lines(scale_text(scale_facts(scale)))
    assert said["Leads home"] == "vii° (Bdim, Bm7b5), V7 (G7)"
    assert "Leave alone" not in said


def test_stacks_without_a_usual_name_say_so() -> None:
    scale = scale_asked("C double harmonic")
    assert scale is not None
    text = scale_text(scale_facts(scale))
    assert "(1 bb3 b5)" in text
    assert "Db7/B (1 bb3 b5 bb7)" in text
    assert "make no usual chord" in text
    assert "make no usual chord" not in scale_text(scale_facts(scale_asked("C dorian") or scale))


@pytest.mark.parametrize(("words", "scale", "numeral", "outside"), [
    ("Dm7 in C major", "C major", "ii7", []), ("E7 in A minor", "A minor", "V7", ["G#"]), ("C/E in G major", "G major", "IV/6", []),
    ("ii7 in Bb lydian", "Bb lydian", "ii7", ["Eb"]), ("G7", None, None, None),
])
def test_a_chord_in_a_key(words: str, scale: str | None, numeral: str | None, outside: list[str] | None) -> None:
    asked = chord_asked(words)
    assert asked is not None
    found = chord_facts(*asked)["asked"]
    assert (found and found["scale"], found and found["numeral"], found and found["outside"]) == (scale, numeral, outside)


def test_a_chord_that_leads_elsewhere_says_where() -> None:
    asked = chord_asked("D7 in C major")
    assert asked is not None
    assert lines(chord_text(chord_facts(*asked)))["In C major"] == "II7, or V7/V; but F# is not in the scale"


def test_a_minor_key_may_go_to_its_relative() -> None:
    """What a mode had better leave alone only leans away in plain minor."""
    said = lines(scale_text(scale_facts(scale_asked("A minor") or scale_asked("C major"))))  # type: ignore[arg-type]  # both are scales
    assert "Leave alone" not in said
    assert said["Leans away"].startswith("III (C, Cmaj7), the home of C major")
    assert "Leaning away" not in study_text(told(STUDY.replace("F3 lydian", "D3 natural minor").replace("G7", "C7")))


@pytest.mark.parametrize("words", ["", "in", "Dm7 in", "in C major", "Dm7 in Q major", "ii7", "N.C.", "lydian", "H7"])
def test_what_is_no_chord_is_none(words: str) -> None:
    assert chord_asked(words) is None


def test_the_keys_of_a_chord() -> None:
    """A dominant seventh is the V of one major key; a minor seventh is ii, iii and vi of three (any handbook of harmony)."""
    seventh, minor = (chord_asked(words) for words in ("G7", "Dm7"))
    assert seventh is not None
    assert minor is not None
    assert [(key["numeral"], key["scale"]) for key in chord_facts(*seventh)["keys"]] == [
        ("V7", "C major"), ("VII7", "A natural minor"), ("V7", "C harmonic minor"),
    ]  # fmt: skip
    majors = [(key["numeral"], key["scale"]) for key in chord_facts(*minor)["keys"] if key["scale"].endswith("major")]
    assert sorted(majors) == [("ii7", "C major"), ("iii7", "Bb major"), ("vi7", "F major")]


@pytest.mark.parametrize(("label", "said"), [
    ("1", "root"), ("b3", "minor third"), ("5", "perfect fifth"), ("b5", "diminished fifth"), ("#5", "augmented fifth"), ("bb7", "diminished seventh"),
    ("b9", "minor ninth"), ("#11", "augmented eleventh"), ("6", "major sixth"), ("4", "perfect fourth"),
])  # fmt: skip
def test_intervals_are_called_as_the_trade_calls_them(label: str, said: str) -> None:
    assert spoken(read_label(label)) == said


def test_a_block_tells_what_is_heard_where() -> None:
    sluice, bank = told(STUDY)["blocks"]
    (stretch,) = sluice["stretches"]
    assert (sluice["name"], sluice["bars"], sluice["notes"]) == ("Sluice", 2, 7)
    assert stretch["scale"] == "F lydian"
    assert stretch["characteristic"] == [{"degree": "#4", "note": "B", "times": 1, "bar": 1, "beat": "2"}]
    assert stretch["outside"] == [{"degree": "b3", "note": "Ab", "times": 1, "bar": 1, "beat": "4"}]
    assert [(each["chord"], each["numeral"], each["role"], each["bar"]) for each in stretch["chords"]] == [
        ("F", "I", "home", 1), ("G7", "II7", "pull", 2), ("C", "V", "parent", 2),
    ]  # fmt: skip
    assert sluice["techniques"] == [{"name": name, "times": 1} for name in ("hammer-on", "dead note", "vibrato")]
    assert (sluice["lowest"], sluice["highest"]) == ("F3", "F4")
    low, high = bank["frets"]
    assert 4 <= low <= high <= 9  # a hand in fifth position, one fret of stretch either way


def test_the_text_of_a_block() -> None:
    said = lines(study_text(told(STUDY)))
    assert said["Colour"] == "#4 (B) once, first in bar 1 on beat 2"
    assert said["Outside it"] == "Ab (b3) once, bar 1"
    assert said["Chords"] == "F (I)  G7 (II7)  C (V)"
    assert said["Leaning away"] == "G7, toward C major"


def test_a_characteristic_tone_that_is_missing_is_told() -> None:
    assert "#4 (B) is not heard" in study_text(told(STUDY.replace("#4", "3")))


def test_second_parts_are_told() -> None:
    outcome = study_from("gate.riff", STUDY.encode())
    assert outcome.score is not None
    first = outcome.score.sections[0]
    under = tuple(Backing(kind=kind, bars=()) for kind in BACKINGS)
    found = study_facts(replace(outcome.score, sections=(replace(first, backing=under),)))
    assert found["blocks"][0]["second_parts"] == list(BACKINGS)
    assert lines(study_text(found))["Under it"] == "a drone and a vamp"
    assert "Under it" not in study_text(told(STUDY))
    assert SCHEMA["$defs"]["block"]["properties"]["second_parts"]["items"]["enum"] == list(BACKINGS)
    valid([found])


def test_a_pickup_is_counted_to_its_bar_line() -> None:
    (block,) = told('scale C3 lydian\npickup q\n\nriff "Late"\n  rhythm   q  | w\n  degrees  #4 | 5\n')["blocks"]
    assert block["stretches"][0]["characteristic"][0]["beat"] == "4"


def test_a_study_in_several_keys_is_told_once() -> None:
    found = told('scale C3 dorian\nkeys fifths\n\nriff "Round"\n  rhythm   q q h\n  degrees  1 6 8\n')
    assert [block["name"] for block in found["blocks"]] == ["Round in C dorian"]
    assert len(found["keys"]) == 12


def test_a_study_of_words_alone_says_that_nothing_is_played() -> None:
    assert "Nothing is played in it." in study_text(told('title Words\n\ntext "Before"\n  Tune up.\n'))


@pytest.mark.parametrize(("meter", "onset", "said"), [
    (Meter(groups=(4,), unit=4), 0, "1"), (Meter(groups=(4,), unit=4), 720, "2 1/2"), (Meter(groups=(6,), unit=8), 720, "2"), (Meter(groups=(6,), unit=8), 240, "1 1/3"),
    (Meter(groups=(3, 3, 2), unit=8), 1440, "3"),
])
def test_beats_are_counted_as_a_player_counts(meter: Meter, onset: int, said: str) -> None:
    assert beat_text(meter, onset, 480) == said


# The JSON and its schema


def valid(found: Any) -> None:
    GUARD.validate(json.loads(rendered(found, "1.2.3")))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_is_explained(path: Path) -> None:
    found = told(path.read_text(encoding="utf-8"), path.name)
    valid([found])
    text = study_text(found)
    assert all(len(line) <= WIDTH for line in text.split("\n"))
    assert all(block["name"] in text for block in found["blocks"])


@pytest.mark.parametrize("kind", SCALES, ids=lambda kind: kind.name)
def test_every_scale_is_explained(kind: object) -> None:
    for root in (Pitch("C", 0, 3), Pitch("F", 1, 3)):
        scale = named_scale(root, getattr(kind, "name", ""))
        assert scale is not None
        found = scale_facts(scale)
        valid([found])
        text = scale_text(found)
        assert not text.endswith("\n")
        assert all(len(line) <= WIDTH + 40 and line == line.rstrip() for line in text.split("\n"))


@given(st.sets(st.integers(1, 11), max_size=11), st.builds(Pitch, st.sampled_from(STEPS), st.integers(-1, 1), st.just(3)))
def test_every_scale_of_ones_own_is_explained(semitones: set[int], root: Pitch) -> None:
    scale = scale_from_semitones(root, {0, *semitones})
    assert scale is not None
    found = scale_facts(scale)
    valid([found])
    assert scale_text(found)


@given(st.sampled_from(STEPS), st.sampled_from(["", "b", "#"]), st.sampled_from(["", "m7", "7#9", "sus4", "5", "6/9", "dim7", "13", "alt", "maj7#11"]), st.sampled_from(["", "/E", "/Ab"]))
def test_every_chord_is_explained(step: str, sign: str, suffix: str, bass: str) -> None:
    (found,) = facts_of(f"{step}{sign}{suffix}{bass}")
    assert found["explains"] == "chord"
    valid([found])
    assert chord_text(found)


def test_the_schema_and_the_types_have_the_same_keys() -> None:
    pairs = {
        "tone": facts.Tone, "mode": facts.Mode, "tritone": facts.Tritone, "stack": facts.Stack, "degreeChords": facts.Degree, "said": facts.Said, "scale": facts.ScaleFacts,
        "key": facts.Key, "chord": facts.ChordFacts, "heard": facts.Heard, "blockChord": facts.BlockChord, "stretch": facts.Stretch, "technique": facts.Count,
        "block": facts.BlockFacts, "study": facts.StudyFacts, "page": facts.PageFacts,
    }
    objects = {name for name, node in SCHEMA["$defs"].items() if node.get("type") == "object"}
    assert objects == set(pairs)
    for name, made in pairs.items():
        node = SCHEMA["$defs"][name]
        assert set(node["properties"]) == set(node["required"]) == set(get_type_hints(made)), name
        assert node["additionalProperties"] is False


@pytest.mark.parametrize("spoil", [
    lambda found: found.pop("vamp"), lambda found: found.update(more=1), lambda found: found["notes"].append("H"), lambda found: found.update(fifths=8),
])
def test_the_schema_refuses_what_is_not_so(spoil: Callable[[Any], Any]) -> None:
    found: Any = json.loads(rendered(facts_of("Bb lydian"), "1"))
    spoil(found["found"][0])
    assert not GUARD.is_valid(found)


def test_layout() -> None:
    assert listed(["a", "b", "c"]) == "a, b and c"
    assert listed(["a"]) == "a"
    assert [counted(times) for times in (1, 2, 3)] == ["once", "twice", "3 times"]
    assert table([("One", "Two", "Three"), ("a", "", "b")], indent=0) == ["One  Three", "a    b"]


def test_bars_are_called_as_they_are_printed_where_one_says_so() -> None:
    found = told(STUDY)
    printed = [[f"{name}{bar}" for bar in range(1, block["bars"] + 1)] for name, block in zip("xyz", found["blocks"], strict=False)]
    said = lines(study_text(found, printed))
    assert (said["Colour"], said["Outside it"]) == ("#4 (B) once, first in bar x1 on beat 2", "Ab (b3) once, bar x1")
