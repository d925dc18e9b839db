"""Scale degrees as a player writes them, and what they sound like.

Numbers are always counted in sevens, whatever the scale: 8 is the root an octave up, 10 the third above it.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from typing import Final

from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.theory.intervals import MOST_IN_SCALE, Interval, respell, transpose
from tabforge.theory.labels import Label, read_label

_TEXT: Final = re.compile(r"([_^]*)(##|#|bb|b|n)?([1-9][0-9]?)")
_ALTERS: Final = {"##": 2, "#": 1, "n": 0, "b": -1, "bb": -2}
_OUTSIDE: Final = ("1", "b2", "2", "b3", "3", "4", "#4", "5", "b6", "6", "b7", "7")
"""How a note outside a scale is named (the harmonic chromatic scale of theory handbooks, from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DegreeProblem:
    """Why a degree means no note.

    ``kind`` is "missing" (the scale has no such degree), "ambiguous" (it has several, all altered) or "unreadable".
    ``labels`` are the degrees the scale has, or, if ambiguous, those between which to choose.
    """

    kind: str
    labels: tuple[str, ...]


@cache
def resolve_degree(scale: Scale, text: str) -> Pitch | DegreeProblem:
    """The pitch of a degree such as ``5``, ``_b7`` or ``^10`` in a scale.

    A bare number is that degree in the scale's flavour; one with an accidental, or ``n``, is named against the major scale on the root
    and may leave the scale. ``_`` and ``^`` move it by octaves. Cached.
    """
    found = _TEXT.fullmatch(text)
    if found is None:
        return DegreeProblem(kind="unreadable", labels=scale.labels)
    octaves, number = divmod(int(found[3]) - 1, 7)
    octaves += found[1].count("^") - found[1].count("_")
    label = Label(number + 1, _ALTERS[found[2]]) if found[2] else _in_flavour(scale, number + 1)
    if isinstance(label, DegreeProblem):
        return label
    return transpose(scale.root, Interval(7 * octaves + number, 12 * octaves + label.offset), MOST_IN_SCALE)


def _in_flavour(scale: Scale, number: int) -> Label | DegreeProblem:
    having = [label for label, own in zip(scale.labels, scale.numbers, strict=True) if own == number]
    if not having:
        return DegreeProblem(kind="missing", labels=scale.labels)
    if len(having) > 1 and str(number) not in having:
        return DegreeProblem(kind="ambiguous", labels=tuple(having))
    return read_label(having[0] if len(having) == 1 else str(number))


def in_scale(scale: Scale, pitch: Pitch) -> bool:
    """Whether the scale has this note, in any octave and however spelled."""
    return (pitch.midi - scale.root.midi) % 12 in scale.offsets


def degree_label(scale: Scale, pitch: Pitch) -> str | None:
    """The label of a note of the scale ("1", "b3"), in any octave and however spelled; None for a note outside it."""
    offset = (pitch.midi - scale.root.midi) % 12
    return scale.labels[scale.offsets.index(offset)] if offset in scale.offsets else None


@cache
def spell_in_scale(scale: Scale, midi: int) -> Pitch:
    """A MIDI number spelled as the scale has it; a note outside it as b2, b3, #4, b6 or b7 above the root, or 3, 6 and so on.

    At most double accidentals, unless the scale itself has more.
    """
    octaves, offset = divmod(midi - scale.root.midi, 12)
    inside = offset in scale.offsets
    label = read_label(scale.labels[scale.offsets.index(offset)] if inside else _OUTSIDE[offset])
    pitch = transpose(scale.root, Interval(7 * octaves + label.number - 1, midi - scale.root.midi), MOST_IN_SCALE)
    return pitch if inside else respell(pitch)
