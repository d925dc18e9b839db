"""Chord symbols as data. ``kind`` is MusicXML 4.0's ``kind-value``."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.model.pitch import PitchClass


@dataclass(frozen=True, slots=True, kw_only=True)
class ChordDegree:
    """An alteration of a chord: MusicXML's degree-value, degree-alter and degree-type (add, alter, subtract)."""

    value: int
    alter: int
    type: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChordSymbol:
    """A chord symbol. ``text`` is the symbol as written; ``suffix`` what follows the root in it, without the bass.

    ``root`` is None for no chord (N.C.), whose ``kind`` is ``none``. ``shape`` is the grip that is to be shown with it: a fret for
    each string from the lowest, or None where the string is not played.
    """

    text: str
    root: PitchClass | None
    kind: str
    suffix: str = ""
    bass: PitchClass | None = None
    degrees: tuple[ChordDegree, ...] = ()
    shape: tuple[int | None, ...] | None = None
