"""What no hand holds, and where no hand gets to in time. The limits are common practice, no source; the arithmetic is checked by hand."""

from __future__ import annotations

from itertools import pairwise, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.check.shifts import FASTEST_MM
from tests.check.studies import codes, looked_over, places, riff


def shift(fret: int, tempo: int, value: str = "s") -> list[str]:
    rest = {"s": "s e q h", "e": "e q h"}[value]
    notes = " ".join([f"1:{fret}"] * len(rest.split()))
    return codes(riff(f"rhythm {value} {rest}; frets 1:1 {notes}", f"tempo {tempo}"))


# From the first fret to the fifteenth the hand goes at the least from fret 2 under the first finger, stretched back by one, to fret 11,
# the fourth finger stretched by one: 648 mm * (2 ** (-2 / 12) - 2 ** (-11 / 12)) = 234.1 mm. A sixteenth lasts 15 / tempo seconds,
# so at 64 beats
# a minute there are 0.2344 seconds (999 mm a second), at 65 0.2308 (1,014).
@pytest.mark.parametrize(("tempo", "found"), [(40, []), (64, []), (65, ["N453"]), (120, ["N453"])])
def test_a_shift_needs_its_time(tempo: int, found: list[str]) -> None:
    assert FASTEST_MM == 1000
    assert shift(15, tempo) == found


def test_a_longer_note_leaves_more_time_and_a_study_without_tempo_all() -> None:
    assert shift(15, 65, "e") == []
    assert shift(15, 129, "e") == ["N453"]
    assert codes(riff("rhythm s s e q h; frets 1:1 1:15 1:15 1:15 1:15")) == []


def test_open_strings_and_rests_let_the_hand_move() -> None:
    assert codes(riff("rhythm s s e q h; frets 1:1 1:15 1:1 1:0 1:1", "tempo 65")) == ["N453", "N453"]
    assert codes(riff("rhythm s s e q h; frets 1:1 1:0 1:15 1:15 1:15", "tempo 65")) == []
    assert codes(riff("rhythm s s e q h; frets 1:1 r 1:15 1:15 1:15", "tempo 65")) == []


def test_a_tapped_note_is_not_the_fretting_hands() -> None:
    assert codes(riff("rhythm s s e q h; frets 1:1 1:15 1:1 1:1 1:1; marks . t . . .", "tempo 120")) == []


def test_a_repeated_cell_is_told_once_at_its_place() -> None:
    found = places(riff("rhythm (s s)*8; frets (1:1 1:15)*8", "tempo 120"))
    assert [code for code, _ in found] == ["N453"] * len(found)
    assert 1 <= len(found) <= 2


def held(frets: list[int | None]) -> str:
    return "+".join(f"{6 - number}:{fret}" for number, fret in enumerate(frets) if fret is not None)


@pytest.mark.parametrize("frets", [[None, 3, 2, 4, 3, 4], [None, 4, 2, 4, 2, 4], [None, 3, 4, 2, 4, 3], [1, 3, 3, 2, 1, 1]])
def test_a_grip_of_more_fingers_than_there_are_is_told(frets: list[int | None]) -> None:
    assert ("N454" in codes(riff(f"rhythm w; frets {held(frets)}"))) == (not by_trying(frets))


def by_trying(frets: list[int | None]) -> bool:
    """Whether some choice of fingers holds a grip, by the rules alone (string 6 first)."""
    stopped = [(6 - number, fret) for number, fret in enumerate(frets) if fret]
    opened = [6 - number for number, fret in enumerate(frets) if fret == 0]
    lowest = min((fret for _, fret in stopped), default=0)
    return any(_works(stopped, opened, lowest, fingers) for fingers in product("T1234", repeat=len(stopped)))


def _works(stopped: list[tuple[int, int]], opened: list[int], lowest: int, fingers: tuple[str, ...]) -> bool:
    held_ = list(zip(stopped, fingers, strict=True))
    thumbs = [place for place, finger in held_ if finger == "T"]
    ones = [fret for (_, fret), finger in held_ if finger == "1"]
    if any(string != 6 or any(abs(fret - one) > 1 for one in ones) for string, fret in thumbs):
        return False
    rest = [(place, int(finger)) for place, finger in held_ if finger != "T"]
    for (string, fret), finger in rest:
        for (other_string, other_fret), other in rest:
            if fret < other_fret and finger >= other:
                return False
            if fret == other_fret and string > other_string and finger > other:
                return False
    for finger in {finger for _, finger in rest}:
        strings = sorted(string for (string, _), other in rest if other == finger)
        fret = next(fret for (_, fret), other in rest if other == finger)
        for low, high in pairwise(strings):
            wide = finger == 1 and fret == lowest and not any(low < string < high for string in opened)
            if high - low > 1 and not wide:
                return False
    return True


@given(st.lists(st.sampled_from([0, 8, 9, 10]), min_size=6, max_size=6))
@settings(max_examples=60, deadline=None)
def test_a_grip_is_told_of_just_where_no_fingers_hold_it(frets: list[int | None]) -> None:
    # At the eighth fret and above no two fingers are too far apart, so that the rules of order and barre alone decide.
    text = riff(f"rhythm w; frets {held(frets)}")
    assert ("N454" in codes(text)) == (not by_trying(frets))


def test_a_stretch_beyond_reach_is_told_in_millimetres() -> None:
    # 648 mm * (2 ** (-1 / 12) - 2 ** (-8 / 12)) = 203.4 mm, by the twelfth-root-of-two rule.
    (found,) = looked_over(riff("rhythm w; frets 5:1+3:8")).diagnostics
    assert found.code.id == "N451"
    assert found.headline == "this grip stretches the hand 203 mm, from fret 1 to fret 8: farther than most hands reach"


def test_both_voices_are_one_hands() -> None:
    # What is too far within one voice is too far from one voice to the other; where both begin together, nothing need be shifted.
    voices = "rhythm s s e q h; frets 1:{} 1:{} r r r; voice 2; rhythm s s e q h; frets r 6:{} r r r"
    apart = "rhythm s e s q h; frets 1:15 r r r r; voice 2; rhythm s e s q h; frets r 6:1 r r r"
    assert codes(riff(apart, "tempo 120")) == ["N453"]
    assert codes(riff(apart, "tempo 40")) == []
    assert codes(riff(voices.format(15, 14, 12), "tempo 120")) == []
