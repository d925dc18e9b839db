# ruff: noqa: E501  # tables are read by their columns
"""Chord blocks: which chord sounds when, on which strings, and how its strokes are written.

Sources: music21's roman numerals for what chords numerals are; the handbook's section "Chords" for strokes, shares and fingers. How
strings are called lowest and highest is common practice, no source.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from music21 import key, roman

from tabforge.compile.progression import moved_shape
from tabforge.compile.shares import shares
from tabforge.fretboard.instruments import find_instrument, neck_of
from tabforge.model.events import Event
from tabforge.model.meter import Meter
from tabforge.model.score import Score
from tabforge.pipeline import study_from

HEADER = "scale C3 major\n"


def score_of(lines: str, header: str = HEADER) -> Score:
    text = header + 'chords "Sample"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))
    outcome = study_from("sample.riff", text.encode())
    assert outcome.score is not None, [each.headline for each in outcome.diagnostics]
    assert not any(each.is_error for each in outcome.diagnostics)
    return outcome.score


def codes_of(lines: str, header: str = HEADER) -> list[str]:
    text = header + 'chords "Sample"\n' + "".join(f"  {line}\n" for line in lines.split("\n"))
    return [each.code.id for each in study_from("sample.riff", text.encode()).diagnostics if each.is_error]


def events_of(score: Score, section: int = 0) -> list[tuple[Fraction, Event]]:
    found, start = [], 0
    for bar in score.sections[section].bars:
        found += [(Fraction(start + event.onset, score.divisions), event) for event in bar.voices[0]]
        start += bar.ticks
    return found


def told(event: Event) -> str:
    """An event in short: ``d`` ``u`` its stroke, ``=`` tied in, ``r`` a rest, ``g`` ghost and ``x`` dead before its stroke."""
    if not event.notes:
        return "r"
    marks = {mark.technique.name for note in event.notes for mark in note.marks}
    if all(note.tied_in for note in event.notes):
        return "="
    return "g" * ("ghost note" in marks) + "x" * ("dead note" in marks) + (event.attached.stroke or "*")


def symbols(score: Score, section: int = 0) -> list[tuple[Fraction, str]]:
    return [(onset, event.attached.chord.text) for onset, event in events_of(score, section) if event.attached.chord]


def places(event: Event) -> dict[int, int]:
    return {note.string: note.fret for note in event.notes}


NUMERALS = [
    *((tonic, "major", numeral) for tonic in ("C", "Eb", "F#") for numeral in ("I", "ii", "iii", "IV", "V", "vi", "V7", "ii7", "bVII", "V7/V")),
    *((tonic, "minor", numeral) for tonic in ("A", "F#") for numeral in ("i", "iv", "III", "v", "V", "V7")),
]


@pytest.mark.parametrize(("tonic", "mode", "numeral"), NUMERALS)
def test_a_numeral_sounds_the_notes_that_music21_gives_it(tonic: str, mode: str, numeral: str) -> None:
    theirs = roman.RomanNumeral(numeral, key.Key(tonic.replace("b", "-"), mode))
    wanted = {pitch.pitchClass for pitch in theirs.pitches}
    name = "natural minor" if mode == "minor" else "major"
    score = score_of(f"progression {numeral}", f"scale {tonic}3 {name}\n")
    ((_, event),) = events_of(score)
    assert {note.pitch.midi % 12 for note in event.notes} <= wanted
    assert len({note.pitch.midi % 12 for note in event.notes}) >= 3


@pytest.mark.parametrize(
    ("count", "meter", "wanted"),
    [
        (1, "4/4", "4"), (2, "4/4", "2 2"), (4, "4/4", "1 1 1 1"), (8, "4/4", "1/2 " * 8), (3, "4/4", None), (6, "4/4", None),
        (3, "3/4", "1 1 1"), (2, "3/4", "3/2 3/2"), (6, "3/4", "1/2 " * 6), (2, "6/8", "3/2 3/2"), (6, "6/8", "1/2 " * 6),
        (3, "2+2+3/8", "1 1 3/2"), (2, "2+2+3/8", None), (1, "7/8", "7/2"), (4, "12/8", "3/2 " * 4), (2, "5/4", "5/2 5/2"), (2, "2/2", "2 2"),
    ],
)  # fmt: skip
def test_the_shares_of_a_bar(count: int, meter: str, wanted: str | None) -> None:
    groups, unit = meter.split("/")
    made = Meter(groups=tuple(map(int, groups.split("+"))), unit=int(unit))
    assert shares(count, made, made.quarters) == (None if wanted is None else tuple(map(Fraction, wanted.split())))


def test_a_strum_is_written_stroke_for_stroke() -> None:
    score = score_of("progression C\nstrum d . gu xd r u . xu")
    assert [(onset, told(event)) for onset, event in events_of(score)] == [
        (0, "d"), (1, "gu"), (Fraction(3, 2), "xd"), (2, "r"), (Fraction(5, 2), "u"), (Fraction(7, 2), "xu"),
    ]  # fmt: skip
    (_, first), *_ = events_of(score)
    assert first.written.value.letter == "q"


def test_every_stroke_sounds_the_whole_grip_and_a_muffled_one_its_strings() -> None:
    score = score_of("progression C@x32010\nrhythm q q h\nstrum d xu gd")
    first, second, third = [event for _, event in events_of(score)]
    assert places(first) == places(third) == {5: 3, 4: 2, 3: 0, 2: 1, 1: 0}
    assert set(places(second)) == {5, 4, 3, 2, 1}


def test_fingers_take_their_strings_from_the_grip() -> None:
    score = score_of("progression C@x32010\nrhythm e*8\npicking p i m a p+a p@4 . r")
    found = [(told(event), places(event), "".join(note.pluck or "" for note in event.notes[::-1])) for _, event in events_of(score)]
    assert found == [
        ("*", {5: 3}, "p"), ("*", {3: 0}, "i"), ("*", {2: 1}, "m"), ("*", {1: 0}, "a"), ("*", {5: 3, 1: 0}, "pa"), ("*", {4: 2}, "p"), ("r", {}, ""),
    ]  # fmt: skip


def test_on_few_strings_fingers_share_the_lowest() -> None:
    score = score_of("progression C@xxx010\nrhythm q*4\npicking p+i i m a")
    assert [places(event) for _, event in events_of(score)] == [{3: 0}, {3: 0}, {2: 1}, {1: 0}]


def test_a_chord_sounds_with_the_first_stroke_of_its_share() -> None:
    score = score_of("progression C G\nrhythm h e e q\nstrum d . u d")
    assert symbols(score) == [(0, "C"), (Fraction(5, 2), "G")]
    assert [told(event) for _, event in events_of(score)] == ["d", "=", "u", "d"]


def test_a_chord_goes_on_where_a_dot_says_so() -> None:
    score = score_of("progression C . . G | . F")
    assert symbols(score) == [(0, "C"), (3, "G"), (6, "F")]
    assert [told(event) for _, event in events_of(score)] == ["*", "*", "=", "*"]


def test_a_symbol_stands_where_the_chord_changes() -> None:
    score = score_of("progression C*2 F C | % | N.C. C\nrhythm q*4")
    assert symbols(score) == [(0, "C"), (2, "F"), (3, "C"), (6, "F"), (7, "C"), (8, "N.C."), (10, "C")]
    assert [told(event) for onset, event in events_of(score) if onset in (8, 9)] == ["r", "r"]


def test_muffled_strokes_go_on_where_there_is_no_chord() -> None:
    score = score_of("progression Am@x02210 | N.C.\nstrum d d xu d")
    onsets = {onset: told(event) for onset, event in events_of(score)}
    assert (onsets[4], onsets[6]) == ("r", "xu")


def test_patterns_of_several_bars_begin_again_and_hold_on() -> None:
    score = score_of("progression C | G | C\nrhythm h h | w\nstrum d u | d\n\nprogression F | C\n\nprogression G\nrhythm w\npicking p+i+m+a")
    strokes = [[told(event) for event in bar.voices[0]] for bar in score.sections[0].bars]
    assert strokes == [["d", "u"], ["d"], ["d", "u"], ["d", "u"], ["d"], ["*"]]


def test_a_pickup_has_the_last_strokes_of_the_pattern() -> None:
    score = score_of("pickup q\nprogression G | C\nrhythm q. e e e q\nstrum d u d u xd")
    (pickup, whole) = score.sections[0].bars
    assert [told(event) for event in pickup.voices[0]] == ["xd"]
    assert [told(event) for event in whole.voices[0]] == ["d", "u", "d", "u", "xd"]


@pytest.mark.parametrize(("pickup", "pattern", "written"), [
    ("t..", "", [("t", 2)]),
    ("t..", "rhythm q*4", [("t", 2)]),
    ("s+t..", "", [("s", 0), ("t", 2)]),
    ("t.+t", "rhythm w", [("t", 1), ("t", 0)]),
])
def test_a_pickup_is_filled_by_values_with_up_to_two_dots(pickup: str, pattern: str, written: list[tuple[str, int]]) -> None:
    score = score_of(f"pickup {pickup}\nprogression N.C. | C\n{pattern}".strip())
    (first, _) = score.sections[0].bars
    found = [(event.written.value.letter, event.written.dots) for event in first.voices[0]]
    assert sorted(found) == sorted(written)
    assert sum(event.ticks for event in first.voices[0]) == first.ticks


def test_a_pickup_that_begins_just_before_a_stroke_is_told() -> None:
    assert codes_of("pickup t..\nprogression G | C\nrhythm h. e s t t") == ["M371"]
    assert codes_of("pickup t..\nprogression G | C\nstrum d*32") == ["M371"]


def test_a_pickup_as_long_as_the_first_bar_is_told_whatever_row_says_its_meter() -> None:
    assert "M328" in codes_of("pickup h..\nprogression G | C\nmeter 3/16 | 4/4")


def test_charts_stand_where_a_grip_is_first_heard() -> None:
    score = score_of("diagrams show\nprogression C@x32010 G@320003 | C@x32010 C@x35553")
    shapes = [event.attached.chord.shape for _, event in events_of(score) if event.attached.chord]
    assert shapes == [(None, 3, 2, 0, 1, 0), (3, 2, 0, 0, 0, 3), None, (None, 3, 5, 5, 5, 3)]
    hidden = score_of("progression C@x32010 G@320003")
    assert [event.attached.chord.shape for _, event in events_of(hidden) if event.attached.chord] == [None, None]


def test_the_fingers_of_the_grip_are_shown_where_fingers_are() -> None:
    shown = score_of("fingering show\nprogression F@133211")
    assert {note.string: note.finger for note in events_of(shown)[0][1].notes} == {6: "1", 5: "3", 4: "4", 3: "2", 2: "1", 1: "1"}
    hidden = score_of("progression F@133211")
    assert {note.finger for note in events_of(hidden)[0][1].notes} == {None}


def test_in_another_key_numerals_and_names_move_and_strokes_stay() -> None:
    score = score_of("progression I F | V7/V vi\nstrum d xu gd u", HEADER + "keys D\n")
    assert symbols(score, 1) == [(0, "D"), (2, "G"), (4, "E7"), (6, "Bm")]
    assert [told(event) for _, event in events_of(score, 1)] == [told(event) for _, event in events_of(score, 0)]


def test_a_closed_shape_moves_along_the_neck_and_an_open_one_is_chosen_anew() -> None:
    score = score_of("voicing barre\nprogression F@133211 C@x32010", HEADER + "keys G\n")
    (_, first), (_, second) = events_of(score, 1)
    by = (first.notes[0].fret - 1) % 12
    assert by == 7
    assert places(first) == {6: by + 1, 5: by + 3, 4: by + 3, 3: by + 2, 2: by + 1, 1: by + 1}
    assert 0 not in places(second).values()  # the voicing asks for a barre
    assert {note.pitch.midi % 12 for note in second.notes} == {7, 11, 2}


def test_a_shape_is_moved_in_the_octave_that_the_neck_has() -> None:
    guitar = find_instrument("guitar")
    assert guitar is not None
    neck = neck_of(guitar, guitar.tuning, 0, guitar.fretting)
    assert moved_shape((1, 3, 3, 2, 1, 1), neck, 7) == (8, 10, 10, 9, 8, 8)
    assert moved_shape((8, 10, 10, 9, 8, 8), neck, -7) == (1, 3, 3, 2, 1, 1)
    assert moved_shape((1, 3, 3, 2, 1, 1), neck, -3) == (10, 12, 12, 11, 10, 10)
    assert moved_shape((None, 3, 2, 0, 1, 0), neck, 2) is None
    assert moved_shape((None, 3, 2, 0, 1, 0), neck, 12) == (None, 3, 2, 0, 1, 0)


def test_repeats_endings_meters_and_signs_stand_in_a_progression_too() -> None:
    score = score_of("meter . | 3/4 | 4/4\nsigns [A] | . | .\nprogression |: C G | F |[1 C :|[2 G\nrhythm q*4 | q*3 | w")
    bars = score.sections[0].bars
    assert [str(bar.meter) for bar in bars] == ["4/4", "3/4", "4/4", "4/4"]
    assert bars[0].left.repeat == "forward"
    assert (bars[2].right.repeat, bars[3].left.endings) == ("backward", (2,))
    assert bars[0].rehearsal == "A"


def test_numerals_stand_in_a_row_of_chords_of_a_riff() -> None:
    text = HEADER + 'keys D\nriff "Sample"\n  chords V7 bVII@x13331 | Am\n  rhythm h h\n  degrees 5 4 | 6 1\n'
    score = study_from("sample.riff", text.encode()).score
    assert score is not None
    assert [symbols(score, section) for section in (0, 1)] == [[(0, "G7"), (2, "Bb"), (4, "Am")], [(0, "A7"), (2, "C"), (4, "Bm")]]


@pytest.mark.parametrize(
    ("lines", "code"),
    [
        ("progression C G F", "M371"), ("progression C\nstrum d u d", "M371"), ("progression C G\nrhythm h. q\nstrum d .", "M372"),
        ("progression D@xx0232\nrhythm q*4\npicking p@6 i m a", "M373"), ("voicing drop 2\nprogression C", "N441"), ("progression Zm", "M312"),
        ("progression Im7", "M312"), ("progression .", "M309"), ("progression C\nrhythm q q q q\nstrum d d", "M303"), ("progression C\nrhythm q q q", "M302"),
        ("voicing power on 9\nprogression C", "M330"), ("progression C@12", "M342"), ("progression C\nstrum d u\npicking p i", "T123"), ("voicing open", "T124"),
        ("progression C\nrhythm 3(e e) q. q.\nstrum d u d d", "M318"),
    ],
)  # fmt: skip
def test_a_mistake_is_told_once(lines: str, code: str) -> None:
    assert codes_of(lines) == [code]


def test_a_numeral_needs_a_scale() -> None:
    assert codes_of("progression I", "") == ["M306"]
    assert codes_of("progression C", "") == []


def test_the_fingers_of_a_grip_are_written_once_as_long_as_the_hand_stays() -> None:
    score = score_of("fingering show\nprogression F@133211 C@x32010 | F@133211\nrhythm q*4\nstrum d xu u d")
    written = [(onset, event.notes[0].finger) for onset, event in events_of(score) if any(note.finger for note in event.notes)]
    assert [onset for onset, _ in written] == [0, 2, 4]
