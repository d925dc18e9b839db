"""Scales against music21, note name by note name where its spelling is diatonic, else pitch class by pitch class."""

from __future__ import annotations

import pytest
from music21 import chord, scale

from tabforge.model.pitch import Pitch, PitchClass, parse_pitch, parse_pitch_class
from tabforge.theory.keys import tonic_of
from tabforge.theory.scale_families import FAMILIES
from tabforge.theory.scale_table import find_kind
from tabforge.theory.scales import named_scale

ROOTS = [str(tonic_of(fifths)) for fifths in range(-7, 11)]
"""Cb to A# on the line of fifths: the roots of all fifteen major keys and all fifteen minor ones."""

DIATONIC = {
    "major": scale.MajorScale,
    "dorian": scale.DorianScale,
    "phrygian": scale.PhrygianScale,
    "lydian": scale.LydianScale,
    "mixolydian": scale.MixolydianScale,
    "natural minor": scale.MinorScale,
    "locrian": scale.LocrianScale,
}


def ours(root: str, name: str) -> list[str]:
    tonic = parse_pitch_class(root)
    assert tonic is not None
    made = named_scale(Pitch(tonic.step, tonic.alter, 3), name)
    assert made is not None
    return [str(tone) for tone in made.tones]


def theirs(made: scale.ConcreteScale, root: str, *, direction: scale.Direction = scale.Direction.ASCENDING) -> list[str]:
    """An octave of music21's scale, without the root above, in our spelling (it writes a flat as "-")."""
    low = root.replace("b", "-")
    pitches = made.getPitches(f"{low}3", f"{low}4", direction=direction)
    return [pitch.name.replace("-", "b") for pitch in pitches[:-1]]


def semitones(names: list[str]) -> list[int]:
    classes = [parse_pitch_class(name) for name in names]
    return [each.semitone for each in classes if each]


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize("name", DIATONIC)
def test_modes_of_major(root: str, name: str) -> None:
    assert ours(root, name) == theirs(DIATONIC[name](root.replace("b", "-")), root)


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize(("parent", "kind"), [("harmonic minor", scale.HarmonicMinorScale), ("melodic minor", scale.MelodicMinorScale)])
def test_minor_scales_and_their_modes(root: str, parent: str, kind: type[scale.ConcreteScale]) -> None:
    notes = theirs(kind(root.replace("b", "-")), root)
    assert len(notes) == 7
    for turn, mode in enumerate(FAMILIES[parent]):
        assert ours(notes[turn], mode.name) == notes[turn:] + notes[:turn], mode.name


OCTATONIC = {"whole-half diminished": "M2", "half-whole diminished": "m2"}


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize(("name", "first_step"), OCTATONIC.items())
def test_octatonics_by_pitch_class(root: str, name: str, first_step: str) -> None:
    assert semitones(ours(root, name)) == semitones(theirs(scale.OctatonicScale(root.replace("b", "-"), first_step), root))


@pytest.mark.parametrize("root", ROOTS)
@pytest.mark.parametrize(("name", "kind"), [("whole tone", scale.WholeToneScale), ("chromatic", scale.ChromaticScale)])
def test_whole_tone_and_chromatic_by_pitch_class(root: str, name: str, kind: type[scale.ConcreteScale]) -> None:
    assert semitones(ours(root, name)) == semitones(theirs(kind(root.replace("b", "-")), root))


@pytest.mark.parametrize("root", ROOTS)
def test_blues_by_pitch_class(root: str) -> None:
    """music21's blues scale leaves its blue note to chance: whatever comes lies in ours."""
    known = semitones(theirs(scale.WeightedHexatonicBlues(root.replace("b", "-")), root))
    assert len(known) >= 5
    assert set(known) <= set(semitones(ours(root, "minor blues")))


FORTE_NAMES = {
    # Our name → a name that music21's table of set classes (after Forte) gives those notes, up to transposition and inversion.
    "harmonic major": "harmonic major scale",
    "double harmonic": "double harmonic scale",
    "hungarian minor": "Hungarian minor",
    "neapolitan minor": "Neapolitan-minor mode",
    "neapolitan major": "Neapolitan-major mode",
    "leading whole tone": "leading-whole-tone mode",
    "altered": "super-locrian",
    "melodic minor": "jazz minor",
    "major pentatonic": "major pentatonic",
    "dominant pentatonic": "dominant pentatonic",
    "hirajoshi": "Hirajoshi pentatonic",
    "iwato": "Iwato",
    "in": "Sakura",
    "kumoi": "Kumoi pentachord",
    "pelog": "Balinese Pelog pentatonic",
    "minor blues": "blues scale",
    "composite blues": "nonatonic blues",
    "whole tone": "whole tone scale",
    "half-whole diminished": "octatonic scale",
    "whole-half diminished": "diminished scale",
    "tritone": "Petrushka-chord",
    "prometheus": "Prometheus hexachord",
    "prometheus neapolitan": "Prometheus Neapolitan mode",
    "enigmatic": "Enigmatic heptatonic",
    "hungarian major": "Hungarian major mode",
    "spanish eight-tone": "Spanish octatonic scale",
    "chromatic": "chromatic scale",
    "limited transposition mode 1": "mode 1",
    "limited transposition mode 2": "mode 2",
    "limited transposition mode 3": "mode 3",
    "limited transposition mode 4": "mode 4",
    "limited transposition mode 5": "mode 5",
    "limited transposition mode 6": "mode 6",
    "limited transposition mode 7": "mode 7",
}


@pytest.mark.parametrize(("name", "known"), FORTE_NAMES.items())
def test_less_common_scales_are_the_sets_they_are_named_for(name: str, known: str) -> None:
    kind = find_kind(name)
    assert kind is not None
    address = chord.tables.seekChordTablesAddress(chord.Chord([60 + offset for offset in kind.offsets]))
    names = chord.tables.addressToCommonNames(address) or []
    assert any(known in each for each in names), names


def test_hirajoshi_is_the_theoretical_tuning_helmholtz_gives() -> None:
    """No. 110 of Ellis's additions to Helmholtz, as the scale archive that comes with music21 has it, rounded to half steps."""
    archive = scale.ScalaScale("C4", "hirajoshi2")
    notes = [round(pitch.ps) % 12 for pitch in archive.getPitches("C4", "B4")]
    kind = find_kind("hirajoshi")
    assert kind is not None
    assert tuple(notes) == kind.offsets


@pytest.mark.parametrize("octave", [1, 4])
def test_the_octave_of_the_root_is_kept(octave: int) -> None:
    root = parse_pitch(f"Bb{octave}")
    assert root is not None
    made = named_scale(root, "lydian")
    assert made is not None
    assert made.root == root
    assert made.tones[0] == PitchClass("B", -1)
