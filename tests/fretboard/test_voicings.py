"""Voicings as players know them, on guitars and other instruments, and what is said where there is none."""

from __future__ import annotations

import pytest

from tabforge.fretboard.gripped import Barre, Grip, NoGrip, shape_text
from tabforge.fretboard.instruments import INSTRUMENTS, neck_of
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.voicings import VoicingKind, VoicingStyle, choose_grips, grips_of
from tabforge.model.harmony import ChordSymbol
from tabforge.theory.chords import parse_chord
from tests.fretboard.necks import BASS, GUITAR, UKULELE, neck

USUAL = PLAYERS["usual"]

# The first grips of any beginner's book (common practice, from memory, no source).
OPEN = {
    "C": "x32010", "A": "x02220", "G": "320003", "E": "022100", "D": "xx0232", "Am": "x02210", "Em": "022000", "Dm": "xx0231",
    "F": "133211",
    "C7": "x32310", "A7": "x02020", "G7": "320001", "E7": "020100", "D7": "xx0212", "B7": "x21202", "Am7": "x02010", "Dm7": "xx0211",
    "Cmaj7": "x32000", "Dmaj7": "xx0222", "Fmaj7": "xx3210", "Dsus2": "xx0230", "D/F#": "200232",
}  # fmt: skip

# Shapes of E and A moved up the neck (common practice, from memory): from the barre's fret, for each quality.
BARRE = {
    "": ("022100", "x02220"), "m": ("022000", "x02210"), "7": ("020100", "x02020"), "m7": ("020000", "x02010"),
    "maj7": ("021100", "x02120"),
}  # fmt: skip
ROOTS = {"F": 1, "F#": 2, "G": 3, "Ab": 4, "A": 5, "Bb": 6, "B": 7, "C": 8, "Db": 9, "D": 10, "Eb": 11}
"""Root → its fret on a guitar's string 6."""

UKULELE_OPEN = {"C": "0003", "Am": "2000", "F": "2010", "G": "0232", "G7": "0212", "Dm": "2210", "A": "2100", "D": "2220", "Bb": "3211"}
# Movable shapes of a ukulele, those of A, Am, A7 and Am7 (common practice, from memory): the finger on string 4 stands above the barre.
UKULELE_BARRE = {
    "Cm": "5333", "C#m": "6444", "Dm": "7555", "Ebm": "8666", "Em": "9777", "Bbm": "3111", "Bm": "4222", "F#": "3121", "G": "4232",
    "Eb": "3336", "D7": "2223", "Bb7": "1211", "Bm7": "2222",
}  # fmt: skip
BASS_POWER = {"E5": "022x", "F5": "133x", "G5": "355x", "A5": "x022", "D5": "xx02"}
GUITAR_POWER = {"E5": "022xxx", "F5": "133xxx", "G5": "355xxx", "A5": "x022xx", "C5": "x355xx", "B5": "x244xx"}


def chord(name: str) -> ChordSymbol:
    symbol = parse_chord(name)
    assert symbol is not None, name
    return symbol


def style(kind: VoicingKind, strings: str = "", inversion: int | None = None) -> VoicingStyle:
    return VoicingStyle(kind=kind, strings=tuple(map(int, strings.split())), inversion=inversion)


def best(name: str, on: Neck, asked: VoicingStyle) -> Grip | NoGrip:
    (found,) = choose_grips(on, [chord(name)], asked, USUAL, lead=False)
    return found


def written(name: str, on: Neck, asked: VoicingStyle) -> str:
    found = best(name, on, asked)
    assert isinstance(found, Grip), found
    return shape_text(found.shape)


def all_written(name: str, on: Neck, asked: VoicingStyle) -> list[str]:
    found = grips_of(on, chord(name), asked, USUAL)
    assert not isinstance(found, NoGrip), found
    return [shape_text(grip.shape) for grip in found]


@pytest.mark.parametrize("name", OPEN)
def test_the_open_chords_of_a_guitar(name: str) -> None:
    assert written(name, GUITAR, style("open")) == OPEN[name]


def moved(shape: str, by: int) -> str:
    return shape_text(tuple(None if fret == "x" else int(fret) + by for fret in shape))


@pytest.mark.parametrize("quality", BARRE)
@pytest.mark.parametrize("root", ROOTS)
def test_a_barre_grip_is_the_shape_of_e_or_of_a(root: str, quality: str) -> None:
    low, high = BARRE[quality]
    at = ROOTS[root]
    shapes = {moved(low, at), moved(high, at - 5 if at > 5 else at + 7)}
    found = all_written(root + quality, GUITAR, style("barre"))[:3]
    assert shapes & set(found)
    grip = best(root + quality, GUITAR, style("barre"))
    assert isinstance(grip, Grip)
    assert grip.barre is not None
    assert 0 not in grip.frets


def test_the_barre_is_the_first_fingers() -> None:
    grip = best("F", GUITAR, style("barre"))
    assert isinstance(grip, Grip)
    assert (grip.shape, grip.fingers[::-1]) == ((1, 3, 3, 2, 1, 1), (1, 3, 4, 2, 1, 1))  # as any chart prints it (common practice)
    assert grip.barre == Barre(fret=1, low=6, high=1)
    assert (grip.hand, round(grip.stretch)) == (1, 67)  # fret 1 to 3 of 648 mm: 648 * (2 ** (-1 / 12) - 2 ** (-3 / 12)) = 66.7


@pytest.mark.parametrize("name", UKULELE_OPEN)
def test_the_open_chords_of_a_ukulele(name: str) -> None:
    assert written(name, UKULELE, style("open")) == UKULELE_OPEN[name]


@pytest.mark.parametrize("low", [False, True], ids=["high G", "low G"])
@pytest.mark.parametrize("name", UKULELE_BARRE)
def test_the_barre_grips_of_a_ukulele(name: str, low: bool) -> None:
    assert written(name, neck("G3 C4 E4 A4", frets=15, scale_length=380.0) if low else UKULELE, style("barre")) == UKULELE_BARRE[name]


@pytest.mark.parametrize("name", ["Fm", "F#m", "Gm", "Am"])
def test_a_barre_grip_does_not_spread_the_hand_where_another_is_there(name: str) -> None:
    """Moved open shapes reach three frets above their barre at most: those of C, A, G, E and D on a guitar (common practice)."""
    grip = best(name, UKULELE, style("barre"))
    assert isinstance(grip, Grip)
    assert grip.barre is not None
    assert max(fret for fret in grip.frets if fret) - grip.barre.fret <= 3


@pytest.mark.parametrize(("name", "shape"), [("Asus4", "x02230"), ("C", "x32013"), ("G", "320033")])
def test_other_open_chords_are_there_to_be_led_to(name: str, shape: str) -> None:
    assert shape in all_written(name, GUITAR, style("open"))  # common practice, from memory


@pytest.mark.parametrize("name", BASS_POWER)
def test_power_chords_on_a_bass(name: str) -> None:
    assert written(name, BASS, style("power")) == BASS_POWER[name]


@pytest.mark.parametrize("name", GUITAR_POWER)
def test_power_chords_on_a_guitar(name: str) -> None:
    assert written(name, GUITAR, style("power")) == GUITAR_POWER[name]


def test_shells_of_two_five_one() -> None:
    """Root, seventh, third from string 6; root, third, seventh from string 5 (common practice, from memory)."""
    assert "x535xx" in all_written("Dm7", GUITAR, style("shell"))
    assert "3x34xx" in all_written("G7", GUITAR, style("shell"))
    assert "x324xx" in all_written("Cmaj7", GUITAR, style("shell"))
    assert written("Cmaj7", GUITAR, style("shell", "6 4 3")) == "8x99xx"


def test_a_capo_moves_open_grips() -> None:
    assert written("D", neck(capo=2), style("open")) == "x32010"


def test_a_string_that_begins_farther_up_is_stopped_above_its_nut() -> None:
    banjo = INSTRUMENTS["five-string banjo"]
    for name in ("C", "D7", "Em", "A"):
        for kind in ("open", "barre", "free"):
            for grip in _grips(name, neck_of(banjo, banjo.tuning, 0, ()), style(kind)):
                assert grip.frets[4] in (None, 0) or grip.frets[4] > 5


def _grips(name: str, on: Neck, asked: VoicingStyle) -> tuple[Grip, ...]:
    found = grips_of(on, chord(name), asked, USUAL)
    return () if isinstance(found, NoGrip) else found


def test_frets_that_are_not_half_steps() -> None:
    """A dulcimer in D A D, frets as 2 2 1 2 2 1 2: its D chord stops the F# at fret 2 (common practice, no source)."""
    dulcimer = INSTRUMENTS["mountain dulcimer"]
    on = neck_of(dulcimer, dulcimer.tuning, 0, dulcimer.fretting)
    assert written("D", on, style("open")) == "002"
    assert isinstance(best("Eb", on, style("free")), NoGrip)  # no fret of this neck gives Eb


def test_a_named_shape_stands() -> None:
    named = ChordSymbol(text="C", root=chord("C").root, kind="major", shape=(None, 3, 2, 0, 1, 3))
    (found,) = choose_grips(GUITAR, [named], style("barre"), USUAL)
    assert isinstance(found, Grip)
    assert (found.shape, found.midi[::-1]) == (named.shape, (None, 48, 52, 55, 60, 67))
    beyond = ChordSymbol(text="C", root=chord("C").root, kind="major", shape=(1, 12, None, None, None, None))
    (found,) = choose_grips(GUITAR, [beyond], style("open"), USUAL)
    assert isinstance(found, Grip)
    assert found.fingers == (0, 0, 0, 0, 0, 0)  # no hand holds it


@pytest.mark.parametrize("kind", ["open", "barre", "shell", "triads", "drop2", "drop3", "spread", "power", "free"])
@pytest.mark.parametrize(("name", "bass"), [("C/E", 4), ("Am7/G", 7), ("D/C", 0), ("Fmaj7/C", 0), ("G7/D", 2)])
def test_a_named_bass_is_the_lowest_note(kind: VoicingKind, name: str, bass: int) -> None:
    found = best(name, GUITAR, style(kind))
    if isinstance(found, NoGrip):
        assert found.nearest is not None
        assert found.nearest.pitches[0] % 12 == bass
    else:
        assert found.pitches[0] % 12 == bass


@pytest.mark.parametrize(
    ("name", "on", "asked", "why", "instead"),
    [
        ("C", GUITAR, style("drop2"), "C has 3 notes, and a drop 2 voicing has four", "a spread triad of C."),
        ("C", GUITAR, style("triads", inversion=3), "C has no seventh or sixth, so there is no third inversion", "a close triad of C."),
        ("C5", GUITAR, style("triads"), "C5 has no third, and a triad has root, third and fifth.", "a power chord of C5."),
        ("C7", GUITAR, style("triads", "3 2"), "A close triad of C7 has 3 voices, and 2 strings are asked for.", "a close triad of C7."),
        ("C", UKULELE, style("power", "6 5"), "There is no string 6 on a neck of 4 strings.", "a power chord of C."),
        ("C", GUITAR, style("barre", "6 1"), "No hand reaches a barre grip of C on strings 6 1 on this neck.", "a barre grip of C."),
        ("D7", neck("D3 A3 D4"), style("drop2"), "A drop 2 voicing of D7 has 4 voices, and this neck 3 strings.", "of D7."),
        ("N.C.", GUITAR, style("open"), "N.C. is no chord: nothing sounds.", "Name a chord"),
    ],
)
def test_where_there_is_no_grip_it_is_told_why(name: str, on: Neck, asked: VoicingStyle, why: str, instead: str) -> None:
    found = best(name, on, asked)
    assert isinstance(found, NoGrip)
    assert why in found.why
    assert instead in found.instead
    assert (found.nearest is None) == (name == "N.C.")
    if found.nearest:
        assert shape_text(found.nearest.shape) in found.instead


@pytest.mark.parametrize("kind", ["free", "open", "barre"])
@pytest.mark.parametrize("names", ["G D Em7 C D", "Am F C G", "Bb Gm Eb F7", "Dm7 G7 Cmaj7 A7", "E B7 F#m C#m7b5"])
def test_a_plain_name_has_its_root_lowest_wherever_it_is_led(kind: VoicingKind, names: str) -> None:
    # Common practice, no source: another bass is written behind a slash.
    chords = [chord(name) for name in names.split()]
    for asked, found in zip(chords, choose_grips(GUITAR, chords, style(kind), USUAL), strict=True):
        if isinstance(found, Grip):
            assert asked.root is not None
            assert min(found.pitches) % 12 == asked.root.semitone, (asked.text, shape_text(found.shape))
    (slashed,) = choose_grips(GUITAR, [chord("D/F#")], style(kind), USUAL)
    assert not isinstance(slashed, Grip) or min(slashed.pitches) % 12 == 6
