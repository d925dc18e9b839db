"""Layouts against the shapes every teacher knows, and against their own rules on any neck."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.layouts import KINDS, Extent, Layout, Placed, lay_out
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import REACH_MM
from tabforge.fretboard.trouble import Kind
from tabforge.model.pitch import Pitch, parse_pitch, parse_pitch_class, spell_plainly
from tests.fretboard.necks import GUITAR, MANDOLIN, SEVEN, UKULELE, ladder, midi, neck, necks

# Whole and half steps of the modes of the major scale (any theory handbook).
MODES = {
    "ionian": "WWHWWWH",
    "dorian": "WHWWWHW",
    "phrygian": "HWWWHWW",
    "lydian": "WWWHWWH",
    "mixolydian": "WWHWWHW",
    "aeolian": "WHWWHWW",
    "locrian": "HWWHWWW",
}

# Three notes a string through G major, one mode on each of its degrees: the shapes as they are commonly printed (common practice, from
# memory).
THREE_A_STRING = {
    "ionian": ("G2", "3 5 7 | 3 5 7 | 4 5 7 | 4 5 7 | 5 7 8 | 5 7 8"),
    "dorian": ("A2", "5 7 8 | 5 7 9 | 5 7 9 | 5 7 9 | 7 8 10 | 7 8 10"),
    "phrygian": ("B2", "7 8 10 | 7 9 10 | 7 9 10 | 7 9 11 | 8 10 12 | 8 10 12"),
    "lydian": ("C3", "8 10 12 | 9 10 12 | 9 10 12 | 9 11 12 | 10 12 13 | 10 12 14"),
    "mixolydian": ("D3", "10 12 14 | 10 12 14 | 10 12 14 | 11 12 14 | 12 13 15 | 12 14 15"),
    "aeolian": ("E3", "12 14 15 | 12 14 15 | 12 14 16 | 12 14 16 | 13 15 17 | 14 15 17"),
    "locrian": ("F#3", "14 15 17 | 14 15 17 | 14 16 17 | 14 16 17 | 15 17 19 | 15 17 19"),
}

# The fingerings of three notes on one string as they follow one another upward through seven strings: whole-whole three times,
# half-whole twice, whole-half twice (common practice, from memory).
CYCLE = ["WW", "WW", "WW", "HW", "HW", "WH", "WH"]

# The five positions of C major, by the fret under the first finger (common practice, from memory; the low string first).
FIVE_POSITIONS = {
    3: "3 5 | 2 3 5 | 2 3 5 | 2 4 5 | 3 5 6 | 3 5 7",
    5: "5 7 8 | 5 7 8 | 5 7 | 4 5 7 | 5 6 8 | 5 7 8",
    7: "7 8 10 | 7 8 10 | 7 9 10 | 7 9 10 | 8 10 | 7 8 10",
    10: "10 12 13 | 10 12 | 9 10 12 | 9 10 12 | 10 12 13 | 10 12 13",
    12: "12 13 15 | 12 14 15 | 12 14 15 | 12 14 | 12 13 15 | 12 13 15",
}

C_MAJOR = ladder("C3", "C D E F G A B", [2, 2, 1, 2, 2, 2, 1])
A_PENTATONIC = ladder("A2", "A C D E G", [3, 2, 2, 3, 2])
E_PENTATONIC = ladder("E2", "E G A B D", [3, 2, 2, 3, 2])
B_FLAT_LYDIAN = ladder("Bb2", "Bb C D E F G A", [2, 2, 2, 1, 2, 2, 1])


def by_string(line: list[Placed]) -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for each in line:
        assert each.string is not None
        assert each.fret is not None
        found.setdefault(each.string, []).append(each.fret)
    return found


def frets(line: list[Placed]) -> str:
    strings = by_string(line)
    return " | ".join(" ".join(map(str, strings[string])) for string in sorted(strings, reverse=True))


def laid(layout: Layout, on: Ladder, extent: Extent = Extent(), made: Neck = GUITAR) -> list[Placed]:  # noqa: B008  # frozen
    line, trouble = lay_out(layout, on, extent, made)
    assert trouble is None
    return line


def mode(root: str, name: str) -> Ladder:
    """A mode's ladder. Letters do not matter here."""
    pitch = parse_pitch(root)
    assert pitch is not None
    steps = [{"H": 1, "W": 2}[step] for step in MODES[name]]
    offsets = tuple(sum(steps[:number]) for number in range(7))
    return Ladder(root=pitch, offsets=offsets, tones=tuple(parse_pitch_class(name) or pitch.pitch_class for name in "CDEFGAB"))


@pytest.mark.parametrize("name", MODES)
def test_three_notes_a_string_take_the_known_shapes(name: str) -> None:
    root, shape = THREE_A_STRING[name]
    assert frets(laid(Layout(kind="per string"), mode(root, name))) == shape


@pytest.mark.parametrize("name", MODES)
def test_three_notes_a_string_go_through_the_cycle_of_fingerings(name: str) -> None:
    shape = by_string(laid(Layout(kind="per string", from_string=7), mode("C2", name), made=SEVEN))
    steps = ["".join("?HW"[high - low] for low, high in zip(shape[s], shape[s][1:], strict=False)) for s in range(7, 0, -1)]
    turned = [CYCLE[turn:] + CYCLE[:turn] for turn in range(7)]
    assert steps in turned


@given(st.sampled_from(sorted(MODES)), st.integers(1, 12))
def test_a_shape_without_open_strings_moves_with_its_root(name: str, semitones: int) -> None:
    long_neck = neck(frets=36)
    low = laid(Layout(kind="per string", fret=1), mode("F2", name), made=long_neck)
    root = spell_plainly(midi("F2") + semitones)
    high = laid(Layout(kind="per string", fret=1 + semitones), mode(str(root), name), made=long_neck)
    assert [(each.string, each.fret) for each in high] == [(each.string, (each.fret or 0) + semitones) for each in low]


@pytest.mark.parametrize("fret", FIVE_POSITIONS)
def test_the_five_positions_of_the_major_scale(fret: int) -> None:
    assert frets(laid(Layout(kind="position", fret=fret), C_MAJOR)) == FIVE_POSITIONS[fret]


def test_the_first_box_of_the_minor_pentatonic() -> None:
    # The best-known shape of all (common practice, from memory); the same at two notes a string and in its position.
    box = "5 8 | 5 7 | 5 7 | 5 7 | 5 8 | 5 8"
    assert frets(laid(Layout(kind="per string", count=2), A_PENTATONIC)) == box
    assert frets(laid(Layout(kind="position", fret=5), A_PENTATONIC)) == box


def test_the_open_position_uses_open_strings() -> None:
    # The open minor pentatonic and the first page of C major (common practice, from memory).
    assert frets(laid(Layout(kind="open"), E_PENTATONIC)) == "0 3 | 0 2 | 0 2 | 0 2 | 0 3 | 0 3"
    assert frets(laid(Layout(kind="open"), C_MAJOR)) == "0 1 3 | 0 2 3 | 0 2 3 | 0 2 | 0 1 3 | 0 1 3"


def test_strings_a_fifth_apart_leave_no_gap() -> None:
    # The first position of the mandolin: open to the sixth fret (common practice, from memory).
    g_major = ladder("G3", "G A B C D E F#", [2, 2, 1, 2, 2, 2, 1])
    assert frets(laid(Layout(kind="open"), g_major, made=MANDOLIN)) == "0 2 4 5 | 0 2 4 5 | 0 2 3 5 | 0 2 3"
    dropped = neck("D2 A2 D3 G3 B3 E4")
    assert by_string(laid(Layout(kind="position", fret=5), C_MAJOR, made=dropped))[6] == [5, 7, 9, 10]


def test_a_layout_from_a_fret_or_a_degree() -> None:
    from_fret = laid(Layout(kind="per string", fret=4), C_MAJOR)
    assert (from_fret[0].fret, str(from_fret[0].pitch)) == (5, "A2")
    from_degree = laid(Layout(kind="per string", degree=parse_pitch("E3")), C_MAJOR)
    assert (from_degree[0].fret, str(from_degree[0].pitch)) == (0, "E2")


def test_degree_one_is_taken_in_its_own_octave_if_the_string_has_it() -> None:
    assert str(laid(Layout(kind="per string"), B_FLAT_LYDIAN)[0].pitch) == "Bb2"
    assert str(laid(Layout(kind="per string", from_string=3), B_FLAT_LYDIAN)[0].pitch) == "Bb3"
    assert str(laid(Layout(kind="per string", from_string=6), ladder("C6", "C D E F G A B", [2, 2, 1, 2, 2, 2, 1]))[0].pitch) == "C3"


def test_along_one_string_to_the_last_fret() -> None:
    line = laid(Layout(kind="string", from_string=4), B_FLAT_LYDIAN)
    assert frets(line) == "0 2 3 5 7 8 10 12 14 15 17 19 20 22"
    octave = laid(Layout(kind="string", from_string=1), B_FLAT_LYDIAN, Extent(first=parse_pitch("Bb2"), octaves=1))
    assert frets(octave) == "6 8 10 12 13 15 17 18"


def test_a_free_line_leaves_the_places_open() -> None:
    line = laid(Layout(), B_FLAT_LYDIAN)
    assert " ".join(str(each.pitch) for each in line) == "Bb2 C3 D3 E3 F3 G3 A3 Bb3"
    assert {(each.string, each.fret) for each in line} == {(None, None)}


def test_the_extent_cuts_a_layout() -> None:
    shape = Layout(kind="per string")
    cut = laid(shape, B_FLAT_LYDIAN, Extent(first=parse_pitch("D3"), last=parse_pitch("D4")))
    assert frets(cut) == "10 12 13 | 10 12 13 | 10 12"
    assert str(laid(shape, B_FLAT_LYDIAN, Extent(octaves=2))[-1].pitch) == "Bb4"
    high = laid(Layout(kind="position", fret=12), B_FLAT_LYDIAN, Extent(first=parse_pitch("Bb2"), last=parse_pitch("F3")))
    assert [str(each.pitch) for each in high] == ["Bb3", "C4", "D4", "E4", "F4"]
    top = laid(Layout(kind="position", fret=5), C_MAJOR, Extent(first=parse_pitch("C5")))
    assert [str(each.pitch) for each in top] == ["C5"]


TROUBLE = [
    (Layout(kind="per string", from_string=1, to_string=6), Extent(), GUITAR, Kind.LAYOUT_STRINGS),
    (Layout(kind="per string", from_string=4), Extent(), UKULELE, Kind.LAYOUT_REENTRANT),
    (Layout(kind="per string", fret=30), Extent(), GUITAR, Kind.LAYOUT_START),
    (Layout(kind="per string", count=2, fret=0), Extent(), GUITAR, Kind.LAYOUT_LOW),
    (Layout(kind="per string", fret=18), Extent(), GUITAR, Kind.LAYOUT_HIGH),
    (Layout(kind="position", fret=5), Extent(), neck("D2 D3 G3 B3 E4"), Kind.LAYOUT_HOLE),
    (Layout(kind="position", fret=23), Extent(), GUITAR, Kind.LAYOUT_START),
    (Layout(kind="per string", count=1, to_string=5, fret=8), Extent(first=parse_pitch("B3")), GUITAR, Kind.LAYOUT_FROM),
    (Layout(kind="position", fret=5), Extent(octaves=3), GUITAR, Kind.LAYOUT_TO),
    (Layout(kind="open"), Extent(last=parse_pitch("A4")), GUITAR, Kind.LAYOUT_TO),
    (Layout(), Extent(last=parse_pitch("E6")), GUITAR, Kind.ABOVE),
]


@pytest.mark.parametrize(("layout", "extent", "on", "kind"), TROUBLE)
def test_what_cannot_be_laid_out_is_told(layout: Layout, extent: Extent, on: Neck, kind: Kind) -> None:
    line, trouble = lay_out(layout, C_MAJOR, extent, on)
    assert line == []
    assert trouble is not None
    assert trouble.kind is kind


def test_the_nearest_layout_keeps_the_degree_if_it_can() -> None:
    e_major = ladder("E2", "E F# G# A B C# D#", [2, 2, 1, 2, 2, 2, 1])
    _, trouble = lay_out(Layout(kind="per string", count=2, fret=0), e_major, Extent(), GUITAR)
    assert trouble is not None
    assert trouble.nearest_fret == 12


@st.composite
def ladders(draw: st.DrawFn) -> Ladder:
    offsets = tuple(sorted(draw(st.sets(st.integers(0, 11), min_size=1, max_size=12))))
    root = draw(st.integers(2, 4))
    tones = tuple(spell_plainly(offset).pitch_class for offset in offsets)
    return Ladder(root=Pitch("C", 0, root), offsets=offsets, tones=tones)


@st.composite
def layouts(draw: st.DrawFn, on: Neck) -> Layout:
    string = st.integers(1, len(on.tuning))
    return Layout(
        kind=draw(st.sampled_from(sorted(KINDS))),
        count=draw(st.integers(1, 6)),
        from_string=draw(string),
        to_string=draw(st.just(1) | string),
        fret=draw(st.none() | st.integers(0, 24)),
        degree=draw(st.none() | st.sampled_from([Pitch("D", 0, 3), Pitch("G", 1, 2)])),
        shape=draw(st.sampled_from("CAGED")),
    )


PITCHES = st.builds(Pitch, st.sampled_from("CDEFGAB"), st.integers(-1, 1), st.integers(1, 6))

EXTENTS = st.builds(Extent, first=st.none() | PITCHES, last=st.none() | PITCHES, octaves=st.none() | st.integers(1, 3))


@given(st.data(), necks(), ladders())
@settings(max_examples=300, deadline=None)
def test_every_line_rises_without_gap_and_lies_on_the_neck(data: st.DataObject, on: Neck, tones: Ladder) -> None:
    layout = data.draw(layouts(on))
    extent = data.draw(EXTENTS)
    line, trouble = lay_out(layout, tones, extent, on)
    if trouble is not None:
        assert line == []
        if trouble.nearest_fret is not None:
            offered = Layout(kind="position", fret=trouble.nearest_fret) if trouble.kind is Kind.LAYOUT_SHAPE else None
            again = offered or replace(layout, fret=trouble.nearest_fret, degree=None)
            whole, none = lay_out(again, tones, Extent(), on)
            assert none is None or (offered and none.kind in (Kind.LAYOUT_HOLE, Kind.LAYOUT_EMPTY))
            if layout.kind == "per string":
                assert len(whole) == layout.count * (layout.from_string - layout.to_string + 1)
        return
    assert line
    first = tones.at_or_above(line[0].pitch.midi)
    if layout.kind == "fragment":
        assert [each.pitch for each in line] == [tones.pitch(tones.at_or_above(each.pitch.midi)) for each in line]
        assert sorted({each.pitch.midi for each in line}) == [each.pitch.midi for each in line]
    else:
        assert [each.pitch for each in line] == [tones.pitch(first + number) for number in range(len(line))]
    for each in line:
        assert (each.string is None) == (each.fret is None) == (layout.kind == "free")
        if each.string is not None and each.fret is not None:
            assert 0 <= each.fret <= on.last
            assert on.midi_at(each.string, each.fret) == each.pitch.midi
        assert on.places(each.pitch.midi)
    _keeps_its_kind(layout, line, extent, on)


def _keeps_its_kind(layout: Layout, line: list[Placed], extent: Extent, on: Neck) -> None:
    if extent.last is None and extent.octaves is not None:
        assert line[-1].pitch.midi - line[0].pitch.midi <= 12 * extent.octaves
    if layout.kind == "string":
        assert {each.string for each in line} == {layout.from_string}
    if layout.kind == "per string" and extent == Extent():
        assert [len(each) for each in by_string(line).values()] == [layout.count] * (layout.from_string - layout.to_string + 1)
    if layout.kind in ("position", "open"):
        hand = (layout.fret or 0) if layout.kind == "position" else 0
        for each in line:
            assert each.fret is not None
            reached = on.distance_mm(max(1, hand), each.fret) <= REACH_MM
            assert max(0, hand - 1) <= each.fret
            assert each.fret <= hand + 4 or reached


@given(ladders(), st.integers(-30, 30), st.integers(20, 100))
def test_rungs_rise_and_are_found_again(tones: Ladder, rung: int, pitch: int) -> None:
    assert tones.midi(rung) < tones.midi(rung + 1)
    assert tones.pitch(rung).midi == tones.midi(rung)
    assert tones.at_or_above(tones.midi(rung)) == tones.at_or_below(tones.midi(rung)) == rung
    above = tones.at_or_above(pitch)
    assert tones.midi(above - 1) < pitch <= tones.midi(above)
