"""The keys a study is written in: its own, then every other root it asks for."""

from __future__ import annotations

from dataclasses import dataclass
from typing import cast

from tabforge.compile.frame import Frame
from tabforge.model.pitch import Pitch, PitchClass, parse_pitch, parse_pitch_class
from tabforge.model.score import Scale
from tabforge.syntax.document import Study
from tabforge.theory.intervals import Interval, interval
from tabforge.theory.keys import Way, walk


@dataclass(frozen=True, slots=True)
class Key:
    """A key to write the study in: the ways it may be moved there, the likeliest first; none for its own key."""

    root: PitchClass
    moves: tuple[Interval, ...] = ()


def keys_of(study: Study, frame: Frame) -> list[Key]:
    """The study's own key and those of its ``keys`` line, in order. The header's scale must be known if there is such a line."""
    scale = frame.scale
    if "keys" not in study or scale is None:
        return [Key(scale.root.pitch_class if scale else PitchClass("C"))]
    own = scale.root.pitch_class
    keys = [Key(own)]
    for root, octave in _roots(study["keys"], scale):
        if root == own and octave is None:
            continue
        keys.append(Key(root, _moves(scale.root, root, octave)))
    return keys


def key_on(root: str, frame: Frame) -> Key:
    """The key on a root that is written as in ``keys``; the study's own where it has no scale to be moved."""
    scale = frame.scale
    if scale is None:
        return Key(PitchClass("C"))
    (tone, octave), *_ = [*_roots([root], scale), (scale.root.pitch_class, None)]
    return Key(tone, _moves(scale.root, tone, octave))


def _roots(given: str | list[str], scale: Scale) -> list[tuple[PitchClass, int | None]]:
    if isinstance(given, str):
        return [(root, None) for root in walk(scale, cast(Way, given))]
    roots: list[tuple[PitchClass, int | None]] = []
    for text in given:
        pitch = parse_pitch(text)
        tone = pitch.pitch_class if pitch else parse_pitch_class(text)
        if tone is not None:
            roots.append((tone, pitch.octave if pitch else None))
    return roots


def _moves(start: Pitch, root: PitchClass, octave: int | None) -> tuple[Interval, ...]:
    """From one root to another: to the octave that is named, else to the nearest and then the farther ones."""
    if octave is not None:
        return (interval(start, Pitch(root.step, root.alter, octave)),)
    ways = [interval(start, Pitch(root.step, root.alter, start.octave + shift)) for shift in range(-2, 3)]
    # Of two ways of the same size the one downward comes first: low positions are the easier ones.
    ways.sort(key=lambda way: (abs(way.semitones), way.semitones))
    return tuple(way for way in ways if abs(way.semitones) <= 17)
