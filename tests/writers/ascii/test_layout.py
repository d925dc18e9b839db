"""Names of strings, bar lines, wrapping, tuplets, voices, endings: the layout, place by place."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import pytest

from tabforge.diagrams.strings import string_names
from tabforge.model.score import BarLine, Score
from tabforge.model.values import Ratio
from tabforge.pipeline import study_from
from tabforge.writers.ascii import write
from tabforge.writers.ascii.rhythm import room, spoken_length, tuplet_number
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.build import bar, event, phrase, score, section, tempo, tuning, tuplet
from tests.writers.ascii.reader import systems


def tab(*bars: object, width: int = 80, **more: object) -> list[str]:
    """The lines of a study's systems alone."""
    text = write(score(section("", *bars)), WriteOptions(width=width, legend=False, **more))[0].decode()  # type: ignore[arg-type]
    return text.split("\n\n", 2)[2].rstrip("\n").split("\n")


# Common practice, no source: how these instruments' strings are named on tab, string 1 first.
NAMES = {
    "E2 A2 D3 G3 B3 E4": "e B G D A E",
    "D2 A2 D3 G3 B3 E4": "e B G D A D",
    "D2 A2 D3 G3 A3 D4": "d A G D A D",
    "E1 A1 D2 G2": "G D A E",
    "G4 C4 E4 A4": "A E C g",
    "G4 D3 G3 B3 D4": "D B G D g",
    "G3 D4 A4 E5": "E A D G",
    "Eb2 Ab2 Db3 Gb3 Bb3 Eb4": "eb Bb Gb Db Ab Eb",
    "B1 E2 A2 D3 G3 B3 E4": "e b G D A E B",
}


@pytest.mark.parametrize("strings", NAMES)
def test_strings_are_called_as_players_call_them(strings: str) -> None:
    names = string_names(tuning(strings))
    assert [name.strip() for name in names] == NAMES[strings].split()
    assert len({len(name) for name in names}) == 1


def test_names_with_accidentals_are_aligned() -> None:
    strings = tuning("D2 A2 D3 F#3 A3 D4")
    text = write(score(section("", bar("w 3:4", strings=strings), strings=strings)), WriteOptions())[0].decode()
    assert [line[:4] for line in text.split("\n") if re.match("[A-Ga-g]#? ?[|]", line)] == ["d |-", "A |-", "F#|-", "D |-", "A |-", "D |-"]


def test_frets_of_a_chord_begin_in_one_column() -> None:
    lines = tab(bar("h 1:9+2:10+3:9", "h 1:10+2:8"))
    assert lines[1:4] == ["e|-9-------10------|", "B|-10------8-------|", "G|-9---------------|"]


def test_longer_notes_take_more_room_but_less_than_in_proportion() -> None:
    rooms = [room(quarters) for quarters in (0.125, 0.25, 0.5, 1, 2, 4)]
    assert rooms == sorted(rooms)
    assert all(after <= 2 * before for before, after in pairwise(rooms))
    assert rooms[-1] > 2 * rooms[2]


def test_repeat_signs_have_dots_on_the_middle_strings() -> None:
    lines = tab(bar("w 1:3", left=BarLine(repeat="forward")), bar("w 1:3", right=BarLine(repeat="backward", times=3)))
    assert lines[0].strip() == "x3"
    assert lines[2] == "e||--3------------|-3-------------||"
    assert lines[3] == "B||---------------|---------------||"
    assert lines[4] == "G||:--------------|--------------:||"
    assert lines[5] == "D||:--------------|--------------:||"
    five = tuning("G4 D3 G3 B3 D4")
    one = bar("w 1:3", left=BarLine(repeat="forward"), strings=five)
    text = write(score(section("", one, strings=five)), WriteOptions(legend=False))[0].decode()
    assert [line[:4] for line in text.rstrip().split("\n")[-5:]] == ["D||-", "B||:", "G||-", "D||:", "g||-"]


def test_a_repeat_may_end_and_begin_at_one_line() -> None:
    lines = tab(bar("w 1:3", right=BarLine(repeat="backward")), bar("w 1:5", left=BarLine(repeat="forward")))
    assert lines[1] == "e|-3-------------||--5------------|"
    assert lines[3] == "G|--------------:||:--------------|"


def test_a_double_bar() -> None:
    lines = tab(bar("w 1:3", right=BarLine(style="double")), bar("w 1:5", right=BarLine(style="final")))
    assert lines[1] == "e|-3------------||-5------------||"


def test_endings_stand_over_their_bars_and_the_hook_is_told() -> None:
    lines = tab(
        bar("w 1:1", left=BarLine(endings=(1,))),
        bar("w 1:2", right=BarLine(repeat="backward", endings=(1,))),
        bar("w 1:3", left=BarLine(endings=(2, 3)), right=BarLine(style="final", endings=(2, 3), hooked=False)),
    )
    assert lines[0] == "  1.____________________________| 2,3.__________"
    assert lines[2].index("||") == lines[0].index("|")


def test_an_ending_goes_on_in_the_next_line() -> None:
    end = BarLine(repeat="backward", endings=(1,))
    bars = [bar("w 1:1", left=BarLine(endings=(1,))), *(bar("w 1:2") for _ in range(3)), bar("w 1:9", right=end)]
    lines = tab(*bars, width=40)
    tops = [line for line in lines if line.lstrip().startswith(("1.", "_"))]
    assert len(tops) == 3
    assert tops[0].endswith("_")
    assert tops[1].startswith(" _")
    assert tops[2].endswith("_|")


def test_lines_break_only_at_bar_lines() -> None:
    bars = phrase(" | ".join(["q 1:1, q 1:2, q 1:3, q 1:4"] * 9))
    text = write(score(section("", *bars)), WriteOptions(width=60, legend=False))[0].decode()
    found = systems(text)
    assert [system.strings[0].count("|") - 1 for system in found] == [2, 2, 2, 2, 1]
    assert ">" not in text


def test_a_line_is_used_to_its_last_column() -> None:
    eighths = ", ".join(["e 1:1"] * 8)
    lines = tab(*phrase(" | ".join([eighths] * 3)), width=80)
    assert {len(line) for line in lines[1:]} == {80}
    assert len(tab(*phrase(" | ".join([eighths] * 3)), width=79)) == 15


def test_a_bar_wider_than_the_line_is_broken_at_a_beat() -> None:
    lines = tab(bar(*[f"s 1:{fret % 10}" for fret in range(32)], time="8/4"), width=60)
    strings = [line for line in lines if line.startswith("e")]
    # Twenty-eight sixteenths take 57 columns: they and the edges fill the line. Two columns less, and it breaks a whole beat earlier.
    assert [len(re.findall(r"\d", line)) for line in strings] == [28, 4]
    narrower = tab(bar(*[f"s 1:{fret % 10}" for fret in range(32)], time="8/4"), width=58)
    assert [len(re.findall(r"\d", line)) for line in narrower if line.startswith("e")] == [24, 8]
    assert strings[0].endswith("->")
    assert strings[1].startswith("e>-")
    swung = tab(bar("e. 1:1", *[f"s 1:{fret % 10}" for fret in range(25)], "q 1:2", time="8/4"), width=60)
    first = next(line for line in swung if line.startswith("e"))
    assert len(re.findall(r"\d", first)) == 26  # e. and twenty-five sixteenths: seven beats


def test_a_bar_is_not_broken_inside_a_tuplet_if_it_can_be_helped() -> None:
    groups = [tuplet("5:4", *(event(f"q 1:{fret}") for fret in range(5))) for _ in range(3)]
    lines = tab(bar(*groups, time="12/4"), width=60)
    brackets = [line for line in lines if "[" in line]
    assert [line.count("[") for line in brackets] == [2, 1]
    assert [line.count("]") for line in brackets] == [2, 1]


def test_a_tuplet_that_must_be_broken_has_an_open_bracket() -> None:
    one = tuplet("7:4", *(event(f"h 1:{fret}+2:12 c:Ebmaj7") for fret in range(7)))
    lines = tab(bar(*one, time="8/4"), width=40)
    brackets = [line for line in lines if re.search(r"\[|-\]", line)]
    assert brackets[0].strip().startswith("[")
    assert not brackets[0].strip().endswith("]")
    assert brackets[-1].strip().endswith("]")


def test_tuplet_numbers() -> None:
    numbers = {(3, 2): "3", (5, 4): "5", (6, 4): "6", (7, 4): "7", (9, 8): "9", (2, 3): "2:3", (4, 3): "4:3", (5, 3): "5:3", (7, 8): "7:8"}
    assert {key: tuplet_number(Ratio(actual=key[0], normal=key[1])) for key in numbers} == numbers


def test_nested_tuplets_have_a_line_each() -> None:
    inner = tuplet("3:2", event("e 1:1"), event("e 1:2"), event("e 1:3"))
    lines = tab(bar(tuplet("3:2", event("q 1:0"), *inner, event("q 1:5")), "h r"))
    assert lines[0] == "   [----3----]"
    assert lines[1] == "       [-3-]"
    assert lines[2] == "   q   e e e q   rh"


def test_the_lower_voice_has_its_rhythm_below() -> None:
    lines = tab(bar("q 1:3", "q 1:5", "h 1:7", below=["h 6:3", "q 6:2", "q 6:0"]))
    assert lines[0].split() == ["q", "q", "h"]
    assert lines[-1].split() == ["h", "q", "q"]
    assert lines[1][3] == lines[6][3] == "3"
    assert lines[0].index("h") == lines[-1].index("q")


def test_both_voices_share_a_note_they_both_have() -> None:
    text, losses = write(score(section("", bar("h 2:3", "h 1:0", below=["w 2:3"]))), WriteOptions())
    assert losses == ()
    assert text.decode().count("3") == 1 + text.decode()[: text.decode().index("Meter")].count("3")


def test_grace_notes_of_both_voices_stand_before_the_beat_together() -> None:
    lines = tab(bar("h 1:1", "g 1:3", "gs 1:4", "h 1:5", below=["h 6:1", "g 6:2", "h 6:3"]))
    assert lines[0].index("gs") == lines[-1].index("g")
    assert lines[0].rindex("h") == lines[-1].rindex("h")


def test_an_extent_goes_on_over_a_line_with_its_name_again() -> None:
    bars = [bar("w 1:1 pm<"), bar("w 1:1 pm-"), bar("w 1:1 pm-"), bar("w 1:1 pm>"), bar("w 1:1 pm")]
    tops = [line for line in tab(*bars, width=40) if "PM" in line]
    assert tops == ["   PM--------------------------", "PM----------------|", "   PM"]


def test_meter_and_tempo_stand_over_the_bar_where_they_change() -> None:
    lines = tab(bar("w 1:1"), bar("h. 1:1", time="3/4", tempo=tempo(88, "q", "Calmly")), bar("h. 1:1", time="3/4"), bar("w 1:1"))
    assert lines[0].split() == ["3/4", "Calmly", "q=88", "4/4"]
    assert lines[2][lines[0].index("3/4") - 1] == "|"
    assert lines[2][lines[0].index("4/4") - 1] == "|"


def test_lines_may_be_left_out() -> None:
    one = bar(tuplet("3:2", event("q 1:1"), event("q 1:2"), event("q 1:3")), "h r", below=["w 6:0"])
    lines = tab(one, rhythm_line=False)
    assert len(lines) == 6
    assert all(re.match("[eBGDAE][|]", line) for line in lines)


@pytest.mark.parametrize("width", [39, 0])
def test_a_width_that_could_not_hold_a_chord_is_refused(width: int) -> None:
    with pytest.raises(ValueError, match="at least 40"):
        write(score(), WriteOptions(width=width))


def test_lengths_in_words() -> None:
    lengths = {"1": "q", "3/2": "q.", "7/4": "q..", "5/4": "q+s", "1/8": "t", "1/3": "s+1/12 of a quarter"}
    assert {key: spoken_length(Fraction(key)) for key in lengths} == lengths


def test_an_empty_score_is_its_heading() -> None:
    assert write(score(title="Nothing yet"), WriteOptions())[0] == b"Nothing yet\n===========\n\nInstrument: Guitar\n"


def test_a_section_of_text_alone() -> None:
    alone = replace(section("Before you play"), text=("Sit upright.", "", "Breathe."))
    text = write(score(alone, section("", bar("w 1:1"))), WriteOptions(legend=False))[0].decode()
    assert "Before you play\n---------------\n\nSit upright.\n\nBreathe.\n\n   w\n" in text


def test_a_section_tells_only_what_changes() -> None:
    low = tuning("D2 A2 D3 G3 B3 E4")
    study: Score = score(
        section("One", bar("w 1:1", tempo=tempo(90)), capo=1),
        section("Two", bar("w 1:1", tempo=tempo(90)), capo=1),
        section("Three", bar("h. 1:1", time="3/4", tempo=tempo(60)), strings=low),
    )
    text = write(study, WriteOptions(legend=False))[0].decode()
    assert "\n\nTwo\n---\n\n" in text
    assert "Three\n-----\nTuning: D2 A2 D3 G3 B3 E4 (low to high)\nCapo: none\nMeter: 3/4\nTempo: q=60\n\n" in text


def test_without_headings_the_strings_stand_alone() -> None:
    text = 'title Quay\ntext Slowly.\nscale C3 major\ntempo 80\n\nriff "Steps"\n  text Evenly.\n  rhythm q q h\n  degrees 1 2 3\n'
    made = study_from("quay.riff", text.encode()).score
    assert made is not None
    whole, bare = (write(made, WriteOptions(headings=wanted, legend=False))[0].decode() for wanted in (True, False))
    assert whole.endswith("\n\n" + bare)
    assert all(line[1:2] == "|" or set(line) <= set(" qh") for line in bare.splitlines())
    assert bare.count("|-") == 6


def test_an_extent_that_goes_on_over_the_line_is_more_than_its_name() -> None:
    text = 'riff "Quay"\n  signs  . | newline\n  rhythm q h s s e | w\n  frets  6:1 1 18 18 18 | 18\n  marks  . . . ba18 - | -\n'
    made = study_from("quay.riff", text.encode()).score
    assert made is not None
    lines = write(made, WriteOptions(legend=False))[0].decode().splitlines()
    assert [line.strip() for line in lines if "BXVIII" in line] == ["BXVIII-"]
