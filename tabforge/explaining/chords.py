"""What there is to say about a chord: its tones, the keys it belongs to, the scales that hold it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.explaining import facts
from tabforge.explaining.scales import title
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_labels, chord_tones
from tabforge.theory.degrees import degree_label
from tabforge.theory.harmony import holds
from tabforge.theory.keys import plain_root
from tabforge.theory.roman import applied_numeral, numeral_of
from tabforge.theory.scale_table import SCALES
from tabforge.theory.scales import named_scale, on_root
from tabforge.theory.traits import role_of

MOST_SCALES: Final = 12
"""Scales on the chord's root that are named; more are counted."""

_KEYS: Final = ("major", "natural minor", "harmonic minor")
_OCTAVE: Final = 3
_ALL: Final = 10
"""A scale of so many notes or more holds nearly anything, and is not named."""

def _key(chord: ChordSymbol, scale: Scale) -> facts.Key:
    outside = [str(tone) for tone in chord_tones(chord) if degree_label(scale, Pitch(tone.step, tone.alter, _OCTAVE)) is None]
    return {
        "scale": title(scale),
        "numeral": numeral_of(chord, scale),
        "applied": applied_numeral(chord, scale) if outside else None,
        "outside": outside,
        "role": role_of(scale, chord) if not outside else None,
    }


def _keys(chord: ChordSymbol) -> Iterator[facts.Key]:
    """The keys that hold a chord: major ones, natural minor ones, and harmonic minor ones whose natural minor does not hold it."""
    root = chord.root
    assert root is not None
    seen: set[int] = set()
    for name in _KEYS:
        own = named_scale(Pitch(root.step, root.alter, _OCTAVE), name)
        assert own is not None
        for turn in range(12):
            tonic = plain_root(own, root.semitone + 5 * turn)
            scale = on_root(own, Pitch(tonic.step, tonic.alter, _OCTAVE))
            if holds(scale, chord) and not (name == "harmonic minor" and tonic.semitone in seen):
                if name == "natural minor":
                    seen.add(tonic.semitone)
                yield _key(chord, scale)


def _scales(chord: ChordSymbol) -> list[str]:
    root = chord.root
    assert root is not None
    found = []
    for kind in SCALES:
        scale = named_scale(Pitch(root.step, root.alter, _OCTAVE), kind.name)
        if scale and len(scale.tones) < _ALL and holds(scale, chord):
            found.append(title(scale))
    return found


def chord_facts(chord: ChordSymbol, scale: Scale | None = None) -> facts.ChordFacts:
    """Everything about a chord with a root, and what it is in a scale if one is asked about."""
    root = chord.root
    assert root is not None
    labels = chord_labels(chord)
    tones = [tone for tone in chord_tones(chord) if tone != chord.bass or len(chord_tones(chord)) == len(labels)]
    scales = _scales(chord)
    return {
        "explains": "chord",
        "name": chord.text,
        "notes": [{"degree": label, "note": str(tone)} for label, tone in zip(labels, tones, strict=True)],
        "bass": str(chord.bass) if chord.bass else None,
        "keys": list(_keys(chord)),
        "asked": _key(chord, scale) if scale else None,
        "scales": scales[:MOST_SCALES],
        "more_scales": len(scales[MOST_SCALES:]),
    }
