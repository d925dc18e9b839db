"""A vamp that keeps the colour of a scale, and what to leave alone, from the scale's notes."""

from __future__ import annotations

from functools import cache
from typing import Final

from tabforge.model.harmony import ChordSymbol
from tabforge.model.score import Scale
from tabforge.theory.chords import chord_labels
from tabforge.theory.harmony import STACKS, TRIADS, contained, stacked, triads
from tabforge.theory.labels import MAJOR_OFFSETS, read_label
from tabforge.theory.roman import numeral_of
from tabforge.theory.traits import colour_of, plain_triads, quality_rank, reference_of, role_of, sound_of

LONGEST: Final = 4
"""Chords of a vamp at most."""

STEADY: Final = 1
"""The last rank of ``quality_rank`` that a vamp uses gladly: major and minor."""

_OTHERS: Final = ("sus4", "sus2", "5", "majb5")
"""Chords without a third, and one without a fifth, for scales that hold no plain triad there."""


@cache
def home_chord(scale: Scale) -> ChordSymbol | None:
    """The chord to stay on: the triad on the root, of several the one with the third of the scale's reference.

    Where the scale holds none, a suspended, power or flat-five chord on the root; None where it holds none of these either. Cached.
    """
    thirds = set(reference_of(scale).labels) & {"3", "b3"}
    own = triads(scale)[0]
    ways = (own,) if own and len(scale.tones) == len(MAJOR_OFFSETS) else contained(scale, scale.tones[0], TRIADS)
    fitting = [chord for chord in ways if thirds & set(chord_labels(chord))]
    return next(iter((*fitting, *ways, *contained(scale, scale.tones[0], _OTHERS))), None)


@cache
def vamp_chords(scale: Scale) -> tuple[ChordSymbol, ...]:
    """Two to four chords of a scale that keep its colour, the first on the root; fewer where the scale holds no more. Cached.

    From the home chord on, the triad that adds most is taken until every characteristic tone is heard: major before minor, then the
    one with more tones not yet heard, then the one nearer to the root. Tones that no major or minor triad has are sought in the home
    chord's seventh, then in other triads. Chords that pull to the parent's home, and that home itself, are left out. Where the home
    chord says everything, a second is added that says it again or, failing that, any other.
    """
    home = home_chord(scale)
    if home is None:
        return ()
    colour = colour_of(scale)
    marked = frozenset(read_label(tone.degree).offset for tone in colour.tones or colour.telling)
    kept = [(at, chord) for at, chord in plain_triads(scale) if role_of(scale, chord) in ("colour", "plain")]
    chosen: list[ChordSymbol] = []
    due = marked - sound_of(scale, home)

    def take(most: int) -> None:
        nonlocal due
        while due and len(chosen) < LONGEST - 1:
            helpful = [(at, chord) for at, chord in kept if due & sound_of(scale, chord) and quality_rank(chord) <= most]
            if not helpful:
                return
            _, best = min(helpful, key=lambda each: _preference(scale, each, due))
            chosen.append(best)
            due -= sound_of(scale, best)

    take(STEADY)
    seventh = _seventh(scale, home)
    if due and seventh and due & sound_of(scale, seventh):
        home, due = seventh, due - sound_of(scale, seventh)
    take(STEADY + 1)
    if not chosen:
        chosen += _second(scale, home, marked, kept)
    return (home, *chosen)


def _seventh(scale: Scale, home: ChordSymbol) -> ChordSymbol | None:
    """The seventh chord stacked on the root, where the triad is stacked there too."""
    sevenths = stacked(scale, STACKS["sevenths"])
    threes = stacked(scale, STACKS["triads"])
    return sevenths[0].named if sevenths and threes[0].named == home else None


def _preference(scale: Scale, placed: tuple[int, ChordSymbol], due: frozenset[int]) -> tuple[int, int, int]:
    at, chord = placed
    near = min(scale.offsets[at], 12 - scale.offsets[at])
    return quality_rank(chord), -len(due & sound_of(scale, chord)), near


def _second(scale: Scale, home: ChordSymbol, marked: frozenset[int], kept: list[tuple[int, ChordSymbol]]) -> list[ChordSymbol]:
    """A second chord where the home chord alone has every characteristic tone, or there are none."""
    coloured = [each for each in kept if marked & sound_of(scale, each[1])]
    for ways in (coloured, kept, list(plain_triads(scale))):
        if ways:
            return [min(ways, key=lambda each: _preference(scale, each, marked))[1]]
    for tone in scale.tones[1:]:
        bare = contained(scale, tone, _OTHERS)
        if bare:
            return [bare[0]]
    return []


def advised_vamp(scale: Scale) -> tuple[str, ...]:
    """Numerals of a vamp that keeps a scale's colour, two to four, the first on the root.

    Fewer, or none, only for a scale that holds no second chord, or no chord on its root: a drone serves better there.
    """
    numerals = (numeral_of(chord, scale) for chord in vamp_chords(scale))
    return tuple(numeral for numeral in numerals if numeral)
