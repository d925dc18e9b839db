"""What techniques do to sounds. The values are those of ``performance.practice`` (common practice, no source); what is held here is that
each does what its name says, and that the amounts written are the amounts played.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from tabforge.model.events import Attached
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch, PitchClass
from tabforge.performance import perform
from tests.performance.playing import PLAIN, cents, played, quarters
from tests.proof.scores import DIVISIONS, bar, note, rest, score, section, voice


@pytest.mark.parametrize(("name", "attack"), [("h", "slur"), ("p", "slur"), ("sl", "slide")])
def test_what_is_led_to_is_not_picked_and_softer(name: str, attack: str) -> None:
    one, two = played(note("q", "1:5", marks=f"{name}:start"), note("q", "1:3", marks=f"{name}:stop"), rest("h"))
    assert (one.attack, one.velocity) == ("pick", PLAIN)
    assert two.attack == attack
    assert two.velocity < PLAIN
    assert (quarters(one.start), quarters(one.ticks), quarters(two.start), quarters(two.ticks)) == (0, 1, 1, 1)


def test_a_shift_slide_is_picked_and_moves_all_the_way() -> None:
    """Five frets are five half steps, 500 cents in equal temperament."""
    one, two = played(note("h", "2:3", marks="ss:start"), note("h", "2:8", marks="ss:stop"))
    assert (two.attack, two.velocity) == ("pick", PLAIN)
    assert cents(one) == [0, 0, 500]
    assert one.bend[-1].tick == one.ticks
    assert one.midi + 5 == two.midi


@pytest.mark.parametrize(
    ("form", "way"),
    [
        ("b1", [0, 200]), ("b1/4", [0, 50]), ("b3/2", [0, 300]), ("b1r", [0, 200, 200, 0]), ("pb1", [200]), ("pb1/2r", [100, 100, 0]),
        ("in/", [-300, 0]), ("in\\", [300, 0]), ("out/", [0, 0, 300]), ("out\\", [0, 0, -300]), ("dip", [0, -200, 0]),
    ],
)  # fmt: skip
def test_the_pitch_goes_where_the_mark_says(form: str, way: list[float]) -> None:
    """A whole step is 200 cents in equal temperament. How far a slide from nowhere and a dip go is common practice, no source."""
    (sound,) = played(note("w", "1:7", marks=form))
    assert cents(sound) == way
    assert sorted(point.tick for point in sound.bend) == [point.tick for point in sound.bend]
    assert sound.bend[0].tick == 0
    assert sound.bend[-1].tick <= sound.ticks


def test_a_bend_held_through_the_next_stroke_is_up_when_it_is_struck() -> None:
    one, two, three = played(note("q", "2:8", marks="b1:start"), note("q", "2:8", marks="b1:stop"), note("h", "2:8"))
    assert cents(one) == [0, 200]
    assert cents(two) == [200]
    assert cents(three) == []


def test_a_bend_goes_on_through_a_tie() -> None:
    (sound,) = played(note("h", "3:7", marks="b1:start", tie="out"), note("h", "3:7", marks="b1:stop", tie="in"))
    assert quarters(sound.ticks) == 4
    assert cents(sound) == [0, 200]


@pytest.mark.parametrize(("form", "least"), [("v", 10), ("wv", 50)])
def test_vibrato_rocks_and_comes_home(form: str, least: float) -> None:
    (sound,) = played(note("w", "1:7", marks=form))
    heights = cents(sound)
    peaks = sum(1 for at in range(1, len(heights) - 1) if heights[at - 1] < heights[at] > heights[at + 1])
    # Two seconds at 120 quarters a minute; a player shakes some four to eight times a second (common practice, no source).
    assert 8 <= peaks <= 16
    assert max(heights) >= least
    assert heights[0] == heights[-1] == 0


def test_a_bend_with_vibrato_is_the_sum_of_both() -> None:
    (sound,) = played(note("w", "2:8", marks="b1 v"))
    late = [point.cents for point in sound.bend if point.tick > sound.ticks // 2]
    assert min(late) == 200
    assert max(late) == pytest.approx(230)


def test_muted_staccato_and_dead_notes_are_short() -> None:
    (whole,), (muted,), (short,), (dead,) = (played(note("q", "6:3", marks=form), rest("h.")) for form in ("", "pm", "st", "x"))
    assert quarters(whole.ticks) == 1
    assert dead.ticks < short.ticks <= muted.ticks < whole.ticks
    assert [each.kind for each in (whole, muted, short, dead)] == ["note", "muted", "note", "dead"]


def test_a_muted_string_does_not_ring_on_however_long_its_note_is_written() -> None:
    """Half a second, at 120 quarters a minute, is one quarter note."""
    (muted,) = played(note("w", "6:3", marks="pm"))
    assert quarters(muted.ticks) < 1


@pytest.mark.parametrize(("form", "louder"), [("ac", True), ("ma", True), ("gh", False), ("x", False), ("pm", False), ("h:stop", False)])
def test_accents_are_louder_and_ghosts_softer(form: str, louder: bool) -> None:
    before = note("h", "6:1", marks="h:start") if form == "h:stop" else rest("h")
    sound = played(before, note("h", "6:3", marks=form))[-1]
    assert (sound.velocity > PLAIN) is louder
    assert sound.velocity != PLAIN


def test_let_ring_lasts_until_the_string_is_struck_again() -> None:
    low, high, again, other = played(
        note("q", "5:3", marks="lr"), note("q", "2:1", marks="lr"), note("q", "5:2"), note("q", "3:0", marks="lr")
    )  # fmt: skip
    assert quarters(low.ticks) == 2
    assert quarters(high.ticks) == 3
    assert quarters(again.ticks) == quarters(other.ticks) == 1


def test_let_ring_ends_with_the_harmony() -> None:
    same, other = (Attached(chord=ChordSymbol(text=root, root=PitchClass(root), kind="major")) for root in "CG")
    items = [note("q", "5:3", marks="lr", attached=same), rest("q"), note("q", "4:2", attached=same), note("q", "4:0", attached=other)]
    assert quarters(played(*items)[0].ticks) == 3


def test_a_trill_counts_the_frets_of_its_neck() -> None:
    """A dulcimer's frets are those of a diatonic scale: from its third fret, a fourth above the string, the next is a whole step."""
    diatonic = (2.0, 4.0, 5.0, 7.0, 9.0, 10.0, 12.0)
    neck = section(bar(voice(note("w", "1:3", spell="A4", marks="tr1"))), fretting=diatonic)
    assert {sound.midi for sound in perform(score(neck)).sounds} == {69, 71}


def test_pitches_between_the_half_steps_keep_their_cents() -> None:
    """Cents are hundredths of an equal-tempered half step."""
    quarter = Pitch("E", 0, 4, -40)
    item = note("h", "1:0", marks="ss:start")
    items = replace(item, notes=(replace(item.notes[0], pitch=quarter),)), note("h", "1:1", marks="ss:stop")
    one, two = played(*items)
    assert (one.midi, one.cents, two.midi, two.cents) == (64, -40, 65, 0)
    assert cents(one)[-1] == 140


def test_a_trill_alternates_with_the_fret_it_names() -> None:
    sounds = played(note("h", "3:2", marks="tr2"), rest("h"))
    assert {sound.midi for sound in sounds} == {57, 59}  # A3 and B3
    assert [sound.midi for sound in sounds[:4]] == [57, 59, 57, 59]
    assert [sound.attack for sound in sounds[:3]] == ["pick", "slur", "slur"]
    assert sum(sound.ticks for sound in sounds) == 2 * DIVISIONS


@pytest.mark.parametrize(
    ("length", "form", "count"), [("h", "tp3", 16), ("h", "tp1", 4), ("q", "tp2", 4), ("e", "tp1", 2), ("e", "tp2", 4)]
)
def test_tremolo_strokes_count_like_beams(length: str, form: str, count: int) -> None:
    """Three strokes through a half note: thirty-seconds; one through an eighth, which has a beam of its own: sixteenths."""
    sounds = played(note(length, "1:5", marks=form), meter={"h": "2/4", "q": "1/4", "e": "1/8"}[length])
    assert len(sounds) == count
    assert {sound.attack for sound in sounds} == {"pick"}
    assert len({sound.ticks for sound in sounds}) == 1


@pytest.mark.parametrize(
    ("marks", "stroke", "strings"),
    [
        ("", "d", [6, 5, 4, 3]), ("", "u", [3, 4, 5, 6]), ("ar/", None, [6, 5, 4, 3]), ("ar\\", None, [3, 4, 5, 6]),
        ("br/", None, [6, 5, 4, 3]), ("br\\", None, [3, 4, 5, 6]),
    ],
)  # fmt: skip
def test_a_chord_is_spread_in_the_direction_of_the_stroke(marks: str, stroke: str | None, strings: list[int]) -> None:
    sounds = played(note("w", "6:3 5:2 4:0 3:0", marks=marks, attached=Attached(stroke=stroke)))
    assert [sound.string for sound in sounds] == strings
    assert sounds[0].start == 0
    assert len({sound.start for sound in sounds}) == 4
    assert {sound.start + sound.ticks for sound in sounds} == {4 * DIVISIONS}


def test_a_chord_without_a_stroke_is_struck_at_once() -> None:
    assert {sound.start for sound in played(note("w", "6:3 5:2 4:0 3:0"))} == {0}


def test_a_rake_strikes_damped_strings_before_the_note() -> None:
    *damped, last = played(rest("h"), note("h", "1:8", marks="rk"))
    assert [sound.string for sound in damped] == [4, 3, 2]
    assert {sound.kind for sound in damped} == {"dead"}
    assert quarters(last.start) == 2 > quarters(damped[-1].start)


def test_a_swell_a_tap_and_harmonics_are_told_apart() -> None:
    attacks = [played(note("w", "1:7", marks=form))[0].attack for form in ("sw", "t", "lt", "")]
    assert attacks == ["swell", "tap", "slur", "pick"]
    assert played(note("w", "1:7", marks="nh"))[0].kind == "harmonic"
    assert played(note("w", "1:7", marks="ph"))[0].midi == 64 + 7 + 12


def test_fingers_and_picks_are_told_apart() -> None:
    assert played(note("w", "1:7", pluck="i"))[0].attack == "finger"


@pytest.mark.parametrize("form", ["st", "ac", "gh", "pm"])
def test_a_mark_on_a_later_piece_does_not_strike_again(form: str) -> None:
    (sound,) = played(note("h", "6:3", tie="out"), note("h", "6:3", tie="in", marks=form))
    assert (quarters(sound.ticks), sound.velocity, sound.kind) == (4, PLAIN, "note")
