"""What a grip must have to be a chord's: which notes make it what it is, and which may be left out. Common practice, no source."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

from tabforge.model.harmony import ChordSymbol
from tabforge.theory.chords import chord_labels, chord_tones

TRIAD: Final = 3
"""Notes of a chord that can spare none."""


@dataclass(frozen=True, slots=True)
class Needs:
    """A chord as pitch classes 0 to 11. ``named`` is its tones by their degrees, without the bass; ``bass`` the one asked for.

    ``tones`` and ``needed`` are sets of pitch classes, a bit for each: all that may sound, and all that must.
    """

    named: dict[str, int]
    root: int
    bass: int | None
    tones: int
    needed: int


def bits(classes: Iterable[int]) -> int:
    """A set of pitch classes as bits."""
    mask = 0
    for each in classes:
        mask |= 1 << each
    return mask


@lru_cache(maxsize=4096)
def needs_of(symbol: ChordSymbol, strings: int) -> Needs | None:
    """What a chord needs on so many strings; None for no chord.

    Of a chord of four notes or more a perfect fifth may be left out, of an eleventh or thirteenth chord what lies between the
    seventh and its highest note too; on fewer strings the fifth of any chord, and then its root. A bass that is named is always there.
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
    if bass is not None:
        needed.add(bass)
    return Needs(named, root, bass, bits(tones), bits(needed))
