"""The neck: which pitch lies where, and how far apart two frets are.

Strings count from 1, the string nearest the floor, as the trade does (and as MusicXML 4.0's ``string`` does). Frets count from the capo, or
from the nut where there is none. On a neck fretted in half steps the pitch of (string, fret) is the open string + the capo's fret +
fret; other frettings say for each fret how many half steps it gives. A neck's own last fret counts from the nut: with a capo at 3, a neck
of 22 frets has 19 left.

Where half steps of frets are no whole numbers (a temperament of another kind, quarter tones) a place sounds some cents beside the note
that is nearest to it. A note lies on each string at the fret nearest to it that is no more than NEAR cents away: so far apart the notes of
unequal temperaments and those of twelve equal half steps lie at most (a pure minor seventh, 7/4, is 31 cents flat), and a fret halfway
between two notes is neither.

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
from typing import Final

from tabforge.model.pitch import nearest_midi
from tabforge.model.tuning import Tuning, half_steps

NEAR: Final = 30
"""Cents between a note and a fret that still counts as that note's."""

Place = tuple[int, int]
"""A string and a fret."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Neck:
    """A tuned neck. ``frets`` is its last fret counted from the nut; ``scale_length`` the vibrating open string in millimetres.

    ``fretting``: the half steps that each fret gives above the open string, to a hundredth, rising; empty for a fret every half step. Where
    it is given it has as many frets as the neck, whatever ``frets`` says.
    """

    tuning: Tuning
    capo: int = 0
    frets: int = 22
    scale_length: float = 648.0
    fretting: tuple[float, ...] = ()
    _places: dict[int, tuple[Place, ...]] = field(init=False, repr=False, compare=False)
    _pitches: tuple[tuple[int, ...], ...] = field(init=False, repr=False, compare=False)
    tempered: bool = field(init=False, repr=False, compare=False)
    """Whether frets lie between the half steps."""

    def __post_init__(self) -> None:
        """Works out where each pitch lies."""
        object.__setattr__(self, "tempered", any(each != int(each) for each in self.fretting))
        found: dict[int, list[Place]] = {}
        strings = range(1, len(self.tuning) + 1)
        pitches = tuple(tuple(nearest_midi(self._cents(string, fret))[0] for fret in range(self.last + 1)) for string in strings)
        for fret in range(self.last + 1):
            for string in strings:
                if self.has(string, fret):
                    found.setdefault(pitches[string - 1][fret], []).append((string, fret))
        places = {midi: tuple(each) for midi, each in found.items()}
        if self.tempered:
            # A fret just above its own half of the way may still be the nearest one to the note below.
            notes = range(min(places) - 1, max(places) + 2)
            places = {midi: near for midi in notes if (near := self._near(100 * midi))}
        object.__setattr__(self, "_places", places)
        object.__setattr__(self, "_pitches", pitches)

    def _near(self, cents: int) -> tuple[Place, ...]:
        """On each string the fret nearest to a sound in cents above MIDI note 0, if it is near enough; the lowest fret first."""
        found = []
        for string in range(1, len(self.tuning) + 1):
            frets = [fret for fret in range(self.last + 1) if self.has(string, fret)]
            away, fret = min((abs(self._cents(string, fret) - cents), fret) for fret in frets)
            if away <= NEAR:
                found.append((string, fret))
        return tuple(sorted(found, key=lambda place: (place[1], place[0])))

    @property
    def last(self) -> int:
        """The highest usable fret, counted from the capo."""
        return max(0, (len(self.fretting) or self.frets) - self.capo)

    def semitones(self, fret: int) -> float:
        """Half steps from the nut to a fret that is counted from the nut, capo or not. Beyond the last fret every fret is one half step."""
        return half_steps(self.fretting, fret)

    def has(self, string: int, fret: int) -> bool:
        """Whether a string can be stopped at a fret, or is open there. The string must exist."""
        return fret == 0 or self.tuning.nut(string) < fret <= self.last

    def _cents(self, string: int, fret: int) -> int:
        nut = self.tuning.nut(string)
        stopped = self.capo + (max(fret, nut) if nut else fret)
        return 100 * self.tuning.strings[string - 1].midi + round(100 * self.semitones(stopped)) - round(100 * self.semitones(nut))

    def midi_at(self, string: int, fret: int) -> int:
        """The MIDI number nearest to what sounds at a place. The string must exist; the fret need not: below its own nut a string sounds
        open.
        """
        pitches = self._pitches[string - 1]
        return pitches[fret] if 0 <= fret < len(pitches) else nearest_midi(self._cents(string, fret))[0]

    def sound_at(self, string: int, fret: int) -> tuple[int, int]:
        """What sounds at a place: the nearest MIDI number and the cents above it (-50 < cents <= 50)."""
        return nearest_midi(self._cents(string, fret))

    def rise(self, string: int, low: int, high: int) -> float:
        """Half steps from one fret of a string up to another."""
        return (self._cents(string, high) - self._cents(string, low)) / 100

    def note_at(self, string: int, fret: int) -> int | None:
        """The MIDI number of the note whose fret a place is; None for a fret between two notes."""
        midi, cents = nearest_midi(self._cents(string, fret))
        return midi if abs(cents) <= NEAR else None

    def fret_of(self, midi: int, string: int, cents: int = 0) -> int | None:
        """The fret of a pitch on a string, or None if that string does not have it. The string must exist."""
        return next((fret for each, fret in self.places(midi, cents) if each == string), None)

    def fret_from(self, midi: int, string: int) -> int:
        """The fret of a pitch on a string or, where it has no fret for it, the next one up, which may lie past the last."""
        least = 100 * midi - NEAR
        fret = 0 if self._cents(string, 0) >= least else self.tuning.nut(string) + 1
        while fret and self._cents(string, fret) < least:
            fret += 1
        return fret

    def places(self, midi: int, cents: int = 0) -> tuple[Place, ...]:
        """All places of a pitch, given as a MIDI number and cents above it, the lowest fret first; empty if the neck does not have it."""
        return self._near(100 * midi + cents) if cents else self._places.get(midi, ())

    @property
    def lowest(self) -> int:
        """MIDI number of the lowest open string."""
        return min(pitches[0] for pitches in self._pitches)

    @property
    def highest(self) -> int:
        """MIDI number of the highest pitch that can be fretted."""
        return max(pitches[-1] for pitches in self._pitches)

    def wires(self, first: int, last: int) -> tuple[float, ...]:
        """Where frets lie, as the part of the whole string from the nut: the one before ``first``, then each up to ``last``."""
        return tuple(1 - exp2(-self.semitones(self.capo + fret) / 12) for fret in range(first - 1, last + 1))

    def distance_mm(self, low: int, high: int) -> float:
        """Millimetres along the string from one fret to another, both counted from the capo."""
        nearer, farther = self.semitones(self.capo + low), self.semitones(self.capo + high)
        return self.scale_length * abs(exp2(-nearer / 12) - exp2(-farther / 12))
