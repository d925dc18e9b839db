"""The chords of a scale of any size: stacked on each degree by taking every other note, and plain ones that it holds.

Stacking every other note gives thirds in a scale of seven notes (common practice). In other scales it gives what it gives: a stack without
a usual name is given by its intervals, and ``contained`` finds the plain chords that such a scale has all the same.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import Final

from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import PitchClass
from tabforge.model.score import Scale
from tabforge.theory.chord_names import name_chord
from tabforge.theory.chords import chord_labels, chord_named
from tabforge.theory.labels import MAJOR_OFFSETS, Label, read_label
from tabforge.theory.roman import numeral_of

STACKS: Final = {"triads": 3, "sevenths": 4, "ninths": 5}
"""What a stack is called, and how many notes it has."""

TRIADS: Final = ("", "m", "dim", "aug")
"""Plain triads, the usual first."""

EXTRAS: Final = ("sus2", "sus4", "6", "m6", "add9", "madd9")
"""Chords that are not stacked: with a second or a fourth in place of the third, and with a sixth or a ninth added to a triad."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stack:
    """A chord stacked on a degree of a scale.

    ``degree`` is the degree's label in the scale, ``labels`` are the tones against the major scale on its own root, ``tones`` are spelled
    as the scale has them. ``chord`` is None where the stack, as it is spelled, has no usual name; ``sounds`` is then the usual chord
    that sounds the same, if there is one: another spelling, or another chord over the same lowest note. ``numeral`` is that of ``chord``,
    or of a ``sounds`` on the same root.
    """

    degree: str
    labels: tuple[str, ...]
    tones: tuple[PitchClass, ...]
    chord: ChordSymbol | None
    sounds: ChordSymbol | None
    numeral: str | None

    @property
    def named(self) -> ChordSymbol | None:
        """Its name as a player would say it: as it is spelled, or as it sounds on the same root."""
        return self.chord or (self.sounds if self.sounds and self.sounds.root == self.tones[0] else None)


@cache
def stacked(scale: Scale, size: int) -> tuple[Stack, ...]:
    """A chord of ``size`` notes on each degree of a scale. Empty for a scale with too few notes: none may come twice. Cached."""
    count = len(scale.offsets)
    if len({2 * turn % count for turn in range(size)}) < size:
        return ()
    return tuple(_stack(scale, start, size) for start in range(count))


def _stack(scale: Scale, start: int, size: int) -> Stack:
    labels, tones = [], []
    for turn in range(size):
        octave, index = divmod(start + 2 * turn, len(scale.offsets))
        number = scale.numbers[index] + 7 * octave - scale.numbers[start]
        plain = MAJOR_OFFSETS[number % 7] + 12 * (number // 7)
        labels.append(str(Label(number + 1, scale.offsets[index] + 12 * octave - scale.offsets[start] - plain)))
        tones.append(scale.tones[index])
    chord, sounds = name_chord(tuple(labels), tuple(tones))
    named = chord or (sounds if sounds and sounds.root == tones[0] else None)
    return Stack(
        degree=scale.labels[start],
        labels=tuple(labels),
        tones=tuple(tones),
        chord=chord,
        sounds=sounds,
        numeral=numeral_of(named, scale) if named else None,
    )


@cache
def holds(scale: Scale, chord: ChordSymbol) -> bool:
    """Whether a scale has all notes of a chord, however they are spelled. Cached."""
    if chord.root is None:
        return False
    above = chord.root.semitone - scale.root.midi
    return all((above + read_label(label).offset) % 12 in scale.offsets for label in chord_labels(chord))


def contained(scale: Scale, root: PitchClass, suffixes: Iterable[str]) -> tuple[ChordSymbol, ...]:
    """Those chords on a root, of these suffixes, whose notes the scale has."""
    chords = (chord_named(root, suffix) for suffix in suffixes)
    return tuple(chord for chord in chords if chord and holds(scale, chord))


@cache
def triads(scale: Scale) -> tuple[ChordSymbol | None, ...]:
    """The plain triad on each degree: of seven notes the stacked one, if it is plain; else the first plain one that the scale holds.

    None for a degree that has none. Cached.
    """
    stacks = stacked(scale, STACKS["triads"]) if len(scale.tones) == len(MAJOR_OFFSETS) else ()
    found: list[ChordSymbol | None] = []
    for at, tone in enumerate(scale.tones):
        own = stacks[at].named if stacks else None
        others = contained(scale, tone, TRIADS)
        found.append(own if own and own.suffix in TRIADS else others[0] if others else None)
    return tuple(found)
