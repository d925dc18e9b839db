"""What cannot be played and what makes no sense: for each check, studies that must earn its code and studies that must not.

The rules are facts of playing technique (common practice, no source): a string sounds one note, a bend, a slide and a vibrato are made by a
finger on a fret, a hammer-on goes up and a pull-off goes down, a downstroke runs from the lowest string to the highest.
"""

from __future__ import annotations

import pytest

from tests.check.studies import codes, looked_over, places, riff

TWO = "rhythm h h; "

FIRES = [
    # bends on strings that no finger holds
    ("M350", TWO + "frets 3:0 2; marks b1 ."),
    ("M350", TWO + "frets 3:0 2; marks b1/2r ."),
    ("M350", TWO + "frets 3:0 2; marks pb1 ."),
    ("M350", TWO + "frets 3:0 2; marks pb1r ."),
    ("M350", TWO + "frets 3:12 2; marks nh+b1 ."),
    ("M350", TWO + "frets 3:7+2:0 2:1; marks b1 ."),
    ("M350", TWO + "frets 3:7+2:0 2:1; marks b1@2 ."),
    # what leads up and what leads down
    ("M351", TWO + "frets 3:7 5; marks h ."),
    ("M351", TWO + "frets 3:7 7; marks h ."),
    ("M351", TWO + "frets 3:2 0; marks h ."),
    ("M351", "rhythm w; frets 3:7 | 5; marks h | ."),
    ("M351", "rhythm g w; frets 3:7 5; marks h ."),
    ("M351", "rhythm h h | w; frets 3:7 = | 5; marks h . | ."),
    ("M351", TWO + "frets 3:5+2:5 3:7+2:3; marks h ."),
    ("M352", TWO + "frets 3:5 7; marks p ."),
    ("M352", TWO + "frets 3:5 5; marks p ."),
    ("M353", TWO + "frets 3:0 2; marks p ."),
    ("M353", TWO + "frets 3:0 0; marks p ."),
    ("M354", TWO + "frets 3:5 5; marks sl ."),
    ("M354", TWO + "frets 3:5 5; marks ss ."),
    ("M354", TWO + "frets 3:5+2:5 3:5+2:5; marks sl ."),
    ("A511", TWO + "frets 3:0 5; marks sl ."),
    ("A511", TWO + "frets 3:5 0; marks ss ."),
    # open strings
    ("M355", TWO + "frets 3:0 2; marks in/ ."),
    ("M355", TWO + "frets 3:0 2; marks in\\ ."),
    ("M355", TWO + "frets 3:2 0; marks . out/"),
    ("M355", TWO + "frets 3:2 0; marks . out\\"),
    ("M356", TWO + "frets 3:0 2; marks t ."),
    ("M356", TWO + "frets 3:0 2; marks lt ."),
    ("A510", TWO + "frets 3:0 2; marks v ."),
    ("A510", TWO + "frets 3:0 2; marks wv ."),
    ("A510", TWO + "frets 3:0+2:0 2:3; marks v ."),
    # past the end of the neck
    ("M357", TWO + "frets 1:23 20; marks tr2 ."),
    ("M357", TWO + "frets 1:13 20; marks th12 ."),
    ("A512", TWO + "frets 1:13 20; marks ah12 ."),
    # one note, too much
    ("M358", TWO + "frets 3:7 5; marks b1+b1/2 ."),
    ("M358", TWO + "frets 3:7 5; marks pb1+b1r ."),
    ("M359", TWO + "frets 3:12 5; marks nh+ah12 ."),
    ("M359", TWO + "frets 3:5 5; marks ph+th12 ."),
    ("M360", TWO + "frets 3:5 x; marks . b1"),
    ("M360", TWO + "frets 3:5 x; marks . v"),
    ("M360", TWO + "frets 3:5 x; marks . ph"),
    ("M360", TWO + "frets 3:5 x; marks . tr2"),
    ("A516", TWO + "frets 3:5 x; marks . gh"),
    ("A513", TWO + "frets 6:3 4:5; marks pm+lr ."),
    ("A513", TWO + "frets 6:3 4:5; marks st+lr ."),
    ("A513", "rhythm q q h; frets 6:3 4:5 3:4; marks pm -+lr ."),
    ("A514", TWO + "frets 3:5 7; marks ac+ma ."),
    ("A514", TWO + "frets 3:5 7; marks t+lt ."),
    ("A514", TWO + "frets 3:5 7; marks in/+in\\ ."),
    ("A514", TWO + "frets 3:5 7; marks h+sl ."),
    ("A514", TWO + "frets 3:5 7; marks sl+out/ ."),
    ("A514", TWO + "frets 3:5 7; marks 8va+8vb ."),
    ("A514", TWO + "frets 3:5 7; marks sw+ac ."),
    ("A514", TWO + "frets 3:5+2:5 3:7; marks ar/+ar\\ ."),
    # let ring where nothing rings
    ("A515", "rhythm q q h; frets 3:5 7 5; marks lr - ."),
    ("A515", TWO + "frets 3:5 7; marks lr ."),
    ("A515", TWO + "frets 3:5 5; marks lr ."),
    ("A517", "rhythm g w; frets 3:5 7; marks tp3 ."),
    ("A517", "rhythm g w; frets 3:5 7; marks fm ."),
    # the fretting hand
    ("A502", "rhythm w; frets 5:3+4:5; fingers 1+1"),
    ("A518", TWO + "frets 3:0 2; fingers 1 2"),
    ("A518", "rhythm w; frets 5:3+4:2+3:0; fingers 3+2+1"),
    ("A519", "rhythm w; frets 5:3+4:2; fingers 1+2"),
    ("A519", "rhythm w; frets 5:2+4:1; fingers 3+4"),
    ("M363", TWO + "frets 3:2 0; fingers 0 0"),
    ("M363", TWO + "frets 3:2+2:0 1:0; fingers 0+0 0"),
    ("A520", "rhythm w; frets 5:3+4:5+3:5; marks ba5"),
    ("A520", "rhythm w; frets 5:3+4:5+3:0; marks ba3"),
    ("A520", "rhythm w; frets 3:0; marks hb3"),
    ("A520", "rhythm q q h; frets 5:5 4:7 3:4; marks ba5 - -"),
    # the picking hand
    ("A521", "rhythm w; frets 5:3+4:2; marks ar/; picks u"),
    ("A521", "rhythm w; frets 5:3+4:2; marks br\\; picks d"),
    ("A522", TWO + "frets 3:5 7; marks ar/ ."),
    ("A522", TWO + "frets 3:5 7; marks br\\ ."),
    ("A527", TWO + "frets 3:5 7; marks h .; picks d u"),
    ("A527", TWO + "frets 3:7 5; marks p .; picks i m"),
    ("A527", TWO + "frets 3:7 5; marks sl .; picks d u"),
    ("A527", TWO + "frets 3:7 5; marks t .; picks d u"),
    # dynamics, signs, repeats
    ("A523", "rhythm q q q q; frets 3:5 7 5 4; dynamics mf < - p"),
    ("A523", "rhythm q q q q; frets 3:5 7 5 4; dynamics p > - f"),
    ("A523", "rhythm w; frets 3:5 | 7 | 5; dynamics fp | < | pp"),
    ("M362", "signs . | ds; rhythm w; frets 3:5 | 7"),
    ("M362", "signs ds | segno; rhythm w; frets 3:5 | 7"),
    ("M362", "signs . | dcfine; rhythm w; frets 3:5 | 7"),
    ("M362", "signs tocoda | dccoda; rhythm w; frets 3:5 | 7"),
    ("M362", "signs . | dccoda | coda; rhythm w; frets 3:5 | 7 | 5"),
    ("M362", "signs tocoda | dc; rhythm w; frets 3:5 | 7"),
    ("A524", "signs segno | .; rhythm w; frets 3:5 | 7"),
    ("A524", "signs . | coda; rhythm w; frets 3:5 | 7"),
    ("A524", "signs . | fine; rhythm w; frets 3:5 | 7"),
    ("A528", "rhythm w; frets |: 3:5 | 7"),
    ("A528", "rhythm w; frets |: 3:5 |[1 7"),
    ("A528", "rhythm w; frets |: 3:5 |: 7 :| 5"),
    # chord shapes
    ("A525", "chords C@x32011; rhythm w; frets 5:3"),
    ("A525", "chords Am@x02010; rhythm w; frets 5:0"),
    ("A525", "chords G5@355xx1; rhythm w; frets 6:3"),
    # two voices
    ("N406", "rhythm w; frets 3:5; voice 2; rhythm w; frets 3:9"),
    ("N452", "rhythm w; frets 3:5; voice 2; rhythm h h; frets 4:5 3:7"),
    ("M361", "rhythm h h; notes E3@4 x; voice 2; rhythm h h; notes r F3@4"),
    ("A526", "rhythm q q q q; notes E3@4 r x r; voice 2; rhythm q h.; notes r E3@4"),
]

STAYS_SILENT = [
    "rhythm h h; frets 3:2 4; marks b1 .",
    "rhythm h h; frets 3:7+2:0 2:1; marks b1@3 .",
    "rhythm q q h; frets 3:7 7 5; marks b1 - .",
    "rhythm h h; frets 3:5 7; marks h .",
    "rhythm h h; frets 3:0 2; marks h .",
    "rhythm h h; frets 3:7 0; marks p .",
    "rhythm h h | w; frets 3:5 = | 7; marks h . | .",
    "rhythm q q h; frets 3:5 7 5; marks h p .",
    # in a chord a mark is for what moves
    "rhythm h h; frets 3:5+2:5 3:7+2:5; marks h .",
    "rhythm h h; frets 3:7+2:5 3:5+2:5; marks p .",
    "rhythm h h; frets 3:5+2:5 3:7+2:5; marks sl .",
    "rhythm h h; frets 3:5+2:5 3:7+2:3; marks h@3+p@2 .",
    "rhythm h h; frets 3:0+2:5 3:0+2:3; marks p .",
    # a dead note's fret and a harmonic's say nothing of a finger
    "rhythm h h; frets 3:5 x; marks sl .",
    "rhythm h h; frets 3:12 12; marks nh+h nh",
    "rhythm h h; frets 3:12 0; marks t+p .",
    "rhythm h h; frets 3:0 2; marks th12 .",
    "rhythm h h; frets 3:0 2; marks tr2 .",
    "rhythm h h; frets 3:0+2:3 2:3; marks v .",
    "rhythm h h; frets 3:12 2; marks nh+v .",
    "rhythm h h; frets 1:22 20; marks tr2 .",
    "rhythm h h; frets 1:12 20; marks ah12+v .",
    "rhythm h h; frets 3:7 5; marks b1+v .",
    "rhythm h h; frets 3:7+2:7 5; marks b1@3+b1/2@2 .",
    "rhythm h h; frets 3:5 x; marks pm pm+ac",
    "rhythm h h; frets 3:5+2:x 3:5; marks v .",
    "rhythm h h; frets 6:3+1:3 4:5; marks pm@6+lr@1 .",
    "rhythm h h; frets 3:5 7; marks st+tn st+ac",
    # strings are struck again in a broken chord, and strummed chords end each other
    "rhythm e*8; frets 5:3 4:2 3:0 2:1 3:0 4:2 3:0 5:3; marks lr -*7",
    "rhythm h h; frets 5:3+4:2 5:5+4:4; marks lr -",
    "rhythm q q h; frets 3:5 r 7; marks lr - .",
    "rhythm h h; frets 3:5 2:5; marks lr .",
    "rhythm h h; frets 3:5 =; marks lr -",
    "rhythm g w; frets 3:5 7; marks sl fm",
    # fingers at one fret lie in any order, and the thumb is free
    "rhythm w; frets 5:2+4:2+3:1; fingers 3+2+1",
    "rhythm w; frets 4:2+3:2+2:2; fingers 3+2+4",
    "rhythm w; frets 6:3+3:2; fingers T+1",
    "rhythm w; frets 5:3+4:2+3:0; fingers 3+2+0",
    "rhythm w; frets 5:2+4:2+3:2; fingers 1",
    "rhythm w; frets 5:3+4:5+3:5; marks ba3",
    "rhythm w; frets 6:0+3:5+2:5; marks hb5",
    "rhythm h h; frets 5:3 r; marks ba3 -",
    # plucking fingers and strokes live together in one voice
    "rhythm q q q q; frets 5:3 4:5 3:5 2:5; picks p i d u",
    "rhythm w; frets 5:3+4:2; marks ar/; picks d",
    "rhythm w; frets 5:3+4:2; marks br\\; picks u",
    "rhythm h h; frets 3:5 7; marks ss .; picks d u",
    "rhythm h h; frets 3:5 7; marks h .; picks d .",
    "rhythm q q q q; frets 3:5 7 5 4; dynamics p < - f",
    "rhythm q q q q; frets 3:5 7 5 4; dynamics f > - p",
    "rhythm q q q q; frets 3:5 7 5 4; dynamics p < - p",
    "rhythm q q q q; frets 3:5 7 5 4; dynamics p < - sfz",
    "rhythm q q q q; frets 3:5 7 5 4; dynamics . < - p",
    "rhythm q q q q; frets 3:5 7 5 4; dynamics mf < f p",
    "signs segno | ds; rhythm w; frets 3:5 | 7",
    "signs fine | dcfine; rhythm w; frets 3:5 | 7",
    "signs fine | dc; rhythm w; frets 3:5 | 7",
    "signs segno | tocoda | dscoda | coda; rhythm w; frets 3:5 | 7 | 5 | 7",
    "rhythm w; frets |: 3:5 | 7 :| 5",
    "rhythm w; frets |: 3:5 |[1 7 :|[2 5",
    "rhythm w; frets |: 3:5 :|: 7 :|",
    "rhythm w; frets 3:5 :| 7",
    "chords C@x32010; rhythm w; frets 5:3",
    "chords C/E@032010; rhythm w; frets 5:3",
    "chords Cadd9@x32030; rhythm w; frets 5:3",
    "chords G5@355xxx; rhythm w; frets 6:3",
    "rhythm w; frets 3:5; voice 2; rhythm h h; frets 5:5 4:5",
    "rhythm h h; notes E3@4 x@3; voice 2; rhythm h h; notes r F3@4",
]


@pytest.mark.parametrize(("code", "rows"), FIRES)
def test_what_is_wrong_is_told_and_nothing_else(code: str, rows: str) -> None:
    found = codes(riff(rows))
    assert code in found
    # In a jump with two signs missing each is told; a dead note that ends a note is the only other company.
    assert set(found) == {code}
    outcome = looked_over(riff(rows))
    assert outcome.failed is (code[0] in "MN" and code != "N452")


@pytest.mark.parametrize("rows", STAYS_SILENT)
def test_what_is_right_is_left_alone(rows: str) -> None:
    assert codes(riff(rows)) == []


def test_a_finding_points_at_the_mark_and_not_at_its_neighbours() -> None:
    rows = "rhythm q q q q; frets 3:5 2:0 3:7 5; marks ac st+b1/2+ac h ."
    assert places(riff(rows)) == [("M350", "b1/2"), ("M351", "h")]


def test_a_repeated_bar_and_repeated_cells_are_told_once() -> None:
    assert places(riff("rhythm q*4; frets 3:0*4 | % | %; marks b1*4")) == [("M350", "b1")]
    assert places(riff("rhythm q*4; frets 3:0*4 | % | %; marks . b1 . . | %")) == [("M350", "b1")]


def test_a_repeated_bar_with_marks_of_its_own_is_found_under_them() -> None:
    assert places(riff("rhythm q*4; frets 3:0*4 | %; marks ac*4 | . . . b1")) == [("M350", "b1")]


def test_a_mark_in_the_second_voice_and_in_a_later_system_is_found_there() -> None:
    text = riff("rhythm w; frets 1:5; voice 2; rhythm h h; frets 6:0 3; marks b1 .")
    assert places(text) == [("M350", "b1")]
    again = riff("rhythm h h; frets 3:5 7; marks h .; frets 3:7 5; marks . .; frets 3:7 5; marks h .")
    assert [found for found, _ in places(again)] == ["M351"]
    outcome = looked_over(again)
    assert outcome.source.position(outcome.diagnostics[0].span.start).line == 9


def test_other_keys_do_not_tell_a_mistake_again() -> None:
    assert codes(riff(TWO + "degrees 5@4 4@4; marks h .", "scale A2 major; keys B C3 D3")) == ["M351"]


def test_a_json_document_is_told_where_in_it() -> None:
    from tabforge.pipeline import study_from

    text = '{"study": 1, "blocks": [{"kind": "riff", "systems": [{"rhythm": ["h h"], "frets": ["3:0 2"], "marks": ["ac+b1 ."]}]}]}'
    outcome = study_from("lathe.json", text.encode())
    [found] = outcome.diagnostics
    assert (found.code.id, found.pointer) == ("M350", "/blocks/0/systems/0/marks/0")
    assert text[found.span.start : found.span.end] == "b1"


def test_a_capo_takes_frets_from_a_trill_and_gives_a_chord_two_names() -> None:
    assert codes(riff(TWO + "frets 1:20 18; marks tr2 .", "capo 2")) == []
    assert codes(riff(TWO + "frets 1:21 18; marks tr2 .", "capo 2")) == ["M357"]
    for name in ("C", "D"):
        assert codes(riff(f"chords {name}@x32010; rhythm w; frets 5:3", "capo 2")) == []
    assert codes(riff("chords E@x32010; rhythm w; frets 5:3", "capo 2")) == ["A525"]


def test_a_downstroke_says_nothing_of_pitch_where_strings_do_not_rise() -> None:
    ukulele = "instrument ukulele"
    assert codes(riff("rhythm w; frets 4:0+3:0; marks ar/; picks u", ukulele)) == []
    assert codes(riff("rhythm w; frets 3:0+2:0; marks ar/; picks u", ukulele)) == ["A521"]


def test_a_way_may_lead_through_several_blocks() -> None:
    first = riff("signs segno; rhythm w; frets 3:5")
    assert codes(first + '\nriff "Bench"\n  signs    ds\n  rhythm   w\n  frets    3:7\n') == []
