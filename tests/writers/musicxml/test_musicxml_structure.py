"""Bars, bar lines, attributes, directions, words: the frame around the notes.

Sources: the W3C MusicXML 4.0 reference for what the elements mean; music21 reads key, meter, tempo, repeats, chord symbols and words back.
"""

from __future__ import annotations

from typing import Any

import pytest

from tabforge.model.events import Attached, Word
from tabforge.model.harmony import ChordDegree, ChordSymbol
from tabforge.model.meter import Swing, Tempo
from tabforge.model.pitch import PitchClass
from tabforge.model.score import BarLine, Score
from tabforge.model.values import BY_LETTER
from tabforge.writers.musicxml import write
from tabforge.writers.options import WriteOptions
from tests.proof.engraver import misplaced
from tests.proof.readback import parse
from tests.proof.scores import (
    A_MINOR,
    BASS,
    BB_LYDIAN,
    E_MAJOR,
    UKULELE,
    bar,
    note,
    one_bar,
    rest,
    scale,
    score,
    section,
    tuning,
    voice,
)  # fmt: skip
from tests.proof.xsd import problems
from tests.writers.musicxml.xml import names, notes, tree, words

Q, E = BY_LETTER["q"], BY_LETTER["e"]


def whole(**more: Any) -> Any:
    return bar(voice(note("w", "3:5")), **more)


def quarters(count: int, **more: Any) -> Any:
    return bar(voice(*[note("q", "3:5")] * count), partial=count < 4, **more)


def measures(given: Score) -> list[tuple[str, str | None]]:
    return [(each.get("number"), each.get("implicit")) for each in tree(given).iter("measure")]


def test_numbers_of_whole_bars_run_through_the_sections() -> None:
    assert measures(score(section(whole(), whole()), section(whole()))) == [("1", None), ("2", None), ("3", None)]


def test_pickups_and_the_second_part_of_a_cut_bar_are_not_counted() -> None:
    first = section(quarters(1), whole(), quarters(3, right=BarLine(repeat="backward")), quarters(1), whole())
    second = section(quarters(1), whole(), quarters(3))
    assert measures(score(first, second)) == [
        ("0", "yes"), ("1", None), ("2", None), ("X1", "yes"), ("3", None), ("X2", "yes"), ("4", None), ("5", None),
    ]  # fmt: skip


def bar_lines(given: Score) -> list[list[tuple[str, str | None, str | None]]]:
    found = []
    for measure in tree(given).iter("measure"):
        lines = [(each.get("location"), each.findtext("bar-style"), each.find("repeat")) for each in measure.iter("barline")]
        found.append([(place, style, repeat.get("direction") if repeat is not None else None) for place, style, repeat in lines])
    return found


def test_a_section_ends_in_a_double_line_and_the_score_in_a_final_one() -> None:
    assert bar_lines(score(section(whole(), whole()), section(whole()))) == [
        [], [("right", "light-light", None)], [("right", "light-heavy", None)],
    ]  # fmt: skip
    last = section(whole(left=BarLine(repeat="forward"), right=BarLine(repeat="backward")))
    assert bar_lines(score(last, section(whole(right=BarLine(style="double"))))) == [
        [("left", "heavy-light", "forward"), ("right", "light-heavy", "backward")],
        [("right", "light-light", None)],
    ]


def test_left_lines_come_first_and_right_ones_last() -> None:
    given = score(section(whole(left=BarLine(repeat="forward"), right=BarLine(repeat="backward"), tempo=Tempo(bpm=90.0, beat=Q))))
    measure = next(tree(given).iter("measure"))
    assert (measure[0].get("location"), measure[-1].get("location")) == ("left", "right")


def test_repeats_and_endings_are_played_as_often_as_meant() -> None:
    def named(fret: int, **more: Any) -> Any:
        return bar(voice(note("w", f"3:{fret}")), **more)

    first = named(2, left=BarLine(endings=(1, 2)), right=BarLine(repeat="backward", times=3, endings=(1, 2)))
    second = named(4, left=BarLine(endings=(3,)), right=BarLine(endings=(3,), hooked=False))
    given = score(section(named(0, left=BarLine(repeat="forward")), first, second))
    part = parse(write(given)[0]).parts[0]
    played = [each.nameWithOctave for each in part.expandRepeats().flatten().notes]
    assert played == ["G3", "A3", "G3", "A3", "G3", "B3"]
    endings = [(each.get("number"), each.get("type")) for each in tree(given).iter("ending")]
    assert endings == [("1,2", "start"), ("1,2", "stop"), ("3", "start"), ("3", "discontinue")]
    assert "3 times" not in words(tree(given))  # the brackets say it


def test_three_times_over_is_three_times_over() -> None:
    given = score(section(whole(left=BarLine(repeat="forward")), whole(right=BarLine(repeat="backward", times=3))))
    part = parse(write(given)[0]).parts[0]
    assert len(part.expandRepeats().flatten().notes) == 6
    assert words(tree(given)) == ["3 times"]


@pytest.mark.parametrize("text", ["4/4", "3/4", "6/8", "12/8", "3+2+2/8", "2/2", "7/16"])
def test_the_meter_is_read_back(text: str) -> None:
    from music21.meter import TimeSignature

    top, below = text.split("/")
    unit = {"8": "e", "4": "q", "2": "h", "16": "s"}[below]
    count = sum(map(int, top.split("+")))
    given = score(section(bar(voice(*[note(unit, "3:5")] * count), meter=text)))
    found = parse(write(given)[0]).recurse().getElementsByClass(TimeSignature)[0]
    assert found.ratioString == "+".join(f"{part}/{below}" for part in top.split("+"))
    assert next(tree(given).iter("beats")).text == top


def test_attributes_change_only_where_they_change() -> None:
    waltz = bar(voice(note("h.", "3:5")), meter="3/4")
    lowered = section(waltz, strings=tuning("D2 A2 D3 G3 B3 E4", "drop D"), capo=2, scale=E_MAJOR)
    document = tree(score(section(whole(), whole(), waltz, scale=BB_LYDIAN), lowered))
    found = [[child.tag for child in each] for each in document.iter("attributes")]
    assert found == [["divisions", "key", "time", "staves", "clef", "clef", "staff-details"], ["time"], ["key", "staff-details"]]
    assert [each.text for each in document.iter("fifths")] == ["-1", "4"]
    assert words(document) == ["Tuning: drop D (D2 A2 D3 G3 B3 E4)\nCapo 2"]


def test_the_tuning_is_written_from_the_bottom_line_up_without_capo() -> None:
    document = tree(score(section(whole(), capo=3)))
    details = document.find(".//staff-details")
    assert names(details) == ["staff-type", "staff-lines", *["staff-tuning"] * 6, "capo", "staff-size"]
    assert details.findtext("staff-type") == "alternate"
    strings = [(each.get("line"), each[0].text + each[-1].text) for each in details.iter("staff-tuning")]
    assert strings == [("1", "E2"), ("2", "A2"), ("3", "D3"), ("4", "G3"), ("5", "B3"), ("6", "E4")]
    assert details.findtext("capo") == "3"


def test_a_short_string_is_told_apart_so_that_no_reader_turns_the_staff_upside_down() -> None:
    banjo = tuning("G4 D3 G3 B3 D4")
    given = score(section(bar(voice(note("h", "5:0", strings=banjo), note("h", "1:2", strings=banjo))), strings=banjo))
    for staves in ("both", "parts", "tab"):
        document = write(given, WriteOptions(staves=staves))[0]  # type: ignore[arg-type]  # some of STAVES
        assert problems(document) == []
        assert misplaced(given, document) == []
    details = list(tree(given).iter("staff-details"))
    found = [[(each.get("line"), each[0].text + each[-1].text) for each in one.iter("staff-tuning")] for one in details]
    assert found == [[("2", "D3"), ("3", "G3"), ("4", "B3"), ("5", "D4")], [("1", "G4")]]
    assert [(each.get("number"), each.findtext("staff-lines")) for each in details] == [("2", "5"), ("2", None)]


def test_a_capo_raises_what_sounds_and_leaves_the_frets() -> None:
    given = score(section(bar(voice(note("w", "1:3", capo=2))), capo=2))
    found = notes(tree(given), 2)[0]
    assert (found.findtext("pitch/step"), found.findtext("pitch/octave"), found.findtext(".//fret")) == ("A", "4", "3")


def test_other_instruments_have_their_clefs_and_lines() -> None:
    for instrument, lines, clef in ((UKULELE, "4", ("G", "2", None)), (BASS, "4", ("F", "4", "-1"))):
        document = tree(score(section(whole(), strings=instrument.tuning), instrument=instrument))
        assert document.findtext(".//staff-lines") == lines
        first = document.find(".//clef")
        assert (first.findtext("sign"), first.findtext("line"), first.findtext("clef-octave-change")) == clef


def test_modes() -> None:
    def mode(given: Any, exact: bool) -> str | None:
        return tree(score(section(whole(), scale=given)), exact_mode=exact).findtext(".//mode")

    dorian = scale("D3", "dorian", "1 2 b3 4 5 6 b7", "D E F G A B C", 0)
    harmonic = scale("A2", "harmonic minor", "1 2 b3 4 5 b6 7", "A B C D E F G#", 0)
    blues = scale("E2", "blues", "1 b3 4 b5 5 b7", "E G A Bb B D", 1)
    wholes = scale("C3", "whole tone", "1 2 3 #4 #5 b7", "C D E F# G# Bb", 0)
    locrian = scale("B2", "locrian", "1 b2 b3 4 b5 b6 b7", "B C D E F G A", 0)
    lydian_dominant = scale("C3", "lydian dominant", "1 2 3 #4 5 6 b7", "C D E F# G A Bb", 1)
    for given, plain, exact in (
        (E_MAJOR, "major", "major"), (A_MINOR, "minor", "minor"), (harmonic, "minor", "minor"), (blues, "minor", "minor"),
        (BB_LYDIAN, None, "lydian"), (dorian, None, "dorian"), (locrian, None, "locrian"), (wholes, None, None),
        (lydian_dominant, None, None),
    ):  # fmt: skip
        assert (mode(given, False), mode(given, True)) == (plain, exact), given.name


def test_scale_names_and_all_text_are_kept_in_fields() -> None:
    given = score(
        section(whole(), title="Climb", scale=BB_LYDIAN, text=("Slowly at first.",)),
        section(title="A word", text=("Rest your hand.", "Drink some tea.")),
        section(whole(), scale=E_MAJOR),
        text=("For the second week.",),
    )
    fields = {each.get("name"): each.text for each in tree(given).iter("miscellaneous-field")}
    assert fields == {
        "scale": "Bb lydian; E ionian",
        "text": "For the second week.",
        "text of section 1: Climb": "Slowly at first.",
        "text of section 2: A word": "Rest your hand.\nDrink some tea.",
    }


def test_the_text_of_a_section_stands_above_it_wrapped() -> None:
    text = "Keep every finger down until the next string, and let the wrist stay where it is."
    found = words(tree(score(section(whole(), text=(text, "Again.")))))
    assert found == ["Keep every finger down until the next string, and let the\nwrist stay where it is.\nAgain."]


def test_titles_are_rehearsal_marks_and_new_systems() -> None:
    document = tree(score(section(whole(), whole(), title="Climb"), section(whole(), title="Fall & rise")))
    assert [each.text for each in document.iter("rehearsal")] == ["Climb", "Fall & rise"]
    assert [each.find("print") is not None for each in document.iter("measure")] == [False, False, True]


def test_tempo_is_read_back() -> None:
    from music21.tempo import MetronomeMark

    tempo = Tempo(bpm=60.0, beat=Q, dots=1, words="Slowly")
    given = score(section(quarters(1, tempo=tempo), whole()))
    first = next(tree(given).iter("measure"))
    assert first.find(".//sound").get("tempo") == "90"
    assert (first.findtext(".//beat-unit"), len(first.findall(".//beat-unit-dot")), first.findtext(".//per-minute")) == ("quarter", 1, "60")
    mark = next(iter(parse(write(given)[0]).recurse().getElementsByClass(MetronomeMark)))
    assert (mark.number, mark.referent.quarterLength, mark.getQuarterBPM()) == (60, 1.5, 90)


def test_swing_begins_changes_and_ends() -> None:
    swings = (Swing(value=E), None, Swing(value=BY_LETTER["s"], first=3, second=2))
    document = tree(score(*(section(whole(), swing=swing) for swing in swings)))
    assert words(document) == ["Swing eighths", "Straight", "Swing sixteenths 3:2"]
    found = [[(child.tag, child.text) for child in each] for each in document.iter("swing")]
    assert found == [
        [("first", "2"), ("second", "1"), ("swing-type", "eighth")],
        [("straight", None)],
        [("first", "3"), ("second", "2"), ("swing-type", "16th")],
    ]


def test_chord_symbols_are_read_back_as_symbols() -> None:
    from music21.harmony import ChordSymbol as Symbol
    from music21.harmony import NoChord

    symbols = (
        ChordSymbol(text="Bbmaj7", root=PitchClass("B", -1), kind="major-seventh", suffix="maj7"),
        ChordSymbol(text="C/E", root=PitchClass("C"), kind="major", bass=PitchClass("E")),
        ChordSymbol(text="D7#9", root=PitchClass("D"), kind="dominant", suffix="7#9", degrees=(ChordDegree(value=9, alter=1, type="add"),)),
        ChordSymbol(text="N.C.", root=None, kind="none"),
    )
    given = one_bar(*(note("q", "3:5", attached=Attached(chord=symbol)) for symbol in symbols))
    found = list(parse(write(given)[0]).recurse().getElementsByClass((Symbol, NoChord)))
    assert [type(each) for each in found] == [Symbol, Symbol, Symbol, NoChord]
    assert [(each.root().name, each.bass().name) for each in found[:3]] == [("B-", "B-"), ("C", "E"), ("D", "D")]
    document = tree(given)
    assert [each.get("text") for each in document.iter("kind")] == ["maj7", "", "7#9", "N.C."]
    assert [(each.findtext("degree-value"), each.get("print-object")) for each in document.iter("degree")] == [("9", "no")]
    # On notation only, once.
    assert {each.findtext("staff") for each in document.iter("harmony")} == {"1"}


def test_words_are_joined_into_syllables_over_bar_lines() -> None:
    def sung(text: str, hyphen: bool = False) -> Any:
        return note("h", "3:5", attached=Attached(word=Word(text=text, hyphen=hyphen)))

    given = score(section(bar(voice(sung("tide"), sung("lan", True))), bar(voice(sung("ter", True), sung("ns")))))
    lyrics = [(each.lyrics[0].text, each.lyrics[0].syllabic) for each in parse(write(given)[0]).parts[0].flatten().notes]
    assert lyrics == [("tide", "single"), ("lan", "begin"), ("ter", "middle"), ("ns", "end")]


def test_fingers_and_strokes_stand_on_notation() -> None:
    given = one_bar(
        note("q", "3:5", finger="1", attached=Attached(stroke="d")), note("q", "3:5", finger="T", attached=Attached(stroke="u")),
        note("h", "3:5", pluck="p"),
    )  # fmt: skip
    document = tree(given)
    found = [[(child.tag, child.text) for child in each.iterfind("notations/technical/*")] for each in notes(document)]
    assert found == [[("down-bow", None), ("fingering", "1")], [("up-bow", None), ("fingering", "T")], [("pluck", "p")]]
    for each in notes(document, 2):
        assert [child.tag for child in each.iterfind("notations/technical/*")] == ["string", "fret"]


def test_tab_copies_are_silent_and_their_rests_hidden() -> None:
    document = tree(one_bar(note("q", "3:5"), rest("q"), note("h", "3:5")))
    assert [each.get("dynamics") for each in notes(document, 2) if each.find("rest") is None] == ["0", "0"]
    assert [each.get("print-object") for each in notes(document, 2)] == [None, "no", None]
    assert [each.get("print-object") for each in notes(document, 1)] == [None, None, None]


def test_a_rest_that_fills_the_bar_is_a_bar_rest() -> None:
    document = tree(score(section(bar(voice(rest("h.")), meter="3/4"), bar(voice(rest("q")), meter="3/4", partial=True))))
    found = [(each.find("rest").get("measure"), each.findtext("type")) for each in notes(document)]
    assert found == [("yes", None), (None, "quarter")]


def test_two_voices_have_stems_and_numbers_of_their_own() -> None:
    given = score(section(bar(voice(note("h", "1:0"), note("h", "1:3")), voice(note("w", "6:0"))), whole()))
    document = tree(given)
    one, two = document.iter("measure")
    assert [(each.findtext("voice"), each.findtext("stem")) for each in one.iter("note")] == [
        ("1", "up"), ("1", "up"), ("2", "down"), ("5", "none"), ("5", "none"), ("6", "none"),
    ]  # fmt: skip
    assert [(each.findtext("voice"), each.findtext("stem")) for each in two.iter("note")] == [("1", None), ("5", "none")]
    assert len(list(one.iter("backup"))) == 3


def test_grace_notes_take_their_time_from_the_right_neighbour() -> None:
    before, on = note("e", "3:2", grace="before"), note("s", "3:2", grace="on")
    document = tree(one_bar(before, note("h", "3:5"), on, on, note("h", "3:5")))
    found = [dict(each.attrib) for each in document.iter("grace")][:3]
    assert found == [
        {"steal-time-previous": "25", "slash": "yes"},
        {"steal-time-following": "12", "slash": "no"},
        {"steal-time-following": "12", "slash": "no"},
    ]
    assert all(each.find("duration") is None for each in document.iter("note") if each.find("grace") is not None)
