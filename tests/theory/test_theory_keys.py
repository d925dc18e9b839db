"""Key signatures and walks through the keys, against music21 and the circle of fifths."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import key

from tabforge.model.pitch import STEPS, Pitch, parse_pitch, parse_pitch_class
from tabforge.model.score import Scale
from tabforge.theory.keys import (
    MODE_FIFTHS,
    key_fifths,
    plain_root,
    plainer_root,
    signature,
    spelled,
    tonic_of,
    walk,
    written_fifths,
)
from tabforge.theory.scale_table import DIATONIC, SCALES
from tabforge.theory.scales import named_scale

# All fifteen major and fifteen minor keys, flats below zero: the table of any theory handbook (from memory; music21 below).
MAJOR = dict(zip(["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#"], range(-7, 8), strict=True))
MINOR = dict(zip(["Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#", "A#"], range(-7, 8), strict=True))
SHARPS, FLATS = "FCGDAEB", "BEADGCF"


def scale_on(root: str, name: str) -> Scale:
    pitch = parse_pitch(root)
    assert pitch is not None
    made = named_scale(pitch, name)
    assert made is not None
    return made


@pytest.mark.parametrize(("keys", "mode", "name"), [(MAJOR, "ionian", "major"), (MINOR, "aeolian", "natural minor")])
def test_the_thirty_keys(keys: dict[str, int], mode: str, name: str) -> None:
    for tonic, fifths in keys.items():
        root = parse_pitch_class(tonic)
        assert root is not None
        assert key_fifths(root, mode) == written_fifths(root, mode) == fifths
        assert tonic_of(fifths, mode) == root
        assert scale_on(f"{tonic}3", name).fifths == fifths
        assert key.Key(tonic.replace("b", "-"), "major" if mode == "ionian" else "minor").sharps == fifths


@pytest.mark.parametrize("mode", MODE_FIFTHS)
@pytest.mark.parametrize("fifths", range(-7, 8))
def test_church_modes_against_music21(mode: str, fifths: int) -> None:
    tonic = tonic_of(fifths, mode)
    assert key.Key(str(tonic).replace("b", "-"), {"ionian": "major", "aeolian": "minor"}.get(mode, mode)).sharps == fifths
    made = named_scale(Pitch(tonic.step, tonic.alter, 3), mode)
    assert made is not None
    assert made.fifths == fifths


@pytest.mark.parametrize("fifths", range(-7, 8))
def test_signatures_add_their_signs_in_order(fifths: int) -> None:
    signs = signature(fifths)
    assert list(signs) == list(STEPS)
    changed = set((SHARPS if fifths > 0 else FLATS)[: abs(fifths)])
    assert signs == {step: (1 if fifths > 0 else -1) if step in changed else 0 for step in STEPS}
    known = {pitch.step: int(pitch.alter) for pitch in key.KeySignature(fifths).alteredPitches}
    assert {step: alter for step, alter in signs.items() if alter} == known


@given(st.sampled_from(sorted(DIATONIC)), st.integers(-7, 7))
def test_a_diatonic_scale_needs_no_accidental_beside_its_signature(mode: str, fifths: int) -> None:
    signs = signature(fifths)
    assert all(tone.alter == signs[tone.step] for tone in spelled(tonic_of(fifths, mode), DIATONIC[mode].labels))


@pytest.mark.parametrize(
    ("root", "name", "way", "roots"),
    [
        # The circle of fifths with the usual enharmonic choice (common practice).
        ("C3", "major", "fifths", "C G D A E B Gb Db Ab Eb Bb F"),
        ("C3", "major", "fourths", "C F Bb Eb Ab Db Gb B E A D G"),
        ("C3", "major", "chromatic", "C Db D Eb E F Gb G Ab A Bb B"),
        ("A2", "minor", "fifths", "A E B F# C# G# Eb Bb F C G D"),
        ("C#3", "major", "chromatic", "C# D Eb E F Gb G Ab A Bb B C"),
        ("F3", "lydian", "fourths", "F Bb Eb Ab Db Gb B E A D G C"),
    ],
)
def test_walks(root: str, name: str, way, roots: str) -> None:
    assert " ".join(map(str, walk(scale_on(root, name), way))) == roots


ROOT_SCALES = st.builds(
    lambda step, alter, kind: named_scale(Pitch(step, alter, 3), kind.name),
    st.sampled_from(STEPS),
    st.integers(-1, 1),
    st.sampled_from(SCALES),
)


@given(ROOT_SCALES, st.sampled_from([("fifths", 7), ("fourths", 5), ("chromatic", 1)]))
def test_a_walk_meets_every_root_once(scale: Scale, way) -> None:
    roots = walk(scale, way[0])
    assert roots[0] == scale.root.pitch_class
    assert [root.semitone for root in roots] == [(scale.root.midi + way[1] * turn) % 12 for turn in range(12)]
    assert all(abs(root.alter) <= 1 for root in roots[1:])


@given(ROOT_SCALES, st.integers(0, 11))
def test_the_plain_root_needs_no_more_accidentals_than_its_enharmonic(scale: Scale, semitone: int) -> None:
    plain = plain_root(scale, semitone)
    assert plain.semitone == semitone

    def doubles(root) -> int:
        return sum(abs(tone.alter) > 1 for tone in spelled(root, scale.labels))

    for step in STEPS:
        for alter in (-1, 0, 1):
            root = parse_pitch_class(step + {-1: "b", 0: "", 1: "#"}[alter])
            assert root is not None
            if root.semitone == semitone and doubles(root) == 0:
                assert doubles(plain) == 0


@pytest.mark.parametrize(
    ("root", "name", "plainer"),
    [
        ("G#2", "lydian", "Ab"),
        ("D#3", "major", "Eb"),
        ("Fb3", "major", "E"),
        ("Ab2", "lydian", None),
        ("F#3", "major", None),  # as many sharps as Gb has flats, and none of them double
        ("Cb3", "major", None),
        ("A#2", "harmonic minor", "Bb"),
        ("C#4", "altered", None),
        ("Db4", "altered", "C#"),
        ("D3", "locrian bb7", None),  # Cbb is due whatever the root is called
        ("B##2", "major", "Db"),
    ],
)
def test_the_plainer_root(root: str, name: str, plainer: str | None) -> None:
    found = plainer_root(scale_on(root, name))
    assert (str(found) if found else None) == plainer


@given(ROOT_SCALES)
def test_a_plainer_root_is_enharmonic_and_plainer(scale: Scale) -> None:
    found = plainer_root(scale)
    if found is None:
        return
    assert found.semitone == scale.root.pitch_class.semitone
    assert found != scale.root.pitch_class
    assert any(abs(tone.alter) > 1 for tone in scale.tones)
    weight = [sum(max(abs(tone.alter) - 1, 0) for tone in tones) for tones in (spelled(found, scale.labels), scale.tones)]
    assert weight[0] <= weight[1]
