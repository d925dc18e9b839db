"""The neck: which pitch lies where, and how far apart two frets are.

Strings count from 1, the string nearest the floor, as the trade does (and as MusicXML 4.0's ``string`` does). Frets count from the capo, or
from the nut where there is none. On a neck fretted in half steps the pitch of (string, fret) is the open string + the capo's fret +
fret; other frettings say for each fret how many half steps it gives. A neck's own last fret counts from the nut: with a capo at 3, a neck
of 22 frets has 19 left.

A string that begins farther up, such as the fifth of a banjo, is open at fret 0 like the others; its frets are counted along the
neck, as players do, so the first fret it has is the one after its own nut. With a capo such a string is raised by as many frets as the
others, by a spike or a capo of its own (common practice, no source).

Distances follow equal temperament: a string stopped n half steps up is ``2 ** (-n / 12)`` of its open length, so that place lies ``L * (1 -
2 ** (-n / 12))`` from the nut (the twelfth-root-of-two rule: N. H. Fletcher and T. D. Rossing, The Physics of Musical Instruments, 2nd
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
    """A tuned neck. ``frets`` is its last fret counted from the nut; ``scale_length`` the vibrating open string in millimetres.

    ``fretting``: the half steps that each fret gives above the open string, rising; empty for a fret every half step. Where it is given
    it has as many frets as the neck, whatever ``frets`` says.
    """

    tuning: Tuning
    capo: int = 0
    frets: int = 22
    scale_length: float = 648.0
    fretting: tuple[int, ...] = ()
    _places: dict[int, tuple[Place, ...]] = field(init=False, repr=False, compare=False)
    _pitches: tuple[tuple[int, ...], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Works out where each pitch lies."""
        found: dict[int, list[Place]] = {}
        strings = range(1, len(self.tuning) + 1)
        pitches = tuple(tuple(self._midi(string, fret) for fret in range(self.last + 1)) for string in strings)
        for fret in range(self.last + 1):
            for string in strings:
                if self.has(string, fret):
                    found.setdefault(pitches[string - 1][fret], []).append((string, fret))
        object.__setattr__(self, "_places", {midi: tuple(places) for midi, places in found.items()})
        object.__setattr__(self, "_pitches", pitches)

    @property
    def last(self) -> int:
        """The highest usable fret, counted from the capo."""
        return max(0, (len(self.fretting) or self.frets) - self.capo)

    def semitones(self, fret: int) -> int:
        """Half steps from the nut to a fret that is counted from the nut, capo or not. Beyond the last fret every fret is one half step."""
        fretting = self.fretting
        if not fretting or fret <= 0:
            return fret
        return fretting[fret - 1] if fret <= len(fretting) else fretting[-1] + fret - len(fretting)

    def has(self, string: int, fret: int) -> bool:
        """Whether a string can be stopped at a fret, or is open there. The string must exist."""
        return fret == 0 or self.tuning.nut(string) < fret <= self.last

    def _midi(self, string: int, fret: int) -> int:
        nut = self.tuning.nut(string)
        stopped = self.capo + (max(fret, nut) if nut else fret)
        return self.tuning.strings[string - 1].midi + self.semitones(stopped) - self.semitones(nut)

    def midi_at(self, string: int, fret: int) -> int:
        """The MIDI number that sounds at a place. The string must exist; the fret need not: below its own nut a string sounds open."""
        pitches = self._pitches[string - 1]
        return pitches[fret] if 0 <= fret < len(pitches) else self._midi(string, fret)

    def fret_of(self, midi: int, string: int) -> int | None:
        """The fret of a pitch on a string, or None if that string does not have it. The string must exist."""
        return next((fret for each, fret in self._places.get(midi, ()) if each == string), None)

    def fret_from(self, midi: int, string: int) -> int:
        """The fret of a pitch on a string or, where it has no fret for it, the next one up, which may lie past the last."""
        fret = 0 if self.midi_at(string, 0) >= midi else self.tuning.nut(string) + 1
        while fret and self.midi_at(string, fret) < midi:
            fret += 1
        return fret

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
        nearer, farther = self.semitones(self.capo + low), self.semitones(self.capo + high)
        return self.scale_length * abs(exp2(-nearer / 12) - exp2(-farther / 12))
