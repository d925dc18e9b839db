"""Placement as a player sees it: known shapes, pins, voices, and what cannot be played."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.fretboard.neck import Neck
from tabforge.fretboard.placement import fingered, place
from tabforge.fretboard.readings import LET_GO, Wanted
from tabforge.fretboard.trouble import Kind, Trouble
from tabforge.limits import MAX_DIAGNOSTICS
from tests.fretboard.necks import BASS, GUITAR, SEVEN, UKULELE, line, midi, neck, necks, written

# Shapes from any chord chart for the guitar and the ukulele (common practice, from memory), and the pitches they sound.
CHORD_CHART = [
    (GUITAR, "C3+E3+G3+C4+E4", "5:3+4:2+3:0+2:1+1:0"),
    (GUITAR, "G2+B2+D3+G3+B3+G4", "6:3+5:2+4:0+3:0+2:0+1:3"),
    (GUITAR, "D3+A3+D4+F#4", "4:0+3:2+2:3+1:2"),
    (GUITAR, "A2+E3+A3+C#4+E4", "5:0+4:2+3:2+2:2+1:0"),
    (GUITAR, "E2+B2+E3+G#3+B3+E4", "6:0+5:2+4:2+3:1+2:0+1:0"),
    (GUITAR, "A2+E3+A3+C4+E4", "5:0+4:2+3:2+2:1+1:0"),
    (GUITAR, "E2+B2+E3+G3+B3+E4", "6:0+5:2+4:2+3:0+2:0+1:0"),
    (GUITAR, "F2+C3+F3+A3+C4+F4", "6:1+5:3+4:3+3:2+2:1+1:1"),
    (GUITAR, "B2+D#3+A3+B3+F#4", "5:2+4:1+3:2+2:0+1:2"),
    (GUITAR, "A2+E3+A3", "5:0+4:2+3:2"),
    (UKULELE, "G4+C4+E4+C5", "4:0+3:0+2:0+1:3"),
    (UKULELE, "A4+C4+F4+A4", "4:2+3:0+2:1+1:0"),
]

# One octave of C major in the first position of the guitar, of G major on the bass: the first pages of any method (from memory).
FIRST_POSITION = [
    (GUITAR, "C3 D3 E3 F3 G3 A3 B3 C4", "5:3 4:0 4:2 4:3 3:0 3:2 2:0 2:1"),
    (GUITAR, "E4 F4 G4", "1:0 1:1 1:3"),
    (BASS, "E1 F1 G1 A1 B1 C2 D2 E2 F2 G2", "4:0 4:1 4:3 3:0 3:2 3:3 2:0 2:2 2:3 1:0"),
]


@pytest.mark.parametrize(("on", "chord", "shape"), CHORD_CHART)
def test_chords_take_the_shapes_of_the_chart(on: Neck, chord: str, shape: str) -> None:
    placed, troubles = place(line(chord), on)
    assert not troubles
    assert sorted(written(placed).split("+")) == sorted(shape.split("+"))


@pytest.mark.parametrize(("on", "notes", "places"), FIRST_POSITION)
def test_a_low_line_lies_in_the_first_position(on: Neck, notes: str, places: str) -> None:
    assert written(place(line(notes), on)[0]) == places


def test_two_octaves_of_c_major_lie_in_one_position() -> None:
    # The seventh position, second finger on the root: common practice for the movable two-octave major scale.
    notes = "C3 D3 E3 F3 G3 A3 B3 C4 D4 E4 F4 G4 A4 B4 C5"
    assert written(place(line(notes), GUITAR)[0]) == "6:8 6:10 5:7 5:8 5:10 4:7 4:9 4:10 3:7 3:9 3:10 2:8 2:10 1:7 1:8"


def test_a_pinned_place_is_kept_and_draws_its_neighbours() -> None:
    placed, troubles = place(line("E4 A4@3:14 B4 A4"), GUITAR)
    assert not troubles
    assert placed[1] == ((3, 14),)
    assert written(placed) == "4:14 3:14 2:12 3:14"


def test_a_pinned_string_chooses_its_fret() -> None:
    assert written(place(line("C4@5 C4@6"), GUITAR)[0]) == "5:15 6:20"


def test_a_chord_pinned_beyond_reach_is_kept() -> None:
    assert place(line("F2@6:1+E5@1:12"), GUITAR) == ([((6, 1), (1, 12))], [])


def test_open_strings_are_left_out_of_a_high_line() -> None:
    placed, _ = place(line("C5 D5 E5 B4 G4 E4 G4 B4 C5"), GUITAR)
    assert all(fret for grip in placed for _, fret in grip)


@pytest.mark.parametrize(
    ("notes", "places"),
    [
        ("E5 A#3", "1:12 5:13"),  # not 3:21 6:18: the neck above the octave is kept for what needs it
        ("G3+B4", "3:0+1:7"),  # not 4:5+1:7: fewer strings to keep silent between the two
        ("G3+C#3", "3:0+5:4"),  # not 4:5+5:4: fewer frets between the fingers
        ("G2 D3", "6:3 5:5"),  # not 6:3 4:0: no string skipped from note to note
        ("F2 A4", "6:1 1:5"),  # not 6:1 3:14: the shorter way for the hand
        ("C3 F#4", "5:3 1:2"),  # not 6:8 3:11: a line begins low on the neck rather than up it
    ],
)
def test_each_preference_tells(notes: str, places: str) -> None:
    assert written(place(line(notes), GUITAR)[0]) == places


def test_places_count_from_the_capo() -> None:
    assert written(place(line("G2 A2 Bb2 C3"), neck(capo=3))[0]) == "6:0 6:2 6:3 5:0"


def test_a_link_stays_on_its_string() -> None:
    from_b_to_a = [(Wanted(midi("B3")),), (Wanted(midi("A3"), linked=True),), (Wanted(midi("G3"), linked=True),)]
    placed, troubles = place(from_b_to_a, GUITAR)
    assert not troubles
    assert len({grip[0][0] for grip in placed}) == 1
    assert len({grip[0][0] for grip in place([(note._replace(linked=False),) for (note,) in from_b_to_a], GUITAR)[0]}) > 1


def test_a_slide_up_one_string_moves_the_hand() -> None:
    placed, _ = place([(Wanted(midi("E4"), 2),), (Wanted(midi("B4"), linked=True),)], GUITAR)
    assert written(placed) == "2:5 2:12"


def test_a_held_note_keeps_its_place() -> None:
    low, held = Wanted(midi("C3")), Wanted(midi("C3"), held=True)
    melody = [Wanted(midi(name)) for name in ("E4", "G4", "A4", "G4")]
    placed, troubles = place([(melody[0], low), *((note, held) for note in melody[1:])], GUITAR)
    assert not troubles
    assert len({grip[1] for grip in placed}) == 1


def test_a_held_note_is_let_go_when_nothing_else_will_do() -> None:
    events = [(Wanted(midi("F2")), Wanted(midi("E3"))), (Wanted(midi("G5")), Wanted(midi("F2"), held=True))]
    placed, troubles = place(events, GUITAR)
    assert placed[1][1] == LET_GO
    assert placed[1][0] in GUITAR.places(midi("G5"))
    assert [(trouble.kind, trouble.index, trouble.note) for trouble in troubles] == [(Kind.HELD, 1, 1)]


BAD = [
    ("D2", Kind.BELOW, "D3"),
    ("E6", Kind.ABOVE, "E5"),
    ("C4@7", Kind.NO_STRING, "C4"),
    ("C4@1:30", Kind.NO_FRET, "C4"),
    ("C3@1", Kind.NOT_ON_STRING, "C3"),
    ("C4@3:4", Kind.OTHER_PITCH, "C4"),
    ("E2+F2+G2+A2+B2+C3+D3", Kind.TOO_MANY, ""),
    ("C4@3+E4@3", Kind.SAME_STRING, "C4 E4"),
    ("E2+F2", Kind.NO_STRINGS_LEFT, "E3 F2"),
    ("F2+G5", Kind.OUT_OF_REACH, ""),
]


@pytest.mark.parametrize(("text", "kind", "instead"), BAD)
def test_what_cannot_be_played_is_told_and_the_rest_is_placed(text: str, kind: Kind, instead: str) -> None:
    placed, troubles = place(line(f"C4 {text} E4"), GUITAR)
    assert [(trouble.kind, trouble.index) for trouble in troubles] == [(kind, 1)]
    assert placed[1] == ()
    assert placed[0] in [(each,) for each in GUITAR.places(midi("C4"))]
    assert placed[2] in [(each,) for each in GUITAR.places(midi("E4"))]
    assert troubles[0].nearest or not instead
    if instead:
        assert [GUITAR.midi_at(*each) for each in troubles[0].nearest] == [midi(name) for name in instead.split()]


def test_after_many_troubles_nothing_is_suggested_any_more() -> None:
    _, troubles = place(line("E2+F2") * (MAX_DIAGNOSTICS + 2), GUITAR)
    assert [bool(trouble.nearest) for trouble in troubles[-3:]] == [True, False, False]
    assert {trouble.kind for trouble in troubles} == {Kind.NO_STRINGS_LEFT}


def test_a_line_without_notes_is_placed() -> None:
    for seconds, strokes in product((None, []), (None, [])):
        assert fingered([], GUITAR, seconds=seconds, strokes=strokes) == ([], [], [], [], [])
    assert fingered(line("C1"), GUITAR, seconds=[0.1], strokes=["d"]).places == [()]


def test_a_gap_between_strings_is_told() -> None:
    placed, troubles = place(line("D5"), neck("G4 C4 E4 A4", capo=11, frets=12))
    assert placed == [()]
    assert troubles[0].kind is Kind.NOWHERE


@st.composite
def wanted_lines(draw: st.DrawFn) -> tuple[Neck, list[tuple[Wanted, ...]]]:
    """A neck and any events, some of which cannot be played."""
    on = draw(necks())
    pitch = st.integers(on.lowest - 3, on.highest + 3)
    string = st.none() | st.integers(1, len(on.tuning) + 1)
    fret = st.none() | st.integers(0, 25)
    loose = pitch.map(Wanted)
    finger = st.none() | st.integers(0, 5)
    note = loose | st.tuples(pitch, string, fret, st.booleans(), st.booleans(), finger).map(lambda each: Wanted(*each))
    right = st.tuples(st.integers(1, len(on.tuning)), st.integers(0, on.last)).map(lambda each: Wanted(on.midi_at(*each), *each))
    events = draw(st.lists(st.lists(note | right, min_size=1, max_size=4).map(tuple), max_size=20))
    return on, events


@given(wanted_lines())
@settings(max_examples=200, deadline=None)
def test_every_event_is_placed_rightly_or_told_of(given_line: tuple[Neck, list[tuple[Wanted, ...]]]) -> None:
    on, events = given_line
    placed, troubles = place(events, on)
    assert place(list(events), on) == (placed, troubles)
    assert len(placed) == len(events)
    told = {trouble.index for trouble in troubles if trouble.kind is not Kind.HELD}
    assert told == {index for index, grip in enumerate(placed) if not grip}
    for event, grip in zip(events, placed, strict=True):
        if grip:
            _lies_rightly(event, grip, on)
    for trouble in troubles:
        _is_right(trouble, events[trouble.index], on)


def _lies_rightly(event: tuple[Wanted, ...], grip: tuple[tuple[int, int], ...], on: Neck) -> None:
    sounding = [(note, each) for note, each in zip(event, grip, strict=True) if each != LET_GO or not note.held]
    assert len({string for _, (string, _) in sounding}) == len(sounding)
    for note, (string, fret) in sounding:
        assert 0 <= fret <= on.last
        assert on.midi_at(string, fret) == note.midi
        assert note.string in (None, string)
        assert note.fret in (None, fret)


def _is_right(trouble: Trouble, event: tuple[Wanted, ...], on: Neck) -> None:
    for string, fret in trouble.nearest:
        assert 1 <= string <= len(on.tuning)
        assert 0 <= fret <= on.last
    if trouble.note is not None:
        assert event[trouble.note].midi == trouble.midi
    if trouble.kind in (Kind.BELOW, Kind.ABOVE, Kind.NOWHERE):
        assert trouble.midi is not None
        assert not on.places(trouble.midi)


def test_what_is_offered_instead_keeps_the_held_note() -> None:
    event = (Wanted(36, held=True), Wanted(36, held=True))
    _, troubles = place([event], neck("C2 C#2 C#2", frets=11, scale_length=346.0))
    assert all(LET_GO not in trouble.nearest for trouble in troubles)


def test_the_seventh_string_is_used_for_what_lies_below_the_sixth() -> None:
    assert written(place(line("B1 C2 D2 E2"), SEVEN)[0]).split()[:3] == ["7:0", "7:1", "7:3"]
