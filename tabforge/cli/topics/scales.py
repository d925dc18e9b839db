"""Scales as topics: the table's, on any root, and one's own."""

from __future__ import annotations

from typing import Final

from tabforge.cli.topics import Entry, Topic
from tabforge.model.pitch import Pitch, PitchClass, parse_pitch, parse_pitch_class
from tabforge.model.score import Scale
from tabforge.theory.keys import plainer_root
from tabforge.theory.scale_table import SCALES, find_kind, kind_of_labels
from tabforge.theory.scale_text import steps_text, tones_text
from tabforge.theory.scales import (
    named_scale,
    on_root,
    scale_from_degrees,
    scale_from_semitones,
    scale_from_steps,
)

_OCTAVE: Final = 3  # which one does not matter to the names of notes


def _entries() -> list[Entry]:
    return [Entry(kind.name, kind.about) for kind in SCALES]


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


def _scale(words: str) -> Scale | None:
    """The scale the words ask for: with a root or without one (then on C), by name or by its own steps, degrees or semitones."""
    first, _, rest = words.partition(" ")
    root = _root(first)
    if root and rest:
        way, *values = rest.split()
        return named_scale(root, rest) or _own(root, way, values)
    return named_scale(Pitch("C", 0, _OCTAVE), words)


def _signature(fifths: int) -> str:
    if fifths == 0:
        return "none"
    kind = "sharp" if fifths > 0 else "flat"
    return f"{abs(fifths)} {kind}{'s' if abs(fifths) > 1 else ''}"


def _plainer(scale: Scale, plainer: PitchClass) -> str:
    again = on_root(scale, Pitch(plainer.step, plainer.alter, scale.root.octave))
    return f"{plainer} {scale.name} sounds the same and is easier to read: {tones_text(again)}."


def _page(words: str) -> str | None:
    scale = _scale(words)
    if scale is None:
        return None
    kind = find_kind(scale.name) or kind_of_labels(scale.labels)
    lines = [f"{scale.root.pitch_class} {scale.name}  (a scale)", ""]
    if kind:
        lines += [f"  {kind.about}", ""]
    lines += [
        f"  Notes          {tones_text(scale)}",
        f"  Degrees        {' '.join(scale.labels)}",
        f"  Steps          {steps_text(scale.offsets)}",
        f"  Key signature  {_signature(scale.fifths)}",
    ]
    others = [name for name in kind.names if name != scale.name] if kind else []
    if others:
        lines += ["", f"  Also called {', '.join(others)}."]
    plainer = plainer_root(scale)
    if plainer:
        lines += ["", f"  {_plainer(scale, plainer)}"]
    return "\n".join(lines)


TOPICS: Final = (Topic(name="scales", about="scales; `explain Bb lydian` spells one on a root", entries=_entries, explain=_page),)
