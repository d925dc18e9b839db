"""Instruments and tunings: open strings with their MIDI numbers, names, and music21's own tables."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import instrument as m21_instrument

from tabforge.fretboard.instruments import INSTRUMENTS, find_instrument, find_tuning, instrument_names, tuning_of, tunings_of
from tabforge.fretboard.tunings import TUNINGS
from tabforge.limits import MAX_STRINGS, MIN_STRINGS
from tabforge.model.pitch import parse_pitch
from tabforge.theory.names import fold

# Open strings from string 1 with MIDI numbers, C4 = 60: handbook values (any table of MIDI note numbers; from memory).
OPEN_STRINGS = {
    ("guitar", "standard"): [("E4", 64), ("B3", 59), ("G3", 55), ("D3", 50), ("A2", 45), ("E2", 40)],
    ("guitar", "drop D"): [("E4", 64), ("B3", 59), ("G3", 55), ("D3", 50), ("A2", 45), ("D2", 38)],
    ("guitar", "DADGAD"): [("D4", 62), ("A3", 57), ("G3", 55), ("D3", 50), ("A2", 45), ("D2", 38)],
    ("guitar", "open G"): [("D4", 62), ("B3", 59), ("G3", 55), ("D3", 50), ("G2", 43), ("D2", 38)],
    ("guitar", "half step down"): [("Eb4", 63), ("Bb3", 58), ("Gb3", 54), ("Db3", 49), ("Ab2", 44), ("Eb2", 39)],
    ("guitar", "drop C"): [("D4", 62), ("A3", 57), ("F3", 53), ("C3", 48), ("G2", 43), ("C2", 36)],
    ("seven-string guitar", "standard"): [("E4", 64), ("B3", 59), ("G3", 55), ("D3", 50), ("A2", 45), ("E2", 40), ("B1", 35)],
    ("eight-string guitar", "standard"): [
        ("E4", 64), ("B3", 59), ("G3", 55), ("D3", 50), ("A2", 45), ("E2", 40), ("B1", 35), ("F#1", 30),
    ],
    ("bass", "standard"): [("G2", 43), ("D2", 38), ("A1", 33), ("E1", 28)],
    ("five-string bass", "standard"): [("G2", 43), ("D2", 38), ("A1", 33), ("E1", 28), ("B0", 23)],
    ("six-string bass", "standard"): [("C3", 48), ("G2", 43), ("D2", 38), ("A1", 33), ("E1", 28), ("B0", 23)],
    ("ukulele", "standard"): [("A4", 69), ("E4", 64), ("C4", 60), ("G4", 67)],
    ("ukulele", "low G"): [("A4", 69), ("E4", 64), ("C4", 60), ("G3", 55)],
    ("baritone ukulele", "standard"): [("E4", 64), ("B3", 59), ("G3", 55), ("D3", 50)],
    ("mandolin", "standard"): [("E5", 76), ("A4", 69), ("D4", 62), ("G3", 55)],
    ("five-string banjo", "standard"): [("D4", 62), ("B3", 59), ("G3", 55), ("D3", 50), ("G4", 67)],
    ("tenor banjo", "standard"): [("A4", 69), ("D4", 62), ("G3", 55), ("C3", 48)],
}  # fmt: skip


@pytest.mark.parametrize(("instrument", "name"), OPEN_STRINGS)
def test_open_strings(instrument: str, name: str) -> None:
    tuning = find_tuning(INSTRUMENTS[instrument], name)
    assert tuning is not None
    assert tuning.name == name
    assert [(str(pitch), pitch.midi) for pitch in tuning.strings] == OPEN_STRINGS[instrument, name]
    assert str(tuning.open(1)) == OPEN_STRINGS[instrument, name][0][0]


KNOWN = {
    "classical guitar": m21_instrument.AcousticGuitar,
    "electric guitar": m21_instrument.ElectricGuitar,
    "bass": m21_instrument.ElectricBass,
    "mandolin": m21_instrument.Mandolin,
    "ukulele": m21_instrument.Ukulele,
    "tenor banjo": m21_instrument.Banjo,
}


@pytest.mark.parametrize(("name", "known"), KNOWN.items())
def test_open_strings_are_music21s(name: str, known: type[m21_instrument.Instrument]) -> None:
    assert [str(pitch) for pitch in reversed(INSTRUMENTS[name].tuning.strings)] == [str(pitch) for pitch in known().stringPitches]


# General MIDI level 1 sound set, programs counted from 1 (from memory; music21 counts from 0 and is asked below).
GENERAL_MIDI = {25: "Acoustic Guitar (nylon)", 26: "Acoustic Guitar (steel)", 28: "Electric Guitar (clean)",
                34: "Electric Bass (finger)", 106: "Banjo"}  # fmt: skip


def test_programs_are_plucked_sounds_of_general_midi() -> None:
    assert {instrument.program for instrument in INSTRUMENTS.values()} == set(GENERAL_MIDI)
    assert INSTRUMENTS["bass"].program == m21_instrument.ElectricBass().midiProgram + 1
    assert INSTRUMENTS["five-string banjo"].program == m21_instrument.Banjo().midiProgram + 1
    assert INSTRUMENTS["classical guitar"].program == m21_instrument.AcousticGuitar().midiProgram + 1


@pytest.mark.parametrize(
    ("written", "name"),
    [
        ("Guitar", "guitar"),
        ("bass guitar", "bass"),
        ("4-string bass", "bass"),
        ("7-String Guitar", "seven-string guitar"),
        ("seven string guitar", "seven-string guitar"),
        ("8 string", "eight-string guitar"),
        ("12-string guitar", "twelve-string guitar"),
        ("5-string bass", "five-string bass"),
        ("UKE", "ukulele"),
        ("Banjo", "five-string banjo"),
    ],
)
def test_instruments_by_other_names(written: str, name: str) -> None:
    found = find_instrument(written)
    assert found is not None
    assert found.name == name
    assert found is INSTRUMENTS[name]


@pytest.mark.parametrize(
    ("instrument", "written", "name"),
    [
        ("guitar", "drop-d", "drop D"),
        ("guitar", "Standard tuning", "standard"),
        ("guitar", "dadgad", "DADGAD"),
        ("guitar", "DADF#AD", "open D"),
        ("guitar", "drop c sharp", "drop C#"),
        ("guitar", "Drop D♭", "drop C#"),
        ("guitar", "Eb", "half step down"),
        ("guitar", "E flat standard", "half step down"),
        ("bass", "bead", "BEAD"),
        ("ukulele", "high G", "standard"),
        ("five-string banjo", "open G", "standard"),
    ],
)
def test_tunings_by_other_names(instrument: str, written: str, name: str) -> None:
    found = find_tuning(INSTRUMENTS[instrument], written)
    assert found is not None
    assert found.name == name


@pytest.mark.parametrize(("instrument", "written"), [("bass", "DADGAD"), ("guitar", "low G"), ("ukulele", "drop D"), ("guitar", "")])
def test_a_tuning_of_another_instrument_is_none(instrument: str, written: str) -> None:
    assert find_tuning(INSTRUMENTS[instrument], written) is None
    assert find_instrument("lyre") is None


# What a lowered tuning lowers, string by string from string 1 (the meaning of the names; common practice).
LOWERED = {
    ("guitar", "half step down"): [1] * 6,
    ("guitar", "whole step down"): [2] * 6,
    ("guitar", "drop D"): [0] * 5 + [2],
    ("guitar", "double drop D"): [2] + [0] * 4 + [2],
    ("guitar", "drop C#"): [1] * 5 + [3],
    ("guitar", "drop C"): [2] * 5 + [4],
    ("guitar", "drop B"): [3] * 5 + [5],
    ("guitar", "drop Bb"): [4] * 5 + [6],
    ("guitar", "drop A"): [5] * 5 + [7],
    ("guitar", "C# standard"): [3] * 6,
    ("guitar", "C standard"): [4] * 6,
    ("guitar", "B standard"): [5] * 6,
    ("seven-string guitar", "drop A"): [0] * 6 + [2],
    ("seven-string guitar", "half step down"): [1] * 7,
    ("seven-string guitar", "drop G#"): [1] * 6 + [3],
    ("seven-string guitar", "whole step down"): [2] * 7,
    ("seven-string guitar", "drop G"): [2] * 6 + [4],
    ("eight-string guitar", "drop E"): [0] * 7 + [2],
    ("eight-string guitar", "half step down"): [1] * 8,
    ("eight-string guitar", "whole step down"): [2] * 8,
    ("bass", "drop D"): [0] * 3 + [2],
    ("bass", "half step down"): [1] * 4,
    ("bass", "drop C#"): [1] * 3 + [3],
    ("bass", "whole step down"): [2] * 4,
    ("bass", "drop C"): [2] * 3 + [4],
    ("five-string bass", "half step down"): [1] * 5,
    ("five-string bass", "whole step down"): [2] * 5,
    ("six-string bass", "half step down"): [1] * 6,
    ("six-string bass", "whole step down"): [2] * 6,
    ("ukulele", "half step down"): [1] * 4,
    ("baritone guitar", "A standard"): [2] * 6,
}


@pytest.mark.parametrize(("instrument", "name"), LOWERED)
def test_lowered_tunings(instrument: str, name: str) -> None:
    tunings = tunings_of(INSTRUMENTS[instrument])
    standard, lowered = tunings["standard"], tunings[name]
    falls = [high.midi - low.midi for high, low in zip(standard.strings, lowered.strings, strict=True)]
    assert falls == LOWERED[instrument, name]


@pytest.mark.parametrize(
    ("name", "chord"),
    [
        # An open tuning sounds its chord: root, third and fifth as pitch classes (the meaning of the name).
        ("open D", {2, 6, 9}),
        ("open D minor", {2, 5, 9}),
        ("open E", {4, 8, 11}),
        ("open E minor", {4, 7, 11}),
        ("open G", {7, 11, 2}),
        ("open G minor", {7, 10, 2}),
        ("open A", {9, 1, 4}),
        ("open C", {0, 4, 7}),
        ("open C6", {0, 4, 7, 9}),
    ],
)
def test_open_tunings_sound_their_chord(name: str, chord: set[int]) -> None:
    assert {pitch.midi % 12 for pitch in tunings_of(INSTRUMENTS["guitar"])[name].strings} == chord


@pytest.mark.parametrize("strings", TUNINGS)
def test_the_table_is_sound(strings: str) -> None:
    rows = TUNINGS[strings]
    assert rows[0].name == "standard"
    names = [fold(name) for row in rows for name in (row.name, *row.others)]
    assert len(set(names)) == len(names)
    assert len({row.pitches for row in rows}) == len(rows)
    assert len({len(row.pitches.split()) for row in rows}) == 1
    assert all(parse_pitch(text) for row in rows for text in row.pitches.split())


@pytest.mark.parametrize("name", INSTRUMENTS)
def test_an_instrument_is_sound(name: str) -> None:
    instrument = INSTRUMENTS[name]
    assert instrument.name == name
    assert MIN_STRINGS <= len(instrument.tuning) <= MAX_STRINGS
    assert instrument.tuning.name == "standard"
    assert tunings_of(instrument)["standard"] == instrument.tuning
    assert (instrument.clef, instrument.clef_line) in {("G", 2), ("F", 4)}
    # The middle of the neck's range lies near the written staff: within a tenth (16 half steps) of
    # its middle line, B4 or D3 as written (our own bound, to catch a wrong clef octave).
    written = [pitch.midi - 12 * instrument.clef_octave for pitch in instrument.tuning.strings]
    middle = (min(written) + max(written) + 12) / 2
    assert abs(middle - (71 if instrument.clef == "G" else 50)) <= 16


def test_no_name_stands_for_two_instruments() -> None:
    names = [fold(name) for name in instrument_names()]
    assert len(set(names)) == len(names)


@given(st.lists(st.sampled_from(["E2", "A2", "D3", "G3", "B3", "E4", "F#1", "Bb4"]), min_size=3, max_size=12))
def test_a_tuning_by_its_pitches_is_written_from_the_last_string(texts: list[str]) -> None:
    pitches = [pitch for text in texts if (pitch := parse_pitch(text))]
    tuning = tuning_of(pitches)
    assert tuning.name is None
    assert len(tuning) == len(texts)
    assert str(tuning) == " ".join(texts)
    assert tuning.open(1) == pitches[-1]
