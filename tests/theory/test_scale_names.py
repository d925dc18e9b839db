"""The table of scales: names found however they are written, and every row sound in itself."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabforge.theory.labels import read_label
from tabforge.theory.names import fold
from tabforge.theory.scale_families import FAMILIES
from tabforge.theory.scale_table import SCALES, find_kind, find_name, kin_of

NAMES = [name for kind in SCALES for name in kind.names]


@pytest.mark.parametrize(
    ("written", "canonical"),
    [
        ("major", "major"),
        ("Ionian", "major"),
        ("minor", "natural minor"),
        ("natural-minor", "natural minor"),
        ("AEOLIAN", "natural minor"),
        ("dorian mode", "dorian"),
        ("Locrian #6", "locrian natural 6"),
        ("locrian natural 6", "locrian natural 6"),
        ("locrian ♮6", "locrian natural 6"),
        ("locrian sharp 6", "locrian natural 6"),
        ("locrian nat. 6", "locrian natural 6"),
        ("ionian #5", "ionian #5"),
        ("Ionian♯5", "ionian #5"),
        ("ionian_sharp_5", "ionian #5"),
        ("lydian flat 7", "lydian dominant"),
        ("Lydian  b7", "lydian dominant"),
        ("mixolydian b2b6", "phrygian dominant"),
        ("super locrian double flat 7", "superlocrian bb7"),
        ("Super-Locrian", "altered"),
        ("half/whole", "half-whole diminished"),
        ("whole-tone scale", "whole tone"),
        ("harmonic minor mode 5", "phrygian dominant"),
        ("minor pentatonic mode 2", "major pentatonic"),
        ("blues", "minor blues"),
        ("Spanish 8-tone", "spanish eight-tone"),
    ],
)
def test_a_name_is_found_however_it_is_written(written: str, canonical: str) -> None:
    found = find_kind(written)
    assert found is not None
    assert found.name == canonical


@pytest.mark.parametrize("written", ["", "scale", "mode", "lydain", "octatonic", "pentatonic", "locrian 6", "b5", "major minor"])
def test_what_names_no_scale_or_several_is_not_found(written: str) -> None:
    assert find_name(written) is None


@given(st.sampled_from(NAMES), st.data())
def test_case_and_gaps_do_not_matter(name: str, data: st.DataObject) -> None:
    gaps = st.sampled_from([" ", "  ", "-", "_", " - "])
    rewritten = "".join(
        data.draw(gaps) if letter in " -" else data.draw(st.sampled_from([letter, letter.upper()])) for letter in name
    )
    found = find_name(rewritten)
    assert found is not None
    assert found == find_name(name)


@given(st.text(max_size=40))
def test_folding_twice_changes_nothing(text: str) -> None:
    assert fold(fold(text)) == fold(text)


def test_no_name_and_no_set_of_notes_comes_twice() -> None:
    folded = [fold(name) for name in NAMES]
    assert len(set(folded)) == len(folded)
    assert len({kind.offsets for kind in SCALES}) == len(SCALES)


@pytest.mark.parametrize("kind", SCALES, ids=lambda kind: kind.name)
def test_a_row_is_sound(kind) -> None:
    assert kind.labels[0] == "1"
    assert all(low < high for low, high in pairwise((*kind.offsets, 12)))
    numbers = [read_label(label).number for label in kind.labels]
    assert numbers == sorted(numbers)
    if len(kind.labels) == 7:
        assert numbers == [1, 2, 3, 4, 5, 6, 7]
    assert kind.about.endswith(".")
    assert kind.about[:1].isupper()


@pytest.mark.parametrize("parent", FAMILIES)
def test_modes_are_their_parent_turned_round(parent: str) -> None:
    """What a mode is: the parent's notes from another of its notes (any theory handbook)."""
    modes = FAMILIES[parent]
    notes = modes[0].offsets
    assert len(modes) == 7
    for turn, mode in enumerate(modes):
        assert mode.offsets == tuple(sorted((note - notes[turn]) % 12 for note in notes)), mode.name


@pytest.mark.parametrize("parent", ["major pentatonic", "minor pentatonic"])
def test_pentatonic_modes_are_turned_round_too(parent: str) -> None:
    first = find_kind(parent)
    assert first is not None
    for turn in range(5):
        mode = find_kind(f"{parent} mode {turn + 1}")
        assert mode is not None
        assert mode.offsets == tuple(sorted((note - first.offsets[turn]) % 12 for note in first.offsets))


STEPS = {
    # The seven modes by whole and half steps, as theory handbooks table them (here from memory of Kostka and Payne,
    # "Tonal Harmony", and Levine, "The Jazz Theory Book"; W a whole step, H a half step, A three half steps).
    "ionian": "WWHWWWH",
    "dorian": "WHWWWHW",
    "phrygian": "HWWWHWW",
    "lydian": "WWWHWWH",
    "mixolydian": "WWHWWHW",
    "aeolian": "WHWWHWW",
    "locrian": "HWWHWWW",
    "harmonic minor": "WHWWHAH",
    "melodic minor": "WHWWWWH",
    "harmonic major": "WWHWHAH",
    "double harmonic": "HAHWHAH",
    "hungarian minor": "WHAHHAH",
    "neapolitan minor": "HWWWHAH",
    "neapolitan major": "HWWWWWH",
    "enigmatic": "HAWWWHH",
    "whole tone": "WWWWWW",
    "half-whole diminished": "HWHWHWHW",
    "whole-half diminished": "WHWHWHWH",
    "altered": "HWHWWWW",
    "phrygian dominant": "HAHWHWW",
    "lydian dominant": "WWWHWHW",
    "minor pentatonic": "AWWAW",
    "major pentatonic": "WWAWA",
    "minor blues": "AWHHAW",
    "augmented": "AHAHAH",
    "bebop dominant": "WWHWWHHH",
    "chromatic": "HHHHHHHHHHHH",
}


@pytest.mark.parametrize(("name", "steps"), STEPS.items())
def test_steps_are_those_of_the_handbooks(name: str, steps: str) -> None:
    kind = find_kind(name)
    assert kind is not None
    sizes = [high - low for low, high in pairwise((*kind.offsets, 12))]
    assert sizes == [{"H": 1, "W": 2, "A": 3}[step] for step in steps]


@pytest.mark.parametrize(("number", "period"), [(1, 2), (2, 3), (3, 4), (4, 6), (5, 6), (6, 6), (7, 6)])
def test_modes_of_limited_transposition_come_back_early(number: int, period: int) -> None:
    """Their definition: moved by the period, and by nothing smaller, they are the same notes (Messiaen 1944, from memory)."""
    kind = find_kind(f"limited transposition mode {number}")
    assert kind is not None
    notes = set(kind.offsets)
    assert min(move for move in range(1, 13) if {(note + move) % 12 for note in notes} == notes) == period


@pytest.mark.parametrize(
    ("labels", "mode"),
    [
        ("1 2 3 4 5 6", "ionian"),  # ionian and mixolydian share as much: the more usual one
        ("1 2 b3 4 5", "aeolian"),
        ("1 2 3 #4 5 6", "lydian"),
        ("1 b2 b3 4 5", "phrygian"),
        ("1 b2 b3 4 b5", "locrian"),
        ("1 2 3 5 b7", "mixolydian"),
        ("1 b3 5 7", "aeolian"),  # ionian shares as much, but not the third
    ],
)
def test_a_scale_of_ones_own_takes_the_mode_it_is_most_like(labels: str, mode: str) -> None:
    degrees = tuple(labels.split())
    found = kin_of(degrees)
    assert found == mode
