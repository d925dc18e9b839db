"""Second parts: which notes of a drone and which chords of a vamp are struck when, on which strings.

Sources: music21's roman numerals and scales for what is played; the open strings of a guitar, E2 to E4, for how low it can lie (handbook
tables of tunings); scientific pitch notation. That a vamp waits for the first bar line, that a drone does not, and that a part struck
evenly begins anew at each bar line is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from music21 import key, pitch, roman

from tabforge.model.events import Event
from tabforge.model.score import Score, Section
from tabforge.pipeline import study_from
from tests.syntax.reading import unmarked

OPEN = (64, 59, 55, 50, 45, 40)
"""MIDI numbers of a guitar's open strings from string 1: E4 B3 G3 D3 A2 E2."""

BAR = "  rhythm  q q q q\n  degrees 1 2 3 4"


def outcome(text: str) -> tuple[Score | None, list[str]]:
    found = study_from("sample.riff", text.encode())
    return found.score, [each.code.id for each in found.diagnostics if each.is_error]


def section(rows: str, header: str = "scale C3 major", number: int = 0) -> Section:
    score, codes = outcome(f'{header}\nriff "Sample"\n{rows}\n')
    assert score is not None, codes
    return score.sections[number]


def struck(of: Section, kind: str, quarter: int = 480) -> list[tuple[Fraction, str, Fraction]]:
    """What is struck: its onset from the section's start, its notes from the lowest, how long it sounds; in quarter notes."""
    (part,) = (each for each in of.backing if each.kind == kind)
    found: list[tuple[Fraction, str, Fraction]] = []
    at = 0
    for bar, events in zip(of.bars, part.bars, strict=True):
        assert sum(event.ticks for event in events) == bar.ticks
        onset = 0
        for event in events:
            assert event.onset == onset
            assert event.written.quarters * quarter == event.ticks or len(events) == 1
            onset += event.ticks
            if event.notes and all(note.tied_in for note in event.notes):
                when, notes, length = found[-1]
                assert notes == named(event)
                found[-1] = when, notes, length + Fraction(event.ticks, quarter)
            elif event.notes:
                found.append((Fraction(at + event.onset, quarter), named(event), Fraction(event.ticks, quarter)))
        at += bar.ticks
    return found


def named(event: Event) -> str:
    for note in event.notes:
        assert OPEN[note.string - 1] + note.fret == note.pitch.midi
    return " ".join(str(note.pitch) for note in sorted(event.notes, key=lambda note: note.pitch.midi))


def test_a_drone_is_held_over_bars_as_long_as_its_block() -> None:
    rows = f"  drone 1+5\n{BAR} | 1 2 3 4 | 1 2 3 4"
    assert struck(section(rows), "drone") == [(0, "C3 G3", 12)]
    assert struck(section(rows.replace("1+5", "1+5 held")), "drone") == [(0, "C3 G3", 12)]


@pytest.mark.parametrize(
    ("meter", "every", "onsets"),
    [
        ("4/4", "h", [0, 2, 4, 6, 8, 10]),
        ("3/4", "h", [0, 2, 3, 5, 6, 8]),  # counted anew from each bar line
        ("6/8", "q.", [0, 1.5, 3, 4.5, 6, 7.5]),
        ("4/4", "w", [0, 4, 8]),
        ("4/4", "w+w", [0, 8]),  # longer than a bar: counted on
        ("4/4", "w+h", [0, 6]),
        ("4/4", "h.", [0, 3, 4, 7, 8, 11]),
    ],
)
def test_a_drone_is_struck_again_and_again(meter: str, every: str, onsets: list[float]) -> None:
    rhythm = {"4/4": "w", "3/4": "h.", "6/8": "h."}[meter]
    found = struck(section(f"  meter {meter}\n  drone 1 every {every}\n  rhythm {rhythm}\n  degrees 1 | 2 | 3"), "drone")
    assert [float(onset) for onset, _, _ in found] == onsets
    length = Fraction(12 if meter == "4/4" else 9)
    ends = [*(onset for onset, _, _ in found), length][1:]
    assert [onset + long for onset, _, long in found] == ends


def test_a_drone_begins_with_the_pickup_and_a_vamp_with_the_first_whole_bar() -> None:
    rows = "  pickup q\n  drone 1 every h\n  vamp I | IV\n  rhythm q | q q q q | h.\n  degrees 5 | 1 2 3 4 | 5"
    found = section(rows)
    assert [onset for onset, _, _ in struck(found, "drone")] == [0, 1, 3, 5, 7]
    assert [(onset, long) for onset, _, long in struck(found, "vamp")] == [(1, 4), (5, 3)]


def test_a_drone_follows_the_key_and_the_meter() -> None:
    rows = "  drone 1+5\n  meter . | 3/4 | .\n  key . | . | D-dorian\n  rhythm q q q q | q q q | q q q\n  degrees 1 2 3 4 | 1 2 3 | 1 2 3"
    assert struck(section(rows), "drone") == [(0, "C3 G3", 7), (7, "D3 A3", 3)]


def test_a_key_with_the_same_notes_goes_on() -> None:
    rows = f"  drone 1\n  key . | C-mixolydian\n{BAR} | 1 2 3 4"
    assert struck(section(rows), "drone") == [(0, "C3", 8)]


ROOTS = ("C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B")


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize("degree", [1, 2, 3, 4, 5, 6, 7])
def test_a_drone_lies_in_the_lowest_octave_a_guitar_has(root: str, degree: int) -> None:
    ((_, notes, _),) = struck(section(f"  drone {degree}\n  rhythm w\n  degrees 1", f"scale {root}3 major"), "drone")
    meant = key.Key(root.replace("b", "-")).pitchFromDegree(degree)
    lowest = min(midi for midi in range(40, 52) if midi % 12 == meant.pitchClass)
    assert pitch.Pitch(notes.replace("b", "-")).midi == lowest
    assert notes[:-1] == meant.name.replace("-", "b")


@pytest.mark.parametrize(
    ("degrees", "notes"),
    [("1", "E2"), ("^1", "E3"), ("1+^1", "E2 E3"), ("1+5", "E2 B2"), ("1+_5", "B2 E3"), ("5", "B2"), ("1+5+^1", "E2 B2 E3"), ("b2", "F2")],
)
def test_octaves_are_counted_from_the_lowest_in_which_a_hand_holds_it(degrees: str, notes: str) -> None:
    assert struck(section(f"  drone {degrees}\n  rhythm w\n  degrees 1", "scale E3 minor"), "drone") == [(0, notes, 4)]


@pytest.mark.parametrize("home", ["C major", "A minor", "F major", "E minor"])
def test_the_chords_of_a_vamp_are_those_music21_reads(home: str) -> None:
    root, name = home.split()
    numerals = ["I", "IV", "V"] if name == "major" else ["i", "iv", "VII"]
    found = struck(section(f"  vamp {' | '.join(numerals)}\n  rhythm w\n  degrees 1 | 1 | 1 | 1", f"scale {root} {name}"), "vamp")
    assert [onset for onset, _, _ in found] == [0, 4, 8, 12]
    for (_, notes, _), numeral in zip(found, [*numerals, numerals[0]], strict=True):
        meant = roman.RomanNumeral(numeral, key.Key(root if name == "major" else root.lower()))
        pitches = [pitch.Pitch(each.replace("b", "-")) for each in notes.split()]
        assert {each.pitchClass for each in pitches} == set(meant.pitchClasses)
        assert pitches[0].pitchClass == meant.root().pitchClass


def test_a_vamp_shares_its_bars_and_is_begun_again_with_the_same_grips() -> None:
    of = section(f"  vamp I*2 IV I | V . I .\n{BAR} | 1 2 3 4 | 1 2 3 4")
    found = struck(of, "vamp")
    assert [onset for onset, _, _ in found] == [0, 1, 2, 3, 4, 6, 8, 9, 10, 11]
    assert [notes for _, notes, _ in found[6:]] == [notes for _, notes, _ in found[:4]]
    told = [event.attached.chord.text for events in of.backing[0].bars for event in events if event.attached.chord]
    assert told == ["C", "F", "C", "G", "C", "F", "C"]


def test_a_vamp_is_struck_at_its_changes_and_evenly_between_them() -> None:
    found = struck(section(f"  vamp I . . IV every h\n{BAR}"), "vamp")
    assert [(onset, long) for onset, _, long in found] == [(0, 2), (2, 1), (3, 1)]


def test_the_advised_vamp_of_lydian_stays_on_one_and_two() -> None:
    """Common practice, no source: II over the root of I is the colour of lydian."""
    of = section(f"  vamp advised\n{BAR} | 1 2 3 4 | 1 2 3 4", "scale Bb2 lydian")
    told = [event.attached.chord.text for events in of.backing[0].bars for event in events if event.attached.chord]
    assert told == ["Bb", "C", "Bb"]


def test_a_bar_that_a_repeat_cuts_shares_its_chords_with_its_other_half() -> None:
    rows = "  vamp I . . IV\n  rhythm q q q q | q q | q q | w\n  degrees 1 2 3 4 | 5 4 :| 3 2 | 1"
    found = struck(section(rows), "vamp")
    assert [(onset, long) for onset, _, long in found] == [(0, 3), (3, 1), (4, 3), (7, 1), (8, 3), (11, 1)]


def test_chords_move_with_the_keys_of_the_study() -> None:
    score, _ = outcome(f'scale C3 major\nkeys F A\ndrone 1\nvamp I Am\nriff "Sample"\n{BAR}\n')
    assert score is not None
    assert [struck(each, "drone")[0][1] for each in score.sections] == ["C3", "F2", "A2"]
    told = [[event.attached.chord.text for event in each.backing[1].bars[0] if event.attached.chord] for each in score.sections]
    assert told == [["C", "Am"], ["F", "Dm"], ["A", "F#m"]]


def test_what_the_header_says_holds_until_a_block_says_otherwise() -> None:
    header = "scale C3 major\ndrone 1\nvamp I\nbacking hide\nclick on\ncount-in 2"
    other = f'riff "Other"\n  drone off\n  vamp off\n  click off\n  count-in 0\n{BAR}'
    score, _ = outcome(f'{header}\nriff "Sample"\n{BAR}\n{other}\n')
    assert score is not None
    first, second = score.sections
    assert [(each.kind, each.shown) for each in first.backing] == [("drone", False), ("vamp", False)]
    assert (first.click, first.count_in, second.backing, second.click, second.count_in) == (True, 2, (), False, 0)


@pytest.mark.parametrize(
    ("code", "text"),
    [
        ("M306", f'drone ⟦1⟧\nriff "A"\n{BAR.replace("degrees 1 2 3 4", "notes C3 D3 E3 F3")}\n'),
        ("M307", f'scale A2 minor pentatonic\ndrone ⟦2⟧\nriff "A"\n{BAR.replace("2", "4")}\n'),
        ("M310", f'scale C3 major\nvamp ⟦%⟧ | I\nriff "A"\n{BAR}\n'),
        ("M312", f'scale C3 major\nvamp I | ⟦Hm⟧ V\nriff "A"\n{BAR} | 1 2 3 4\n\nriff "B"\n{BAR}\n'),
        ("M371", f'scale C3 major\nvamp ⟦I IV V⟧\nriff "A"\n{BAR}\n'),
        ("M381", f'scale C3 major\nvamp I every ⟦t.⟧\nriff "A"\n{BAR}\n'),
        ("N442", f'scale C3 major\ndrone ⟦1+2+3+b2⟧\nriff "A"\n{BAR}\n'),
        ("N441", f'scale D3 mixolydian\ntuning D3 A3 D4\nfretting diatonic\nvamp ⟦Ebm⟧ D\nriff "A"\n{BAR}\n'),
    ],
)
def test_what_cannot_be_is_told_once_where_it_is_written(code: str, text: str) -> None:
    plain, (span,) = unmarked(text)
    found = [each for each in study_from("sample.riff", plain.encode()).diagnostics if each.is_error]
    assert [each.code.id for each in found] == [code]
    assert found[0].span == span


LENGTHS = st.sampled_from(("t", "s", "e", "q", "h", "w", "s.", "e.", "q.", "h.", "e+t", "w+q"))


@settings(max_examples=40, deadline=None)
@given(
    every=LENGTHS,
    meters=st.lists(st.sampled_from(("4/4", "3/4", "7/8", "2+3/16", "12/8", "5/4")), min_size=1, max_size=4),
    pickup=st.sampled_from(("", "t", "t.", "t..", "s", "e+s", "3/16")),
)
def test_parts_fill_every_bar_whatever_its_length(every: str, meters: list[str], pickup: str) -> None:
    first = f"  pickup {pickup}\n" if pickup and "/" not in pickup else ""
    rows = [".", *meters] if first else meters
    whole = {"4/4": "w", "3/4": "h.", "7/8": "h.+e", "2+3/16": "e+e.", "12/8": "w.", "5/4": "w+q"}
    rhythm = " | ".join([*([pickup] if first else []), *(whole[meter] for meter in meters)])
    parts = f"{first}  drone 1 every {every}\n  vamp I | i every {every}\n"
    of = section(f"{parts}  meter {' | '.join(rows)} |\n  rhythm {rhythm}\n  degrees {' | '.join('1' for _ in rows)}")
    for part in of.backing:
        for bar, events in zip(of.bars, part.bars, strict=True):
            assert [event.onset for event in events] == [sum(each.ticks for each in events[:at]) for at in range(len(events))]
            assert sum(event.ticks for event in events) == bar.ticks
