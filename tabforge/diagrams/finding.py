"""Finding grips for a chord symbol: candidates from each part of the neck, judged as placement judges any chord.

A grip has every note that makes the chord what it is, no note besides, and fits one hand. Which notes may be left out, and how much a grip
suffers for what it lacks, is common practice, no source; how a hand holds it is ``fretboard.cost``'s to say.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from tabforge.diagrams.frames import Shape
from tabforge.diagrams.shapes import Frets
from tabforge.fretboard.cost import Weights
from tabforge.fretboard.holds import holds
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.reach import FINGERS, HAND_FRETS, farthest, fingers_needed
from tabforge.fretboard.readings import Wanted
from tabforge.limits import MAX_FRET
from tabforge.model.harmony import ChordSymbol
from tabforge.theory.chords import chord_labels, chord_tones

TRIAD: Final = 3
"""Notes of a chord that can spare none."""

MOST_TRIES: Final = 6000
"""Steps of looking for grips in one part of the neck, the fuller ones first and those with the right bass; triads take fewer."""

OUTER: Final = 2
"""Strings from the lowest on which the right bass is looked for first."""

MOST_JUDGED: Final = 60
"""Grips of one part of the neck that are held to a hand's reach: those that suffer least from what they lack."""

INVERTED: Final = 20
"""Another note than the root in the bass, where no bass was asked for."""

INVERTED_HIGH: Final = 1
"""The same where the lowest note is no bass: someone else plays that, or nobody misses it."""

DEEP: Final = 50
"""The pitch (D3) below which a lowest note is heard as the bass."""

UNPLAYED: Final = 3
"""Each string that is not played."""

INNER: Final = 4
"""Each of those that lies between strings that are."""

MOST_INNER: Final = 1
"""How many of those there may be: a finger that stops a string beside it keeps it silent."""

LACKING: Final = 2
"""Each note of the chord that is left out."""

FINGER: Final = 1
"""Each finger that the grip takes."""

FARTHER: Final = 1
"""Each fret that the grip lies up the neck, if it does not lie in the first frets."""

_CHART: Final = Weights(barre=0, displaced=0, strain=0)
"""A chart's reader chooses the fingers: they are counted (FINGER), and which of them lies where is left to the hand."""


@dataclass(frozen=True, slots=True)
class _Chord:
    """What a grip must have: pitch classes 0 to 11. ``bass`` is the one asked for, ``root`` the chord's own."""

    tones: frozenset[int]
    needed: frozenset[int]
    root: int
    bass: int | None


def _chord(symbol: ChordSymbol, strings: int) -> _Chord | None:
    """What a chord needs on so many strings; None for no chord.

    Of a chord of four notes or more a perfect fifth may be left out, of an eleventh or thirteenth chord what lies between the
    seventh and its highest note too; on fewer strings the fifth of any chord, and then its root.
    """
    if symbol.root is None:
        return None
    tones = {tone.semitone for tone in chord_tones(symbol)}
    root, labels = symbol.root.semitone, chord_labels(symbol)
    own = chord_tones(symbol)[-len(labels) :]
    named = {label: tone.semitone for label, tone in zip(labels, own, strict=True)}
    needed = set(tones)
    if len(named) > TRIAD:
        between = [label for label in ("9", "11") if label != labels[-1] and labels[-1] in ("11", "13")]
        needed -= {named[label] for label in ("5", *between) if label in named}
    for label in ("5", "1"):
        if len(needed) > strings:
            needed.discard(named.get(label, -1))
    bass = symbol.bass.semitone if symbol.bass else None
    return _Chord(frozenset(tones), frozenset(needed | ({bass} if bass is not None else set())), root, bass)


def find_grips(symbol: ChordSymbol, neck: Neck, most: int, frets: Frets | None = None) -> list[Shape]:
    """At most ``most`` grips of a chord, the best first: the same every time for the same chord and neck.

    ``frets``: fretted notes lie between these, and open strings are used only if it begins at 0. Of grips that differ on one string
    alone, or in what they leave out, only the best is told. Empty for N.C., and where no hand reaches the chord.
    """
    chord = _chord(symbol, len(neck.tuning))
    if chord is None:
        return []
    reach = farthest(neck)
    low, high = (max(1, frets.first), min(frets.last, neck.last)) if frets else (1, neck.last)
    opened = frets is None or frets.first == 0
    judged: dict[Shape, int] = {}
    for base in range(low, max(low, high) + 1):  # where there are no frets, open strings are left
        farthest_fret = min(reach[base], high) if base <= high else 0
        found = ((shape, _lack(shape, chord, neck)) for shape in _within(chord, neck, base, farthest_fret, opened))
        lacks = {shape: lack for shape, lack in found if lack is not None}
        for shape in sorted(lacks, key=lambda each: (lacks[each], _order(each)))[:MOST_JUDGED]:
            held = _held(shape, neck, reach)
            if held is not None:
                judged[shape] = lacks[shape] + held
    kept: list[Shape] = []
    for shape in sorted(judged, key=lambda each: (judged[each], _order(each))):
        if len(kept) == most:
            break
        if not any(_alike(shape, other) for other in kept):
            kept.append(shape)
    return kept


def _order(shape: Shape) -> list[int]:
    """Low frets before high ones, strings that are not played last."""
    return [MAX_FRET + 1 if fret is None else fret for fret in shape]


def _alike(shape: Shape, other: Shape) -> bool:
    """Whether two grips differ on one string alone, or one is the other with strings left out."""
    differing = [(fret, there) for fret, there in zip(shape, other, strict=True) if fret != there]
    return len(differing) < 2 or all(fret is None for fret, _ in differing) or all(there is None for _, there in differing)


def _within(chord: _Chord, neck: Neck, base: int, high: int, opened: bool) -> Iterator[Shape]:
    """Grips whose lowest fretted note lies at ``base`` and the highest not above ``high``, or that are all open; fuller ones first."""
    count = len(neck.tuning)
    choices: list[list[int | None]] = []
    wanted = chord.root if chord.bass is None else chord.bass
    for string in range(count, 0, -1):
        frets = [*([0] if opened else []), *range(base, high + 1)]
        having: list[int | None] = [fret for fret in frets if neck.has(string, fret) and neck.midi_at(string, fret) % 12 in chord.tones]
        if len(choices) < OUTER:
            having.sort(key=lambda fret: neck.midi_at(string, fret or 0) % 12 != wanted)
        choices.append([*having, None])
    tries = 0
    shape: list[int | None] = [None] * count

    def fit(place: int) -> Iterator[Shape]:
        nonlocal tries
        if place == count:
            if base in shape or (base == 1 and not any(shape)):
                yield tuple(shape)
            return
        for fret in choices[place]:
            tries += 1
            if tries > MOST_TRIES:
                return
            shape[place] = fret
            yield from fit(place + 1)
        shape[place] = None

    yield from fit(0)


def _lack(shape: Shape, chord: _Chord, neck: Neck) -> int | None:
    """What a grip suffers from what it lacks; None if it is none of the chord's."""
    count = len(shape)
    held = [(count - place, fret) for place, fret in enumerate(shape) if fret is not None]
    if len(held) < min(TRIAD, len(chord.tones)):
        return None
    pitches = [neck.midi_at(string, fret) for string, fret in held]
    sounding = {midi % 12 for midi in pitches}
    lowest = min(pitches)
    inner = held[0][0] - held[-1][0] + 1 - len(held)
    if inner > MOST_INNER:
        return None
    if not chord.needed <= sounding or (chord.bass is not None and lowest % 12 != chord.bass):
        return None
    cost = UNPLAYED * (count - len(held)) + INNER * inner + LACKING * len(chord.tones - sounding)
    if chord.bass is None and lowest % 12 != chord.root:
        cost += INVERTED if lowest < DEEP else INVERTED_HIGH
    return cost


def _held(shape: Shape, neck: Neck, reach: list[int]) -> int | None:
    """What it costs a hand to hold a grip; None if no hand does."""
    count = len(shape)
    held = [(count - place, fret) for place, fret in enumerate(shape) if fret is not None]
    # Pinned by string alone: a pitch lies at one fret of a string, and a grip with every fret pinned would not be held to a hand's reach.
    playable = holds(tuple(Wanted(neck.midi_at(*place), place[0]) for place in held), neck, reach, _CHART)
    if not playable or fingers_needed(held) > FINGERS:
        return None
    fretted = [fret for _, fret in held if fret]
    away = min(fretted) - 1 if fretted and max(fretted) > HAND_FRETS else 0
    return min(hold.cost for hold in playable) + FINGER * fingers_needed(held) + FARTHER * away
