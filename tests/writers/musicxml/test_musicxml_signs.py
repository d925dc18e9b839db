"""What stands around the notes: dynamics, hairpins, signs of the way, tempo changes, chord diagrams, long rests, lines over the staff.

Sources: the W3C MusicXML 4.0 reference for what the elements mean (``octave-shift``: a line marked 8va is a shift down from the pitches;
``frame-note`` and ``first-fret`` count real frets; ``measure-style`` without a number is for every staff); music21's ``expandRepeats`` for
the way; Roman numerals and grips as any handbook has them (common practice, no source).
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from lxml import etree

from tabforge.model.events import DYNAMICS, Attached, Hairpin
from tabforge.model.harmony import ChordSymbol
from tabforge.model.meter import Tempo
from tabforge.model.pitch import PitchClass
from tabforge.model.score import SIGNS, BarLine, Score
from tabforge.model.values import BY_LETTER
from tabforge.source import Span
from tabforge.writers.musicxml import write
from tabforge.writers.musicxml.extents import roman
from tabforge.writers.options import STAVES, Staves, WriteOptions
from tests.proof.readback import compare, parse
from tests.proof.scores import bar, note, one_bar, rest, score, section, voice
from tests.proof.xsd import problems
from tests.writers.musicxml.xml import notes, tree, words

UP, DOWN = "crescendo", "diminuendo"


def named(fret: int, **more: Any) -> Any:
    """A bar of one note, told apart by its fret on string 3 (G3 open)."""
    return bar(voice(note("w", f"3:{fret}")), **more)


def loud(length: str, dynamic: str | None = None, *hairpins: Hairpin) -> Any:
    return note(length, "3:5", attached=Attached(dynamic=dynamic, hairpins=hairpins))


def order(document: Any) -> list[str]:
    """Wedges, dynamics, octave lines and the notes of the upper staff in document order."""
    found = []
    for each in document.find(".//measure"):
        if each.tag == "backup":
            break
        if each.tag == "note" and each.find("chord") is None:
            found.append("note")
        for kind in each.iterfind("direction-type/*"):
            shown = kind[0].tag if kind.tag == "dynamics" else f"{kind.get('type')} {kind.get('number')}"
            found.append(shown)
    return found


@pytest.mark.parametrize("name", DYNAMICS)
def test_every_dynamic_is_valid_and_stands_below_the_notation(name: str) -> None:
    document, losses = write(one_bar(loud("w", name)))
    assert problems(document) == []
    assert not losses
    found = etree.fromstring(document).findall(".//direction[direction-type]")
    assert [(each.get("placement"), each.findtext("staff"), each.find("direction-type/dynamics")[0].tag) for each in found] == [
        ("below", "1", name)
    ]


def test_hairpins_end_before_what_follows_or_with_their_last_note() -> None:
    given = one_bar(
        loud("q", "p", Hairpin(kind=UP, begins=True)), loud("q"),
        loud("q", "f", Hairpin(kind=UP, begins=False), Hairpin(kind=DOWN, begins=True)),
        loud("q", None, Hairpin(kind=DOWN, begins=False, through=True)),
    )  # fmt: skip
    assert order(tree(given)) == [
        "p", "crescendo 1", "note", "note", "stop 1", "f", "diminuendo 2", "note", "note", "stop 2",
    ]  # fmt: skip
    assert [each.get("placement") for each in tree(given).iter("direction")] == ["below"] * 6


def test_a_hairpin_over_one_note_has_both_ends() -> None:
    both = (Hairpin(kind=UP, begins=True), Hairpin(kind=UP, begins=False, through=True))
    assert order(tree(one_bar(loud("h", None, *both), loud("h", None, *both)))) == ["crescendo 1", "note", "stop 1"] * 2


def test_hairpins_of_two_voices_have_numbers_of_their_own() -> None:
    upper = voice(loud("h", None, Hairpin(kind=UP, begins=True)), loud("h", None, Hairpin(kind=UP, begins=False, through=True)))
    lower = voice(loud("w", None, Hairpin(kind=DOWN, begins=True)), place=9)
    ends = voice(loud("w")), voice(loud("w", None, Hairpin(kind=DOWN, begins=False, through=True)), place=19)
    document = tree(score(section(bar(upper, lower), bar(*ends))))
    found = [(each.get("type"), each.get("number")) for each in document.iter("wedge")]
    assert found == [("crescendo", "1"), ("stop", "1"), ("diminuendo", "1"), ("stop", "1")]


def test_a_hairpin_without_its_other_end_is_reported() -> None:
    _, losses = write(one_bar(loud("h", None, Hairpin(kind=UP, begins=True)), loud("h")))
    assert [(loss.what, loss.span) for loss in losses] == [("hairpin", Span(0, 1))]
    _, losses = write(one_bar(loud("h"), loud("h", None, Hairpin(kind=UP, begins=False))))
    assert [(loss.what, loss.span) for loss in losses] == [("hairpin", Span(1, 2))]


def played(given: Score) -> list[str]:
    part = parse(write(given, WriteOptions(staves="notation"))[0]).parts[0]
    return [each.nameWithOctave for each in part.expandRepeats().flatten().notes]


G, A, B, C, D = "G3", "A3", "B3", "C4", "D4"


@pytest.mark.parametrize(
    ("signs", "way"),
    [
        (((), (), ("dc",)), [G, A, B] * 2),
        (((), ("fine",), ("dcfine",)), [G, A, B, G, A]),
        (((), ("segno",), ("ds",)), [G, A, B, A, B]),
        (((), ("segno", "fine"), (), ("dsfine",)), [G, A, B, C, A]),
        (((), ("tocoda",), ("dccoda",), ("coda",)), [G, A, B, G, A, C]),
        (((), ("segno",), ("tocoda",), ("dscoda",), ("coda",)), [G, A, B, C, A, B, D]),
    ],
    ids=lambda given: "-".join(sign for signs in given for sign in signs) if isinstance(given[0], tuple) else "",
)
def test_an_independent_reader_finds_the_way(signs: tuple[tuple[str, ...], ...], way: list[str]) -> None:
    bars = [named(fret, signs=each) for fret, each in zip((0, 2, 4, 5, 7), signs, strict=False)]
    assert played(score(section(*bars))) == way


def test_signs_stand_at_their_end_of_the_bar_with_their_sound() -> None:
    order_ = ("segno", "tocoda", "dscoda", "coda", "fine", "dc")
    document = tree(score(section(*(named(2, signs=(sign,)) for sign in order_))))
    found = []
    for measure in document.iter("measure"):
        tags = [each.tag for each in measure if each.tag in {"note", "backup", "direction"}]
        sign = measure.find("direction")
        found.append((tags.index("direction") < tags.index("note"), dict(sign.find("sound").attrib), sign.findtext("direction-type/words")))
    assert found == [
        (True, {"segno": "segno1"}, None),
        (False, {"tocoda": "coda1"}, "To Coda"),
        (False, {"dalsegno": "segno1"}, "D.S. al Coda"),
        (True, {"coda": "coda1"}, None),
        (False, {"fine": "yes"}, "Fine"),
        (False, {"dacapo": "yes"}, "D.C."),
    ]


def test_a_second_segno_is_told_from_the_first_and_a_jump_to_nowhere_makes_no_sound() -> None:
    bars = [named(2, signs=(sign,)) for sign in ("segno", "ds", "segno", "ds", "tocoda")]
    sounds = [dict(each.attrib) for each in tree(score(section(*bars))).iter("sound")]
    assert sounds == [{"segno": "segno1"}, {"dalsegno": "segno1"}, {"segno": "segno2"}, {"dalsegno": "segno2"}]
    assert not list(tree(score(section(named(2, signs=("ds",))))).iter("sound"))


@pytest.mark.parametrize("sign", SIGNS)
def test_every_sign_is_valid_in_every_layout_and_stands_once(sign: str) -> None:
    for staves in STAVES:
        document, losses = write(score(section(named(2, signs=(sign,)), named(4))), WriteOptions(staves=staves))
        assert problems(document) == []
        assert not losses
        assert len(list(etree.fromstring(document).iter("direction"))) == 1


def test_rehearsal_marks_inside_a_section_and_line_breaks() -> None:
    given = score(section(named(0), named(2, rehearsal="B", new_line=True), title="Climb"), section(named(4, new_line=True)))
    document = tree(given)
    assert [each.text for each in document.iter("rehearsal")] == ["Climb", "B"]
    assert [[dict(each.attrib) for each in measure.findall("print")] for measure in document.iter("measure")] == [
        [], [{"new-system": "yes"}], [{"new-system": "yes"}],
    ]  # fmt: skip


def test_a_line_break_at_the_very_beginning_is_none() -> None:
    assert tree(score(section(named(0, new_line=True)))).find(".//print") is None


def test_tempo_changes_are_words_and_a_tempo_goes_back() -> None:
    slow = Tempo(bpm=60.0, beat=BY_LETTER["q"], dots=1)
    bars = [named(0, tempo=slow), named(2, tempo_change="rit"), named(4, tempo_change="atempo"), named(5, tempo_change="accel")]
    document = tree(score(section(*bars), section(named(2, tempo_change="rall"), named(0, tempo=replace(slow, bpm=80.0)))))
    assert words(document) == ["rit.", "a tempo", "accel.", "rall."]
    sounds = [[each.get("tempo") for each in measure.iter("sound")] for measure in document.iter("measure")]
    assert sounds == [["90"], [], ["90"], [], [], ["120"]]
    # Without a tempo there is none to go back to.
    unknown = tree(score(section(named(0, tempo_change="atempo"))))
    assert (words(unknown), list(unknown.iter("sound"))) == (["a tempo"], [])


def quiet(**more: Any) -> Any:
    return bar(voice(rest("w")), **more)


def long_rests(*bars: Any) -> list[tuple[int, str]]:
    document = tree(score(section(*bars)))
    assert all(each.getparent().get("number") is None for each in document.iter("multiple-rest"))
    return [
        (number, each.text)
        for number, measure in enumerate(document.iter("measure"), 1)
        for each in measure.iterfind("attributes/measure-style/multiple-rest")
    ]


def test_rests_of_several_bars_are_groups() -> None:
    assert long_rests(named(2), quiet(), quiet(), quiet(), named(2), quiet()) == [(2, "3")]
    assert long_rests(quiet(), quiet(), named(0), quiet(), quiet()) == [(1, "2"), (4, "2")]


@pytest.mark.parametrize(
    "parting",
    [
        {"tempo": Tempo(bpm=60.0, beat=BY_LETTER["q"])}, {"tempo_change": "rit"}, {"rehearsal": "B"}, {"new_line": True},
        {"signs": ("segno",)}, {"left": BarLine(repeat="forward")}, {"left": BarLine(endings=(1,))},
    ],
    ids=lambda given: next(iter(given)),
)  # fmt: skip
def test_what_begins_a_bar_parts_a_long_rest(parting: dict[str, Any]) -> None:
    assert long_rests(quiet(), quiet(), quiet(**parting), quiet()) == [(1, "2"), (3, "2")]


@pytest.mark.parametrize("parting", [{"signs": ("fine",)}, {"right": BarLine(style="double")}], ids=lambda given: next(iter(given)))
def test_what_ends_a_bar_parts_a_long_rest(parting: dict[str, Any]) -> None:
    assert long_rests(quiet(), quiet(**parting), quiet(), quiet()) == [(1, "2"), (3, "2")]


def test_a_rest_that_carries_something_is_no_part_of_a_long_one() -> None:
    loud_rest = bar(voice(rest("w", attached=Attached(dynamic="p"))))
    held = bar(voice(rest("w", marks="fm")))
    waltz = bar(voice(rest("h.")), meter="3/4")
    two = bar(voice(rest("w")), voice(rest("w")))
    for odd in (loud_rest, held, waltz, two):
        assert long_rests(quiet(), odd, quiet()) == []


def test_a_long_rest_does_not_reach_into_the_next_section() -> None:
    document = tree(score(section(quiet()), section(quiet())))
    assert not list(document.iter("multiple-rest"))


def grip(text: str, shape: tuple[int | None, ...]) -> Any:
    symbol = ChordSymbol(text=text, root=PitchClass(text[0]), kind="major", shape=shape)
    document, losses = write(one_bar(note("w", "3:5", attached=Attached(chord=symbol))))
    assert problems(document) == []
    frame = etree.fromstring(document).find(".//harmony/frame")
    if frame is None:
        return losses
    stops = [(each.findtext("string"), each.findtext("fret")) for each in frame.iter("frame-note")]
    ends = [(each.getparent().findtext("string"), each.get("type")) for each in frame.iter("barre")]
    return frame.findtext("frame-strings"), frame.findtext("frame-frets"), frame.findtext("first-fret"), stops, ends


def test_a_grip_is_written_string_by_string_with_its_open_ones() -> None:
    assert grip("C", (None, 3, 2, 0, 1, 0)) == (
        "6", "4", None, [("5", "3"), ("4", "2"), ("3", "0"), ("2", "1"), ("1", "0")], [],
    )  # fmt: skip


def test_a_grip_high_on_the_neck_begins_at_its_lowest_fret() -> None:
    assert grip("E", (None, 7, 9, 9, 9, None))[1:3] == ("4", "7")
    assert grip("G", (3, 5, 5, 4, 3, 3))[1:3] == ("4", "3")
    assert grip("A", (5, None, 7, 9, 10, None))[1:3] == ("6", "5")  # six frets wide
    assert grip("E", (0, 2, 2, 1, 0, 0))[1:3] == ("4", None)


@pytest.mark.parametrize(
    ("shape", "ends"),
    [
        ((1, 3, 3, 2, 1, 1), ("6", "1")),  # F
        ((None, 2, 4, 4, 3, 2), ("5", "1")),  # B minor
        ((None, None, 3, 2, 1, 1), ("2", "1")),  # F, small
        ((None, 0, 2, 2, 2, 2), ("4", "1")),  # A6
        ((None, None, 0, 2, 3, 2), None),  # D: three fingers
        ((None, 0, 2, 2, 2, 0), None),  # A: three fingers
        ((None, 2, 1, 2, 0, 2), None),  # B7: the lowest fret on one string alone
        ((3, 2, 0, 0, 3, 3), None),  # G
        ((2, 2, 0, 3, 3, 2), None),  # an open string lies inside
    ],
)
def test_a_barre_lies_where_fingers_run_short(shape: tuple[int | None, ...], ends: tuple[str, str] | None) -> None:
    assert grip("F", shape)[4] == ([(ends[0], "start"), (ends[1], "stop")] if ends else [])


def test_a_grip_of_no_string_is_reported() -> None:
    assert [(loss.what, loss.span) for loss in grip("E", (None,) * 6)] == [("chord diagram", Span(0, 1))]


def test_diagrams_for_the_left_hand_are_reported_once_and_only_where_there_are_diagrams() -> None:
    symbol = ChordSymbol(text="E", root=PitchClass("E"), kind="major", shape=(0, 2, 2, 1, 0, 0))
    plain = replace(symbol, shape=None)

    def losses(hand: bool, *symbols: ChordSymbol) -> list[tuple[str, Span]]:
        items = [note("h", "3:5", attached=Attached(chord=each)) for each in symbols]
        given = score(section(bar(voice(*items))), left_handed=hand)
        return [(loss.what, loss.span) for loss in write(given)[1]]

    assert losses(True, plain, symbol) == [("chord diagrams for the left hand", Span(1, 2))]
    assert losses(True, symbol, symbol) == [("chord diagrams for the left hand", Span(0, 1))]
    assert losses(True, plain, plain) == losses(False, symbol, symbol) == []


def test_a_partial_capo_is_told_where_it_changes() -> None:
    given = score(section(named(0), partial_capo=(2, (5, 4, 3))), section(named(0), partial_capo=(2, (5, 4, 3))), section(named(0)))
    assert words(tree(given)) == ["Partial capo 2 on strings 5, 4, 3", "No partial capo"]


@pytest.mark.parametrize(
    ("form", "kind", "size", "place"), [("8va", "down", "8", "above"), ("8vb", "up", "8", "below"), ("15ma", "down", "15", "above")]
)
def test_octave_lines_keep_the_pitch_that_sounds(form: str, kind: str, size: str, place: str) -> None:
    given = one_bar(note("q", "1:12", marks=f"{form}:start"), note("q", "1:12", marks=f"{form}:stop"), note("h", "1:12"))
    document = tree(given)
    shifts = [(each.get("type"), each.get("size")) for each in document.iter("octave-shift")]
    assert shifts == [(kind, size), ("stop", size)]
    assert order(document) == [f"{kind} 1", "note", "note", "stop 1", "note"]
    assert {each.findtext("pitch/octave") for each in notes(document)} == {"5"}
    assert {each.get("placement") for each in document.iter("direction")} == {place}
    assert compare(given, write(given)[0]) == []
    _, losses = write(given, WriteOptions(staves="tab"))
    assert [(loss.span, loss.what[:11]) for loss in losses] == [(Span(0, 1), "octave line")]


def test_barres_are_roman_numerals_above_notation() -> None:
    given = one_bar(
        note("q", "6:3 5:5", marks="ba3:start"), note("q", "1:3", marks="ba3:stop"), note("q", "2:9", marks="hb9"), note("q", "2:5")
    )
    for staves, staff in (("both", "1"), ("tab", None), ("notation", None)):
        document = tree(given, staves)  # type: ignore[arg-type]  # one of STAVES
        found = [each for each in document.iter("direction") if each.find("direction-type/words") is not None]
        assert [(each.findtext("direction-type/words"), each.findtext("staff")) for each in found] == [("B III", staff), ("½B IX", staff)]
        assert [each.get("type") for each in document.iter("dashes")] == ["start", "stop"]


def test_roman_numerals() -> None:
    assert [roman(number) for number in (1, 2, 3, 4, 5, 7, 9, 10, 12, 14, 19, 24)] == [
        "I", "II", "III", "IV", "V", "VII", "IX", "X", "XII", "XIV", "XIX", "XXIV",
    ]  # fmt: skip


def test_words_that_notes_in_a_row_share_are_said_once() -> None:
    harmonics = [note("q", f"{string}:12", marks="nh") for string in (6, 5, 4)]
    document = tree(score(section(bar(voice(*harmonics, note("q", "3:12 2:12", marks="nh"))), bar(voice(harmonics[0], note("h.", "3:2"))))))
    assert words(document) == ["N.H."]
    tab = [each for each in document.iter("note", "direction") if each.findtext("staff") == "2" and each.find("chord") is None]
    kinds = [each.tag if each.tag == "note" else next(each.iter("dashes")).get("type") for each in tab]
    assert kinds == ["start", *["note"] * 5, "stop", "note"]


def test_words_are_said_again_after_something_else_and_in_the_next_section() -> None:
    harmonic = note("q", "6:12", marks="nh")
    parted = score(section(bar(voice(harmonic, note("q", "6:2"), harmonic, rest("q")))), section(bar(voice(harmonic, note("h.", "6:2")))))
    assert words(tree(parted)) == ["N.H."] * 3
    assert not list(tree(parted).iter("dashes"))


def test_of_artificial_harmonics_in_a_row_only_the_fret_to_touch_is_said_again() -> None:
    given = one_bar(note("q", "3:2", marks="ah"), note("q", "3:4", marks="ah"), note("q", "3:5", marks="ah7"), note("q", "3:5", marks="th"))
    assert words(tree(given)) == ["A.H. (14)", "(16)", "(12)", "T.H. (17)"]


def test_a_brush_is_an_arrow_on_notation_and_words_on_tab() -> None:
    for form, direction, arrow in (("br/", "up", "↑"), ("br\\", "down", "↓")):
        document = tree(one_bar(note("w", "4:2 3:2 2:3", marks=form)))
        assert [each.findtext("technical/arrow/arrow-direction") for each in document.iter("notations")].count(direction) == 1
        assert words(document) == [f"brush {arrow}"]


def test_what_the_standard_has_no_sign_for_is_in_words() -> None:
    given = one_bar(*(note("q", "6:2", marks=form) for form in ("rk", "sw", "dip", "sc")))
    for staves in STAVES:
        assert words(tree(given, staves)) == ["rake", "swell", "dip", "scrape"]


def test_a_first_bar_that_a_repeat_cuts_is_no_pickup() -> None:
    def part(count: int, **more: Any) -> Any:
        return bar(voice(*[note("q", "3:5")] * count), partial=count < 4, **more)

    cut = score(section(part(3, right=BarLine(repeat="backward")), part(1), part(4)))
    assert [(each.get("number"), each.get("implicit")) for each in tree(cut).iter("measure")] == [("1", None), ("X1", "yes"), ("2", None)]
    pickup = score(section(part(1), part(4), part(3, right=BarLine(repeat="backward"))))
    assert [each.get("number") for each in tree(pickup).iter("measure")] == ["0", "1", "2"]


@pytest.mark.parametrize("staves", STAVES)
def test_the_comparison_itself_sees_a_wrong_sign(staves: Staves) -> None:
    symbol = ChordSymbol(text="Em", root=PitchClass("E"), kind="minor", suffix="m")
    first = voice(
        note("h", "3:5", attached=Attached(dynamic="mf", chord=symbol, hairpins=(Hairpin(kind=UP, begins=True),))),
        note("h", "3:5", attached=Attached(hairpins=(Hairpin(kind=UP, begins=False, through=True),))),
    )
    given = score(section(bar(first, signs=("segno", "tocoda"), rehearsal="A", tempo_change="rit"), quiet(), quiet()))
    document = write(given, WriteOptions(staves=staves))[0]
    assert compare(given, document, staves) == []
    for old, new in (
        (b"<mf/>", b"<mp/>"),
        (b'"crescendo"', b'"diminuendo"'),
        (b"<segno/>", b"<coda/>"),
        (b">To Coda<", b">D.C.<"),
        (b">A</rehearsal", b">B</rehearsal"),
        (b">rit.<", b">accel.<"),
        (b">minor<", b">major<"),
        (b"<multiple-rest>2", b"<multiple-rest>1"),
    ):
        assert document.count(old) > 0, old
        assert compare(given, document.replace(old, new), staves), old
