"""Necks that are not fretted in half steps, and strings that begin farther up, against what players and builders know."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.fretboard.explain import diagnose
from tabforge.fretboard.frettings import FRETTINGS, fretting_up_to, rises
from tabforge.fretboard.instruments import INSTRUMENTS, find_tuning, neck_of, tunings_of
from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.layouts import Extent, Layout, lay_out
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.placement import place
from tabforge.model.pitch import Pitch, parse_pitch, spell_plainly
from tabforge.model.tuning import Instrument, Tuning
from tabforge.source import Span
from tabforge.theory.scales import named_scale
from tests.fretboard.necks import line, midi, necks, written

DULCIMER_FRETS = (2, 4, 5, 7, 9, 10, 12, 14, 16, 17, 19, 21, 22, 24)
"""The fourteen frets of two octaves on a mountain dulcimer: common practice, no source."""


def instrument_neck(name: str, tuning: str = "standard", capo: int = 0, fretting: tuple[int, ...] | None = None) -> Neck:
    instrument = INSTRUMENTS[name]
    found = find_tuning(instrument, tuning)
    assert found is not None
    return neck_of(instrument, found, capo, instrument.fretting if fretting is None else fretting)


BANJO = instrument_neck("five-string banjo")
DULCIMER = instrument_neck("mountain dulcimer")


def ladder(root: str, name: str) -> Ladder:
    pitch = parse_pitch(root)
    assert pitch is not None
    scale = named_scale(pitch, name)
    assert scale is not None
    return Ladder.of(scale)


def laid(neck: Neck, layout: Layout, root: str, name: str, extent: Extent | None = None) -> str:
    placed, trouble = lay_out(layout, ladder(root, name), extent or Extent(), neck)
    return diagnose(trouble, Span(0, 1), neck).headline if trouble else " ".join(f"{each.string}:{each.fret}" for each in placed)


# Frettings


def test_a_dulcimers_frets() -> None:
    assert fretting_up_to("diatonic", 24) == DULCIMER_FRETS
    assert INSTRUMENTS["mountain dulcimer"].fretting[:14] == DULCIMER_FRETS
    assert INSTRUMENTS["stick dulcimer"].fretting == DULCIMER_FRETS


def test_the_fret_called_six_and_a_half_lies_between_the_sixth_and_the_octave() -> None:
    plain, more = fretting_up_to("diatonic", 12), fretting_up_to("diatonic+", 12)
    assert [each for each in more if each not in plain] == [11]
    assert more.index(11) == plain.index(10) + 1 == plain.index(12)


@pytest.mark.parametrize(("name", "mode"), [("diatonic", "mixolydian"), ("chromatic", "chromatic")])
def test_the_frets_of_an_octave_give_a_scale(name: str, mode: str) -> None:
    root = parse_pitch("D4")
    assert root is not None
    scale = named_scale(root, mode)
    assert scale is not None
    assert FRETTINGS[name] == (*scale.offsets[1:], 12)


# A dulcimer's tunings are named for the mode that the melody string gives on the keynote D (common practice, no source).
@pytest.mark.parametrize(
    ("tuning", "mode"), [("mixolydian", "mixolydian"), ("ionian", "ionian"), ("aeolian", "aeolian"), ("dorian", "dorian")]
)
def test_a_dulcimers_tuning_is_named_for_its_mode(tuning: str, mode: str) -> None:
    neck = instrument_neck("mountain dulcimer", tuning)
    found = laid(neck, Layout(kind="string", from_string=1), "D4", mode, Extent(octaves=1, first=parse_pitch("D4")))
    frets = [int(each.partition(":")[2]) for each in found.split()]
    assert frets == list(range(frets[0], frets[0] + 8))


def test_frets_give_their_half_steps() -> None:
    # A dulcimer tuned to D: the melody string gives D E F# G A B C D.
    assert [str(spell_plainly(DULCIMER.midi_at(1, fret))) for fret in range(8)] == ["D4", "E4", "F#4", "G4", "A4", "B4", "C5", "D5"]
    assert DULCIMER.places(midi("F4")) == ()
    assert DULCIMER.places(midi("A4")) == ((1, 4), (2, 7), (3, 11))
    assert DULCIMER.fret_of(midi("C#5"), 1) is None
    assert (DULCIMER.last, DULCIMER.lowest, DULCIMER.highest) == (17, midi("D3"), midi("D4") + 29)


def test_the_octave_halves_the_string_whatever_its_number() -> None:
    assert DULCIMER.distance_mm(0, 7) == pytest.approx(343)
    plus = instrument_neck("mountain dulcimer", fretting=fretting_up_to("diatonic+", 29))
    assert plus.distance_mm(0, 8) == pytest.approx(343)
    assert plus.midi_at(1, 7) == midi("C#5")


def test_a_capo_counts_the_frets_that_are_there() -> None:
    capoed = instrument_neck("mountain dulcimer", capo=1)
    assert [str(spell_plainly(capoed.midi_at(1, fret))) for fret in range(7)] == ["E4", "F#4", "G4", "A4", "B4", "C5", "D5"]
    assert capoed.last == 16
    assert capoed.distance_mm(0, 6) == pytest.approx(343 - DULCIMER.distance_mm(0, 1))


def test_a_chromatic_dulcimer_reaches_as_far() -> None:
    neck = instrument_neck("mountain dulcimer", fretting=())
    assert (neck.last, neck.highest) == (29, DULCIMER.highest)


@given(necks(), st.lists(st.integers(1, 4), min_size=5, max_size=24))
def test_places_pitches_and_frets_agree_on_any_fretting(made: Neck, steps: list[int]) -> None:
    fretting = tuple(sum(steps[: number + 1]) for number in range(len(steps)))
    assert rises(fretting)
    neck = Neck(tuning=made.tuning, capo=min(made.capo, len(fretting)), fretting=fretting, scale_length=made.scale_length)
    seen = set()
    for string in range(1, len(neck.tuning) + 1):
        for fret in range(neck.last + 1):
            pitch = neck.midi_at(string, fret)
            at = neck.capo + fret
            assert pitch == neck.tuning.open(string).midi + (fretting[at - 1] if at else 0)
            assert neck.fret_of(pitch, string) == neck.fret_from(pitch, string) == fret
            assert (string, fret) in neck.places(pitch)
            seen.add((string, fret))
    assert {each for pitch in range(neck.lowest, neck.highest + 1) for each in neck.places(pitch)} == seen


@pytest.mark.parametrize("fretting", [(2, 2), (3, 2), (0, 1)])
def test_frets_that_do_not_rise(fretting: tuple[int, ...]) -> None:
    assert not rises(fretting)


# The short string of a banjo


def test_a_banjos_strings() -> None:
    # Standard tuning g D G B d: the fifth string is the G above the first string's D (common practice, no source).
    assert [str(pitch) for pitch in BANJO.tuning.strings] == ["D4", "B3", "G3", "D3", "G4"]
    assert BANJO.tuning.nuts == (0, 0, 0, 0, 5)


@pytest.mark.parametrize("name", tunings_of(INSTRUMENTS["five-string banjo"]))
def test_every_banjo_tuning_has_its_short_string(name: str) -> None:
    assert tunings_of(INSTRUMENTS["five-string banjo"])[name].nuts == (0, 0, 0, 0, 5)


def test_only_the_five_string_banjo_has_one() -> None:
    assert [each.name for each in INSTRUMENTS.values() if any(each.tuning.nuts)] == ["five-string banjo"]


def test_frets_of_the_short_string_are_counted_along_the_neck() -> None:
    # Players know the octave of the fifth string at fret 17, 12 frets above its nut at the fifth fret.
    assert BANJO.midi_at(5, 0) == midi("G4")
    assert BANJO.midi_at(5, 7) == midi("A4") == BANJO.midi_at(1, 7)
    assert BANJO.midi_at(5, 17) == midi("G5")
    assert [fret for fret in range(24) if BANJO.has(5, fret)] == [0, *range(6, 23)]
    assert BANJO.fret_of(midi("G#4"), 5) == 6
    assert BANJO.places(midi("G4")) == ((5, 0), (1, 5), (2, 8), (3, 12), (4, 17))
    assert BANJO.fret_from(midi("G#4"), 5) == 6


def test_a_capo_raises_the_short_string_too() -> None:
    # With the capo at 2 the fifth string goes to A, under a spike at the seventh fret: common practice, no source.
    capoed = instrument_neck("five-string banjo", capo=2)
    assert [str(spell_plainly(capoed.midi_at(string, 0))) for string in range(5, 0, -1)] == ["A4", "E3", "A3", "C#4", "E4"]
    assert capoed.fret_of(midi("B4"), 5) == 7


@given(st.lists(st.integers(0, 9), min_size=4, max_size=4), st.integers(0, 4))
def test_nuts_on_any_strings(nuts: list[int], capo: int) -> None:
    strings = tuple(parse_pitch(text) or Pitch("C", 0, 4) for text in ("A4", "E4", "C4", "G4"))
    neck = Neck(tuning=Tuning(strings=strings, nuts=tuple(nuts)), capo=capo, frets=18)
    for string, nut in enumerate(nuts, 1):
        assert [fret for fret in range(20) if neck.has(string, fret)] == [0, *range(nut + 1, neck.last + 1)]
        for fret in range(nut + 1, neck.last + 1):
            assert neck.midi_at(string, fret) - neck.midi_at(string, 0) == fret - nut
            assert neck.fret_of(neck.midi_at(string, fret), string) == fret


# Layouts and placement


UKULELE = instrument_neck("ukulele")
MAJOR = "major"


def test_per_string_on_reentrant_strings_says_why_not() -> None:
    said = laid(BANJO, Layout(kind="per string", count=3, from_string=5), "G3", MAJOR)
    assert said == "string 4 (D3) is not tuned higher than string 5 (G4), so the line cannot rise from one to the other"
    said = laid(UKULELE, Layout(kind="per string", count=3, from_string=4), "C4", MAJOR)
    assert said == "string 3 (C4) is not tuned higher than string 4 (G4), so the line cannot rise from one to the other"


def test_per_string_on_the_strings_that_rise() -> None:
    assert laid(BANJO, Layout(kind="per string", count=3, from_string=4), "D3", MAJOR) == "4:0 4:2 4:4 3:0 3:2 3:4 2:2 2:3 2:5 1:4 1:5 1:7"


def test_the_open_position_of_a_banjo_ends_on_the_open_short_string() -> None:
    assert laid(BANJO, Layout(kind="open"), "G3", MAJOR) == "4:0 4:2 4:4 3:0 3:2 2:0 2:1 1:0 1:2 1:4 5:0"


def test_the_open_position_of_a_ukulele_takes_its_high_string() -> None:
    # The C major scale in open position: 0 2 on C, 0 1 3 on E, 0 2 3 on A (any primer; common practice, no source); the open
    # fourth string gives the G too, and an open string is taken before a fretted one.
    assert laid(UKULELE, Layout(kind="open"), "C4", MAJOR) == "3:0 3:2 2:0 2:1 4:0 1:0 1:2 1:3"


def test_a_position_up_the_neck_has_no_fret_before_the_short_string() -> None:
    for hand in range(1, 15):
        found = laid(BANJO, Layout(kind="position", fret=hand), "G3", "chromatic")
        for each in found.split():
            string, fret = map(int, each.split(":"))
            assert BANJO.has(string, fret), found


def test_along_the_short_string() -> None:
    assert laid(BANJO, Layout(kind="string", from_string=5), "G3", MAJOR).startswith("5:0 5:7 5:9 5:10 5:12 5:14 5:16 5:17 ")


def test_along_a_string_that_lacks_frets() -> None:
    assert laid(DULCIMER, Layout(kind="string", from_string=1), "D4", MAJOR) == "string 1 has no fret for C#5, C#6"
    assert laid(DULCIMER, Layout(kind="string", from_string=1), "D4", MAJOR, Extent(last=parse_pitch("B4"))) == "1:0 1:1 1:2 1:3 1:4 1:5"


@pytest.mark.parametrize(
    "layout",
    [Layout(kind="open"), Layout(kind="position", fret=3), Layout(kind="per string", count=4, from_string=3), Layout(kind="free")],
    ids=lambda each: each.kind,
)
def test_layouts_say_what_the_frets_do_not_give(layout: Layout) -> None:
    assert "no fret" in laid(DULCIMER, layout, "D3", "natural minor")


def test_a_scale_over_all_strings_of_a_stick_dulcimer() -> None:
    # Tuned G D G, the strings give G major four notes at a time: G A B C, D E F# G, A B C D.
    neck = instrument_neck("stick dulcimer")
    found = laid(neck, Layout(kind="per string", count=4, from_string=3), "G3", MAJOR)
    assert found == "3:0 3:1 3:2 3:3 2:0 2:1 2:2 2:3 1:1 1:2 1:3 1:4"
    found = laid(neck, Layout(kind="per string", count=3, from_string=3, to_string=2, fret=1), "G3", MAJOR)
    assert found == "3:1 3:2 3:3 2:0 2:1 2:2"


def test_a_start_between_frets_is_told() -> None:
    found = laid(DULCIMER, Layout(kind="per string", count=2, from_string=2, degree=parse_pitch("C4")), "D3", "mixolydian")
    assert found == "string 2 has no fret for C4"


def test_where_a_layout_is_said_to_fit_it_fits() -> None:
    placed, trouble = lay_out(Layout(kind="per string", count=4, from_string=4, fret=20), ladder("G3", MAJOR), Extent(), BANJO)
    assert not placed
    assert trouble is not None
    assert trouble.nearest_fret is not None
    fits, none = lay_out(Layout(kind="per string", count=4, from_string=4, fret=trouble.nearest_fret), ladder("G3", MAJOR), Extent(), BANJO)
    assert none is None
    assert len(fits) == 16


@pytest.mark.parametrize(
    ("neck", "wanted", "found"),
    [
        (BANJO, "G4@5", "5:0"),
        (BANJO, "A4@5 G4@5", "5:7 5:0"),
        (BANJO, "D3+G3+B3+D4+G4", "4:0+3:0+2:0+1:0+5:0"),
        (UKULELE, "G4+C4+E4+C5", "4:0+3:0+2:0+1:3"),  # the C chord 0003
        (DULCIMER, "D4 E4 F#4 G4@1", "1:0 1:1 1:2 1:3"),
        (DULCIMER, "D3+A3+D4", "3:0+2:0+1:0"),
    ],
)
def test_placement_on_short_and_diatonic_strings(neck: Neck, wanted: str, found: str) -> None:
    placed, trouble = place(line(wanted), neck)
    assert not trouble
    assert written(placed) == found


@pytest.mark.parametrize(
    ("neck", "wanted", "said"),
    [
        (BANJO, "G4@5:3", "string 5 has no fret 3: it begins at fret 5, and its frets are counted along the neck"),
        (BANJO, "G4@5:30", "there is no fret 30: the neck ends at fret 22"),
        (DULCIMER, "F4", "no fret of this neck gives F4"),
        (DULCIMER, "C4@2", "string 2 does not have C4: it lies between two frets"),
        (DULCIMER, "C3", "C3 is below the lowest open string, D3"),
    ],
)
def test_what_does_not_lie_on_such_strings(neck: Neck, wanted: str, said: str) -> None:
    placed, (trouble,) = place(line(wanted), neck)
    assert placed == [()]
    assert diagnose(trouble, Span(0, 1), neck).headline == said


@given(st.sampled_from((BANJO, DULCIMER, UKULELE, instrument_neck("five-string banjo", capo=3))), st.lists(st.integers(0, 30), max_size=12))
def test_what_is_placed_sounds_as_wanted(neck: Neck, rises_by: list[int]) -> None:
    wanted = [neck.lowest + each for each in rises_by if neck.places(neck.lowest + each)]
    events = line(" ".join(str(spell_plainly(each)) for each in wanted))
    placed, trouble = place(events, neck)
    assert not trouble
    for want, ((string, fret),) in zip(wanted, placed, strict=True):
        assert neck.has(string, fret)
        assert neck.midi_at(string, fret) == want


# Any number of strings from 3 to 12


@pytest.mark.parametrize("count", range(3, 13))
def test_any_number_of_strings(count: int) -> None:
    strings = tuple(spell_plainly(40 + 3 * each) for each in reversed(range(count)))
    neck = Neck(tuning=Tuning(strings=strings))
    placed, trouble = place(line(" ".join(str(pitch) for pitch in strings)), neck)
    assert not trouble
    assert [neck.midi_at(*each) for (each,) in placed] == [pitch.midi for pitch in strings]
    every, trouble = place(line("+".join(str(pitch) for pitch in strings)), neck)
    assert not trouble
    assert sorted(string for string, _ in every[0]) == list(range(1, count + 1))
    assert laid(neck, Layout(kind="string", from_string=count), str(strings[-1]), "chromatic").count(":") == neck.last + 1


@pytest.mark.parametrize("instrument", INSTRUMENTS.values(), ids=lambda each: each.name)
def test_the_table_of_instruments_is_sound(instrument: Instrument) -> None:
    if instrument.fretting:
        assert rises(instrument.fretting)
        assert len(instrument.fretting) == instrument.frets
    assert not instrument.tuning.nuts or len(instrument.tuning.nuts) == len(instrument.tuning)


@pytest.mark.parametrize(("name", "strings"), [("twelve-string guitar", "six"), ("mandolin", "four"), ("charango", "five")])
def test_courses_are_written_as_one_string(name: str, strings: str) -> None:
    assert INSTRUMENTS[name].note.startswith(f"written as {strings} strings, each for its pair")
    assert len(INSTRUMENTS[name].tuning) == {"four": 4, "five": 5, "six": 6}[strings]
