"""The colour of a scale, and what threatens it: one computation for every scale, from its notes alone.

Its characteristic tones are those by which it differs from the major or the natural minor scale. Its tritones want to resolve by
half steps; the one on the fourth and the leading note of its parent scale, resolved, sounds as the parent's home. Chords that hold
a characteristic tone and not that tritone keep the colour; chords that hold it, and the parent's own home chord, pull away.
(Common practice in teaching modes, no single source; the exact rules and their order are our own.)
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, Literal

from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import PitchClass
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_labels
from tabforge.theory.harmony import STACKS, Stack, stacked, triads
from tabforge.theory.labels import read_label
from tabforge.theory.modes import Mode, modes_of, parent_of
from tabforge.theory.scale_table import DIATONIC, kin_of
from tabforge.theory.scales import named_scale

LEADING: Final = 11
FOURTH: Final = 5
TRITONE: Final = 6
"""Semitones: the leading note and the fourth above a root, and the distance between them."""

REFERENCES: Final = ("major", "natural minor")
"""What a scale is heard against."""

Role = Literal["home", "lead", "colour", "pull", "parent", "plain"]
"""What a chord does: it is the scale's own home, or leads there; it keeps the colour; it pulls to the parent's home; it is that home; none
of these."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tone:
    """A note of a scale with its degree."""

    degree: str
    note: PitchClass


@dataclass(frozen=True, slots=True, kw_only=True)
class Tritone:
    """Two notes of a scale six semitones apart, and for each the notes of the scale a half step away, to which it pulls.

    ``away``: it is the one on the fourth and the leading note of a parent scale that has another home.
    """

    tones: tuple[Tone, Tone]
    goals: tuple[tuple[Tone, ...], tuple[Tone, ...]]
    away: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Colour:
    """What is characteristic of a scale. ``against`` is the major or natural minor scale on its root that it is nearest to.

    ``tones`` are the notes it has and that scale has not. Major and natural minor themselves have none; ``telling`` are then the notes
    that tell them from the diatonic modes that differ in a single note. ``parent`` is None for a scale that is no turn of another.
    """

    against: Scale
    tones: tuple[Tone, ...]
    telling: tuple[Tone, ...]
    parent: Mode | None
    modes: tuple[Mode, ...]
    tritones: tuple[Tritone, ...]


def _named(scale: Scale, name: str) -> Scale:
    found = named_scale(scale.root, name)
    assert found is not None  # a name of this module, which the table has
    return found


@cache
def reference_of(scale: Scale) -> Scale:
    """The major or natural minor scale on the same root that a scale is nearest to: by its third, where it has but one; then by the notes
    they share; then by the third of the mode whose key signature it is written in; the major one if that decides nothing. Cached.
    """
    kin = DIATONIC.get(kin_of(scale.labels) or "ionian")
    third = {scale.labels[at] for at, number in enumerate(scale.numbers) if number == 3}
    both = [_named(scale, name) for name in REFERENCES]
    same = [each for each in both if len(third) == 1 and third <= set(each.labels)]

    def likeness(each: Scale) -> tuple[int, bool]:
        return len(set(each.offsets) & set(scale.offsets)), bool(kin and set(kin.labels) & {"3", "b3"} & set(each.labels))

    return max(same or both, key=likeness)


def _tones(scale: Scale, offsets: set[int]) -> tuple[Tone, ...]:
    return tuple(
        Tone(degree=label, note=note)
        for label, note, offset in zip(scale.labels, scale.tones, scale.offsets, strict=True)
        if offset in offsets
    )


def _telling(scale: Scale) -> tuple[Tone, ...]:
    """For a diatonic mode: its notes that a diatonic mode with the same third has otherwise, where that is the only difference."""
    own = set(scale.offsets)
    found: set[int] = set()
    if any(kind.offsets == scale.offsets for kind in DIATONIC.values()):
        for kind in DIATONIC.values():
            missing = own - set(kind.offsets)
            if len(missing) == 1 and not missing & {3, 4}:
                found |= missing
    return _tones(scale, found)


@cache
def colour_of(scale: Scale) -> Colour:
    """The colour of a scale. Cached."""
    against = reference_of(scale)
    tones = _tones(scale, set(scale.offsets) - set(against.offsets))
    parent = parent_of(scale)
    return Colour(
        against=against,
        tones=tones,
        telling=() if tones else _telling(scale),
        parent=parent,
        modes=modes_of(scale),
        tritones=_tritones(scale, parent),
    )


def _tritones(scale: Scale, parent: Mode | None) -> tuple[Tritone, ...]:
    pull = pulling(scale, parent)
    found = []
    for offset in scale.offsets:
        if offset + TRITONE not in scale.offsets:
            continue
        pair = (offset, offset + TRITONE)
        low, high = (_tones(scale, {each})[0] for each in pair)
        down, up = (_tones(scale, {(each - 1) % 12, (each + 1) % 12}) for each in pair)
        found.append(Tritone(tones=(low, high), goals=(down, up), away=frozenset(pair) == pull))
    return tuple(found)


def pulling(scale: Scale, parent: Mode | None) -> frozenset[int]:
    """Fourth and leading note of the parent scale, as semitones above this scale's root, if both are in it; empty without a parent."""
    if parent is None:
        return frozenset()
    above = parent.root.semitone - scale.root.midi
    pair = frozenset({(above + LEADING) % 12, (above + FOURTH) % 12})
    return pair if pair <= set(scale.offsets) else frozenset()


def sound_of(scale: Scale, chord: ChordSymbol) -> frozenset[int]:
    """The notes of a chord as semitones above a scale's root; a foreign bass is not one of them, since a drone changes no chord."""
    above = chord.root.semitone - scale.root.midi if chord.root else 0
    return frozenset((above + read_label(label).offset) % 12 for label in chord_labels(chord))


@cache
def role_of(scale: Scale, chord: ChordSymbol) -> Role:
    """What a chord does to the colour of a scale. Cached.

    Every chord on the root is home, a dominant seventh too, as a mixolydian groove stays on it. In a scale that is no turn of another
    nothing pulls away: chords with its own fourth and leading note lead home.
    """
    if chord.root is None:
        return "plain"
    colour = colour_of(scale)
    notes, pull = sound_of(scale, chord), pulling(scale, colour.parent)
    if (chord.root.semitone - scale.root.midi) % 12 == 0:
        return "home"
    if pull and pull <= notes:
        return "pull"
    if colour.parent is None and {FOURTH, LEADING} <= notes:
        return "lead"
    if pull and colour.parent and chord.root.semitone == colour.parent.root.semitone:
        return "parent"
    marked = {read_label(tone.degree).offset for tone in colour.tones or colour.telling}
    return "colour" if marked & notes else "plain"


def with_role(scale: Scale, role: Role) -> tuple[Stack, ...]:
    """The named triads and sevenths stacked on a scale that do this to its colour, triads first."""
    stacks = (*stacked(scale, STACKS["triads"]), *stacked(scale, STACKS["sevenths"]))
    return tuple(stack for stack in stacks if stack.named and role_of(scale, stack.named) == role)


def plain_triads(scale: Scale) -> tuple[tuple[int, ChordSymbol], ...]:
    """Place and triad of each degree but the first that has one."""
    return tuple((at, chord) for at, chord in enumerate(triads(scale)) if chord and at)


def quality_rank(chord: ChordSymbol) -> int:
    """How steady a triad stands: major, minor, then others."""
    ranks: dict[tuple[str, ...], int] = {("1", "3", "5"): 0, ("1", "b3", "5"): 1}
    return ranks.get(chord_labels(chord), 2)
