"""The neck: which pitch lies where, and how far apart two frets are.

Strings count from 1, the string nearest the floor, as the trade does (and as MusicXML 4.0's ``string`` does). Frets count from the capo, or
from the nut where there is none, so the pitch of (string, fret) is the open string + the capo's fret + fret. A neck's own last fret
counts from the nut: with a capo at 3, a neck of 22 frets has 19 left.

Distances follow equal temperament: a string stopped at fret n is ``2 ** (-n / 12)`` of its open length, so fret n lies ``L * (1 - 2 **
(-n / 12))`` from the nut (the twelfth-root-of-two rule: N. H. Fletcher and T. D. Rossing, The Physics of Musical Instruments, 2nd
edition, section 9.11, cited from memory). Real necks add a little at the saddle (compensation), which does not move the frets.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from math import exp2

from tabforge.model.tuning import Tuning

Place = tuple[int, int]
"""A string and a fret."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Neck:
    """A tuned neck. ``frets`` is its last fret counted from the nut; ``scale_length`` the vibrating open string in millimetres."""

    tuning: Tuning
    capo: int = 0
    frets: int = 22
    scale_length: float = 648.0
    _places: dict[int, tuple[Place, ...]] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Works out where each pitch lies."""
        found: dict[int, list[Place]] = {}
        for fret in range(self.last + 1):
            for string in range(1, len(self.tuning) + 1):
                found.setdefault(self.midi_at(string, fret), []).append((string, fret))
        object.__setattr__(self, "_places", {midi: tuple(places) for midi, places in found.items()})

    @property
    def last(self) -> int:
        """The highest usable fret, counted from the capo."""
        return max(0, self.frets - self.capo)

    def midi_at(self, string: int, fret: int) -> int:
        """The MIDI number that sounds at a place. The string must exist; the fret need not."""
        return self.tuning.strings[string - 1].midi + self.capo + fret

    def fret_of(self, midi: int, string: int) -> int | None:
        """The fret of a pitch on a string, or None if that string does not have it. The string must exist."""
        fret = midi - self.midi_at(string, 0)
        return fret if 0 <= fret <= self.last else None

    def places(self, midi: int) -> tuple[Place, ...]:
        """All places of a pitch, the lowest fret first; empty if the neck does not have it."""
        return self._places.get(midi, ())

    @property
    def lowest(self) -> int:
        """MIDI number of the lowest open string."""
        return min(self._places)

    @property
    def highest(self) -> int:
        """MIDI number of the highest pitch that can be fretted."""
        return max(self._places)

    def distance_mm(self, low: int, high: int) -> float:
        """Millimetres along the string from one fret to another, both counted from the capo."""
        return self.scale_length * abs(exp2(-(self.capo + low) / 12) - exp2(-(self.capo + high) / 12))
