"""Words: wrapping, ASCII spelling, width. Hands and words under the tab; the legend."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from tabforge.writers.ascii import write
from tabforge.writers.ascii.plain import cut, spelled_in_ascii, tidy, width_of, wrap
from tabforge.writers.options import WriteOptions
from tests.writers.ascii.build import bar, phrase, score, section


@given(st.text(), st.integers(4, 60), st.integers(0, 1))
def test_wrapped_text_fits_and_keeps_its_words(text: str, width: int, indent: int) -> None:
    lines = wrap(text, width, indent)
    assert max(map(width_of, lines)) <= width
    assert "".join("".join(lines).split()) == "".join(text.split())


def test_wrapping_breaks_at_spaces() -> None:
    assert wrap("one two three", 7) == ["one two", "three"]
    assert wrap("abcdefgh", 3) == ["abc", "def", "gh"]
    assert wrap("", 5) == [""]
    assert wrap("Tuning: E A D G", 11, 2) == ["Tuning: E A", "  D G"]


@given(st.text())
def test_ascii_spelling_is_ascii(text: str) -> None:
    assert spelled_in_ascii(text)[0].isascii()
    assert spelled_in_ascii(text, symbol=True)[0].isascii()


def test_letters_and_signs_in_ascii() -> None:
    assert spelled_in_ascii("“Crème brûlée” – ça va…") == ('"Creme brulee" - ca va...', True)
    assert spelled_in_ascii("don’t") == ("don't", False)
    assert spelled_in_ascii("Straße Ærø") == ("Strasse AEro", True)
    assert spelled_in_ascii("B♭△7", symbol=True) == ("Bbmaj7", False)
    assert spelled_in_ascii("C♯ø", symbol=True) == ("C#m7b5", False)
    assert spelled_in_ascii("音") == ("?", True)


def test_width_of_east_asian_and_combining_letters() -> None:
    # Unicode Standard Annex 11: wide and fullwidth characters take two columns.
    assert width_of("音楽") == 4
    assert width_of("e\u0301") == 1
    assert cut("音楽の時間", 8) == "音楽..."
    assert tidy(" a\tb\n c ") == "a b c"


def test_wide_words_stay_under_their_notes() -> None:
    text = write(score(section("", bar("q 1:1 w:音", "q 1:2 w:楽", "q 1:3", "q 1:4"))), WriteOptions(legend=False))[0].decode()
    lines = text.split("\n")
    assert lines[-2] == "   音   楽"
    assert lines[-9].index("q", 4) == width_of("   音   ")


def test_hands_are_written_from_the_lowest_string_up() -> None:
    text = write(score(section("", bar("h 1:3+2:3+5:2 p:i f:2", "q 1:1 s:d f:T", "q 1:1 s:u"))), WriteOptions())[0].decode()
    assert "RH iii     d    u\n" in text
    assert "LH 222     T\n" in text
    assert "RH   picking hand: d downstroke, u upstroke, i index; in a chord from the lowest" in text
    assert "T thumb" in text


def test_the_legend_lists_what_was_used_and_nothing_else() -> None:
    text = write(score(section("", *phrase("q 1:1, q 1:2, h 1:3 | q 1:1 h, q 1:3, h 1:3 v"))), WriteOptions())[0].decode()
    assert text[text.index("Legend") :] == "Legend\n------\nh q  half note, quarter note\n7h9  hammer-on\n7~   vibrato\n"
    assert "Legend" not in write(score(section("", bar("w 1:1"))), WriteOptions(legend=False))[0].decode()
    assert "note" not in write(score(section("", bar("w 1:1"))), WriteOptions(rhythm_line=False))[0].decode()


def test_teaching_text_keeps_its_lines_and_wraps() -> None:
    text = write(score(text=("First line.", "", "Second " * 20)), WriteOptions(width=40))[0].decode()
    assert "First line.\n\nSecond Second" in text
    assert max(map(len, text.split("\n"))) <= 40
