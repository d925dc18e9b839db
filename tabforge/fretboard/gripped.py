"""Grips of chords: what each string does, and the fingers that hold it; and what is said where there is none."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.fretboard.neck import Place
from tabforge.fretboard.reach import THUMB

Frets = tuple[int | None, ...]
"""What each string does, from string 1: a fret counted as the neck counts, 0 for an open string, None for one that is not played."""


def shape_text(shape: Frets) -> str:
    """A grip from the string of the highest number to string 1, as it is written: ``x32010``, with dots between where a fret has two
    digits: ``x.10.12.12.12.10``.
    """
    parts = ["x" if fret is None else str(fret) for fret in shape]
    return ("." if any(len(part) > 1 for part in parts) else "").join(parts)


@dataclass(frozen=True, slots=True, kw_only=True)
class Barre:
    """One finger over several strings at a fret, from ``low``, the outer string of the higher number, to ``high``."""

    fret: int
    low: int
    high: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Grip:
    """A chord's grip. ``frets``, ``fingers`` and ``midi`` have a place for each string, from string 1.

    ``fingers`` are 1 to 4, ``reach.THUMB``, or 0 where the string is open or not played, or no hand has a finger for it. ``midi`` is the
    pitch that sounds, None for a string that is not played. ``hand`` is the fret under the first finger, 0 if nothing is stopped;
    ``stretch`` the millimetres from the lowest stopped fret to the highest; ``cost`` what the grip weighs by itself, less being better.
    """

    frets: Frets
    fingers: tuple[int, ...]
    midi: tuple[int | None, ...]
    hand: int
    stretch: float
    cost: int

    @property
    def places(self) -> tuple[Place, ...]:
        """The strings that sound and their frets, the highest number of a string first, as a downstroke meets them."""
        return tuple((string, fret) for string, fret in reversed(list(enumerate(self.frets, 1))) if fret is not None)

    @property
    def shape(self) -> Frets:
        """The same frets as chord symbols have them: from the string of the highest number to string 1."""
        return self.frets[::-1]

    @property
    def pitches(self) -> tuple[int, ...]:
        """What sounds, from the lowest pitch up."""
        return tuple(sorted(midi for midi in self.midi if midi is not None))

    @property
    def barres(self) -> tuple[Barre, ...]:
        """The fingers that lie across several strings, the lowest fret first."""
        held: dict[int, list[int]] = {}
        for string, finger in enumerate(self.fingers, 1):
            if finger and finger != THUMB:
                held.setdefault(finger, []).append(string)
        found = [Barre(fret=self.frets[on[0] - 1] or 0, low=on[-1], high=on[0]) for on in held.values() if len(on) > 1]
        return tuple(sorted(found, key=lambda barre: (barre.fret, -barre.low)))

    @property
    def barre(self) -> Barre | None:
        """The barre at the lowest fret, or None."""
        return next(iter(self.barres), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class NoGrip:
    """A chord that has no grip of the style asked for. ``why`` and ``instead`` are whole sentences for a player; ``nearest`` is the grip
    that ``instead`` tells of, None if there is none at all.
    """

    why: str
    instead: str
    nearest: Grip | None = None
