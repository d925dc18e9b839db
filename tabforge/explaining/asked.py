"""What words ask about: a scale on its root, or a chord, perhaps in a key."""

from __future__ import annotations

from typing import Final

from tabforge.explaining.facts import Facts
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch, parse_pitch, parse_pitch_class
from tabforge.model.score import Scale
from tabforge.theory.chords import parse_chord
from tabforge.theory.roman import read_numeral
from tabforge.theory.scales import named_scale, scale_from_degrees, scale_from_semitones, scale_from_steps

_OCTAVE: Final = 3  # which one does not matter to the names of notes


def _root(word: str) -> Pitch | None:
    pitch = parse_pitch(word)
    if pitch:
        return pitch
    tone = parse_pitch_class(word)
    return Pitch(tone.step, tone.alter, _OCTAVE) if tone else None


def _own(root: Pitch, way: str, values: list[str]) -> Scale | None:
    if way == "steps":
        return scale_from_steps(root, values)
    if way == "degrees":
        return scale_from_degrees(root, values)
    if way == "semitones" and all(value.isdecimal() for value in values):
        return scale_from_semitones(root, map(int, values))
    return None


def scale_asked(words: str) -> Scale | None:
    """The scale the words ask for: with a root or without one (then on C), by name or by its own steps, degrees or semitones."""
    first, _, rest = words.partition(" ")
    root = _root(first)
    if root and rest:
        way, *values = rest.split()
        return named_scale(root, rest) or _own(root, way, values)
    return named_scale(Pitch("C", 0, _OCTAVE), words)


def chord_asked(words: str) -> tuple[ChordSymbol, Scale | None] | None:
    """The chord the words ask for, by its symbol, and the scale it is to be told in: ``Dm7``, ``Dm7 in C major``, ``ii7 in C major``.

    None if they ask for none; a numeral needs its scale.
    """
    symbol, _, key = words.partition(" in ")
    scale = scale_asked(key) if key else None
    if key and scale is None:
        return None
    chord = parse_chord(symbol) or (read_numeral(symbol, scale) if scale else None)
    return (chord, scale) if chord and chord.root else None


def facts_of(words: str) -> list[Facts]:
    """What there is to say of a scale or a chord that the words ask for; empty if they ask for neither."""
    from tabforge.explaining.chords import chord_facts  # noqa: PLC0415  # only an explanation pays for it
    from tabforge.explaining.scales import scale_facts  # noqa: PLC0415

    scale, chord = scale_asked(words), chord_asked(words)
    found: list[Facts] = [scale_facts(scale)] if scale else []
    return [*found, chord_facts(*chord)] if chord else found
