"""How lengths are written.

The expected splits are common practice of engraving (compare E. Gould, Behind Bars, Faber 2011, the chapter on rhythm, from memory): show
the middle of a bar of four, show the beats of a compound meter, allow the plain syncopations.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.compile.frame import meter_of
from tabforge.compile.metric import metric_of, spoken
from tests.compile.plain import bars_of, riff, study

SPLITS = [
    # meter, start in quarters, length in quarters, rest, expected
    ("4/4", 0, 1.5, False, "q."),
    ("4/4", 0.5, 1, False, "q"),
    ("4/4", 1.5, 1, False, "e e"),
    ("4/4", 1, 2, False, "h"),
    ("4/4", 0, 2.5, False, "h e"),
    ("4/4", 0.5, 2, False, "q. e"),
    ("4/4", 1, 3, False, "h."),
    ("4/4", 0.25, 1, False, "e. s"),
    ("4/4", 0.5, 3, False, "q. q."),
    ("3/4", 0, 3, False, "h."),
    ("3/4", 0.5, 2, False, "e q."),
    ("6/8", 0, 2, False, "q. e"),
    ("6/8", 1, 1, False, "e e"),
    ("6/8", 0, 3, False, "h."),
    ("7/8", 0.5, 1, False, "e e"),
    ("3+2+2/8", 1, 1, False, "e e"),
    ("12/8", 0, 6, False, "w."),
    ("4/4", 1, 2, True, "q q"),
    ("4/4", 0, 1.5, True, "q e"),
    ("4/4", 0.5, 1, True, "e e"),
    ("4/4", 0, 3, True, "h q"),
    ("6/8", 0, 1.5, True, "q."),
]


@pytest.mark.parametrize(("meter", "start", "length", "rest", "expected"), SPLITS)
def test_a_length_is_split_where_the_beat_must_be_seen(meter: str, start: float, length: float, rest: bool, expected: str) -> None:
    atoms = metric_of(meter_of(meter), 480).split(int(start * 480), int(length * 480), rest, None)
    assert atoms is not None
    assert " ".join(atom.written.value.letter + "." * atom.written.dots for atom in atoms) == expected


@given(
    st.sampled_from(["4/4", "3/4", "2/4", "5/4", "6/8", "9/8", "12/8", "7/8", "3+3+2/8", "2/2", "3/8", "5/8"]),
    st.integers(0, 47),
    st.integers(1, 48),
    st.booleans(),
)
def test_pieces_add_up_and_each_is_the_value_it_says(meter: str, start: int, length: int, rest: bool) -> None:
    metric = metric_of(meter_of(meter), 480)
    start, length = start * 60, length * 60
    if start + length > metric.ticks:
        start, length = 0, min(length, metric.ticks)
    atoms = metric.split(start, length, rest, None)
    assert atoms is not None
    at = start
    for atom in atoms:
        assert atom.onset == at
        assert atom.written.quarters * 480 == atom.ticks
        at += atom.ticks
    assert at == start + length


def test_a_length_far_beyond_its_bar_is_given_up_soon() -> None:
    """Tried without what is known of its parts, this takes longer than all other tests together."""
    assert metric_of(meter_of("1/32"), 3360).split(3240, 13440, False, None) is None


def test_what_the_writer_wrote_stands_where_it_hides_no_stronger_beat() -> None:
    assert bars_of(study(blocks=[riff({"rhythm": ["h.. e"], "degrees": ["1 2"]})])) == ["h.. e"]
    assert bars_of(study(blocks=[riff({"rhythm": ["e q e h"], "degrees": ["1 2 3 4"]})])) == ["e q e h"]
    assert bars_of(study(blocks=[riff({"rhythm": ["q q. q."], "degrees": ["1 2 3"]})])) == ["q q~ ~e q."]


def test_holds_join_into_the_plainest_values() -> None:
    rows = {"rhythm": ["e e e e e e e e"], "degrees": ["1 = 3 = 5 = = ="]}
    assert bars_of(study(blocks=[riff(rows)])) == ["q q h"]


def test_a_hold_over_a_bar_line_is_a_tie() -> None:
    rows = {"rhythm": ["q h.", "q h."], "degrees": ["1 2", "= 3"]}
    assert bars_of(study(blocks=[riff(rows)])) == ["q h.~", "~q h."]


def test_a_chord_symbol_on_a_held_note_keeps_its_place() -> None:
    rows = {"chords": ["C F"], "rhythm": ["h h"], "degrees": ["1 ="]}
    assert bars_of(study(blocks=[riff(rows)])) == ["h~ ~h"]


def test_a_bar_of_rest_is_a_whole_rest_in_any_meter() -> None:
    rows = {"rhythm": ["h."], "degrees": ["r"]}
    assert bars_of(study(meter="3/4", blocks=[riff(rows)])) == ["(w)"]


def test_a_triplet_keeps_its_pieces() -> None:
    rows = {"rhythm": ["3(e e e) 3(q e) h"], "degrees": ["1 2 = 3 4 r"]}
    assert bars_of(study(blocks=[riff(rows)])) == ["e e~ ~e q e (h)"]


@pytest.mark.parametrize(
    ("length", "words"),
    [("1/2", "an eighth note"), ("3/4", "an eighth note and a sixteenth note"), ("4", "a whole note"), ("12", "3 whole notes")],
)
def test_lengths_in_words(length: str, words: str) -> None:
    assert spoken(Fraction(length)) == words
