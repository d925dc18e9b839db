"""Rows of a riff as they are read: every kind of cell, groups, repeats, bar lines and voices."""

from __future__ import annotations

import pytest

from tests.syntax.reading import document, riff, system

LINE = "degrees  1 2 3 4"

CELLS = {
    "chords": ". Bbmaj7 C/E N.C. F#m7b5 G*2",
    "rhythm": "w h. q.. q+e e s t g gs g! 3(e e e) 5:4(s s s s s) 3(q 3:2(e e e) q) (q e)*2 q*3",
    "marks": ". - pm+ac -+h b1/2 b1r pb3/2 v@2 in/ out\\ tr2 nh*2 (h .)*2",
    "dynamics": "mf < - > . ppp",
    "fingers": "1 2 3 4 T 0 . 1+3+4",
    "picks": "d u p i m a . p+i+m",
}


@pytest.mark.parametrize("word", CELLS)
def test_a_row_is_kept_as_it_was_written(word: str) -> None:
    assert system(LINE, f"{word}  {CELLS[word]}")[word] == [CELLS[word]]


SOUNDS = {
    "degrees": "1 15 #4 b3 n7 bb7 ##1 _5 ^^5 1+3+5 4@5 4@5:4 _b3@6:0+5 r = x x@6 1*4 (1 3 5)*2 (1 (2 3)*2)*2",
    "frets": "6:0 5:4 12 36 6:3+5:5+4:5 x 5:x r =",
    "notes": "C4 Bb2 F##3 Cb-1 A4@5 C4@2:1 C3+E3+G3 x x@1 r =",
}


@pytest.mark.parametrize("word", SOUNDS)
def test_what_sounds_is_kept_as_it_was_written(word: str) -> None:
    assert system(f"{word}  {SOUNDS[word]}") == {word: [SOUNDS[word]]}


def test_rows_with_one_cell_a_bar() -> None:
    found = system("degrees 1 | 2 | 3", "signs [A]+segno | . | dscoda+newline", "tempo rit | atempo |", "meter . | 3/4 | 3+2/8")
    assert found["signs"] == ["[A]+segno", ".", "dscoda+newline"]
    assert found["tempo"] == ["rit", "atempo"]
    assert found["meter"] == [".", "3/4", "3+2/8"]
    assert system("signs segno", "tempo rit |", "degrees 1") == {"signs": ["segno"], "tempo": ["rit"], "degrees": ["1"]}


def test_words_take_quotes_and_signs_as_words() -> None:
    assert system("degrees  1 | 2", 'words  lan- tern "by  | the bay" % | (2)*2 .')["words"] == ['lan- tern "by  | the bay" %', "(2)*2 ."]


def test_spaces_and_tabs_mean_the_same() -> None:
    assert system("degrees\t1   2 \t3| 4  |") == {"degrees": ["1 2 3", "4"]}


def test_parentheses_may_have_spaces_inside() -> None:
    assert system("rhythm  3( e e e ) ( q  q )*2", "degrees 1")["rhythm"] == ["3(e e e) (q q)*2"]


def test_repeated_bars_are_written_out() -> None:
    assert system("degrees  1 2 | %*3 | 5 | %")["degrees"] == ["1 2", "%", "%", "%", "5", "%"]


def test_bars_may_be_empty_at_the_beginning_the_middle_and_the_end() -> None:
    rows = system("degrees  1 | 2 | 3 | 4", "marks  | h | | st", "picks d | | |", "fingers | | | 1", "words | | | |")
    assert rows["marks"] == ["", "h", "", "st"]
    assert rows["picks"] == ["d", "", ""]
    assert rows["fingers"] == ["", "", "", "1"]
    assert rows["words"] == ["", "", "", ""]


def test_a_leading_line_is_an_outer_one_if_the_row_that_sounds_has_one_or_the_row_is_full() -> None:
    assert system("degrees  | 1 | 2 |", "marks  | h")["marks"] == ["h"]
    assert system("degrees  1 | 2", "marks  | h | st |")["marks"] == ["h", "st"]


@pytest.mark.parametrize(
    ("row", "bars", "lines"),
    [
        ("1 || 2", 2, {"1": "||"}),
        ("|: 1 | 2 :|", 2, {"0": "|:", "2": ":|"}),
        ("|:1|2:|", 2, {"0": "|:", "2": ":|"}),
        ("|: 1 :|*3 2", 2, {"0": "|:", "1": ":|*3"}),
        ("|: 1 :|: 2 :|", 2, {"0": "|:", "1": ":|:", "2": ":|"}),
        ("|: 1 |[1 2 :|[2 3 ||", 3, {"0": "|:", "1": "|[1", "2": ":|[2", "3": "||"}),
        ("1 |[1,2 2 :|[3 3", 3, {"1": "|[1,2", "2": ":|[3"}),
        ("| 1 | 2 |", 2, None),
    ],
)
def test_bar_lines(row: str, bars: int, lines: dict[str, str] | None) -> None:
    found = system(f"degrees  {row}")
    assert len(found["degrees"]) == bars
    assert found.get("barlines") == lines


def test_special_bar_lines_may_stand_in_any_row() -> None:
    found = system("rhythm  h h | h h :|", "degrees  | 1 2 | 3 4 |", "marks  |: . . || . .")
    assert found["barlines"] == {"0": "|:", "1": "||", "2": ":|"}


def test_meter_and_tempo_are_settings_without_a_bar_line_and_rows_with_one() -> None:
    (block,) = document(riff("meter 3/4", 'tempo "Slow" 60', "degrees 1 | 2"))["blocks"]
    assert (block["meter"], block["tempo"]) == ("3/4", {"bpm": 60, "words": "Slow"})
    assert "meter" not in block["systems"][0]
    rows = system("meter 3/4 |", "tempo . | 96", "degrees 1 | 2")
    assert (rows["meter"], rows["tempo"]) == (["3/4"], [".", "96"])
    rows = system("degrees 1 | 2", "meter 3/4", "tempo | q.=60")
    assert (rows["meter"], rows["tempo"]) == (["3/4"], [".", "q.=60"])


def test_systems_are_parted_by_a_blank_line_or_a_row_that_is_there_already() -> None:
    (block,) = document(riff("rhythm q", "degrees 1", "", "degrees 2", "degrees 3", "rhythm e", "", "frets 6:1"))["blocks"]
    assert block["systems"] == [
        {"rhythm": ["q"], "degrees": ["1"]},
        {"degrees": ["2"]},
        {"rhythm": ["e"], "degrees": ["3"]},
        {"frets": ["6:1"]},
    ]


def test_comment_lines_part_no_system() -> None:
    (block,) = document(riff("rhythm q", "// a word", "degrees 1"))["blocks"]
    assert block["systems"] == [{"rhythm": ["q"], "degrees": ["1"]}]


def test_two_voices() -> None:
    found = system("rhythm q q", "degrees 8 9 |", "picks a m", "voice 2", "rhythm h", "degrees 1", "picks p")
    assert found == {
        "rhythm": ["q q"],
        "degrees": ["8 9"],
        "picks": ["a m"],
        "voice2": {"rhythm": ["h"], "degrees": ["1"], "picks": ["p"]},
    }


def test_after_the_second_voice_a_known_row_begins_the_next_system() -> None:
    (block,) = document(riff("chords C", "degrees 8", "voice 2", "degrees 1", "chords D", "degrees 9"))["blocks"]
    assert block["systems"] == [{"chords": ["C"], "degrees": ["8"], "voice2": {"degrees": ["1"]}}, {"chords": ["D"], "degrees": ["9"]}]


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_lines_may_end_in_any_way(ending: str) -> None:
    text = "title  Bay\n\n" + riff("rhythm q q", "degrees 1 2")
    assert document(text.replace("\n", ending)) == document(text)


def test_a_byte_order_mark_is_passed_over() -> None:
    assert document("\ufefftitle Bay") == {"study": 1, "title": "Bay", "blocks": []}
