"""What a note is called in a diagram, and what it is to its scale or chord."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Final, Literal

from tabforge.diagrams.model import Role
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch, PitchClass, spell_plainly
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_labels, chord_tones
from tabforge.theory.degrees import spell_in_scale
from tabforge.theory.intervals import interval_up
from tabforge.theory.labels import MAJOR_OFFSETS, Label
from tabforge.theory.scale_table import DIATONIC

Labels = Literal["degree", "note", "finger"]
"""What dots are labelled with."""

_MAJOR: Final = frozenset(DIATONIC["ionian"].labels)
_MINOR: Final = frozenset(DIATONIC["aeolian"].labels)


@cache
def characteristic(scale: Scale) -> frozenset[int]:
    """Half steps above the root of the notes that set a scale apart.

    They are those that the plain scale with the same third does not have, the major or the natural minor one: the #4 of Lydian, the 6 of
    Dorian (common practice, no source). A scale without a third has none.
    """
    plain = _MAJOR if "3" in scale.labels else _MINOR if "b3" in scale.labels else None
    if plain is None:
        return frozenset()
    return frozenset(offset for label, offset in zip(scale.labels, scale.offsets, strict=True) if label not in plain)


def degree_above(root: PitchClass, tone: PitchClass) -> str:
    """A note against the major scale on a root: Bb above G is b3."""
    letters, semitones = interval_up(root, tone)
    return str(Label(letters + 1, semitones - MAJOR_OFFSETS[letters]))


class Naming:
    """Names notes against a scale or else a chord, or against nothing."""

    def __init__(self, labels: Labels, scale: Scale | None = None, chord: ChordSymbol | None = None) -> None:
        self._labels = labels
        self._scale = scale
        self._root = scale.root.pitch_class if scale else chord.root if chord else None
        self._tones: Mapping[int, tuple[PitchClass, str]] = {}
        if chord is not None and chord.root is not None and scale is None:
            tones = chord_tones(chord)
            own = tones[-len(chord_labels(chord)) :]
            named = dict(zip(own, chord_labels(chord), strict=True))
            self._tones = {tone.semitone: (tone, named.get(tone) or degree_above(chord.root, tone)) for tone in tones}

    def role(self, midi: int) -> Role:
        """What a pitch is to the scale or chord."""
        if self._root is None:
            return Role.TONE
        if (midi - self._root.semitone) % 12 == 0:
            return Role.ROOT
        if self._scale is None:
            return Role.TONE if midi % 12 in self._tones else Role.OUTSIDE
        offset = (midi - self._scale.root.midi) % 12
        if offset not in self._scale.offsets:
            return Role.OUTSIDE
        return Role.CHARACTERISTIC if offset in characteristic(self._scale) else Role.TONE

    def label(self, midi: int, spelling: Pitch | None = None, finger: str | None = None) -> str:
        """The label of a pitch. ``spelling`` is how the study spells it, where it does; it counts if it sounds the same but for octaves."""
        if self._labels == "finger":
            return finger or ""
        if self._scale is None and midi % 12 in self._tones:
            tone, degree = self._tones[midi % 12]
            return degree if self._labels == "degree" else str(tone)
        tone = self._spelled(midi, spelling)
        if self._labels == "note" or self._root is None:
            return str(tone)
        if self._scale is not None:
            offset = (midi - self._scale.root.midi) % 12
            if offset in self._scale.offsets:
                return self._scale.labels[self._scale.offsets.index(offset)]
        return degree_above(self._root, tone)

    def _spelled(self, midi: int, spelling: Pitch | None) -> PitchClass:
        if spelling is not None and (spelling.midi - midi) % 12 == 0:
            return spelling.pitch_class
        if self._scale is not None:
            return spell_in_scale(self._scale, midi).pitch_class
        flats = self._root is not None and (self._root.alter < 0 or self._root.step == "F")
        return spell_plainly(midi, flats).pitch_class
