"""Instruments and tunings as the rest of the pipeline sees them. The tables of named ones are in ``fretboard``."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.model.pitch import Pitch


def half_steps(fretting: tuple[float, ...], fret: int) -> float:
    """Half steps from the nut to a fret that is counted from the nut.

    ``fretting`` has them for each fret and is empty where every fret gives one more; beyond its last fret every fret is one half step.
    """
    if not fretting or fret <= 0:
        return fret
    return fretting[fret - 1] if fret <= len(fretting) else fretting[-1] + fret - len(fretting)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuning:
    """Open strings. ``strings[0]`` is string 1 as the trade counts: the one nearest the floor, on a guitar the highest.

    ``name`` is the named tuning, or None for one given by its pitches. ``nuts`` has for each string, from string 1, the fret of the neck at
    which it begins: 0 for an ordinary string, 5 for the short string of a banjo. It is empty where all strings are ordinary.
    """

    strings: tuple[Pitch, ...]
    name: str | None = None
    nuts: tuple[int, ...] = ()

    def open(self, string: int) -> Pitch:
        """Pitch of an open string (1-based) without capo."""
        return self.strings[string - 1]

    def nut(self, string: int) -> int:
        """The fret of the neck at which a string (1-based) begins."""
        return self.nuts[string - 1] if self.nuts else 0

    def __len__(self) -> int:
        return len(self.strings)

    def __str__(self) -> str:
        return " ".join(str(pitch) for pitch in reversed(self.strings))


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """A fretted instrument. ``clef_octave`` is MusicXML's clef-octave-change; ``program`` a General MIDI program, 1 to 128.

    ``scale_length`` is the vibrating string's length in millimetres; ``frets`` the number of frets, and so the highest one.
    ``fretting`` has for each fret the half steps that it gives above the open string, to a hundredth; it is empty where each fret gives one
    more.
    ``note`` is what a writer should know of how the instrument is written.
    """

    name: str
    label: str
    tuning: Tuning
    frets: int
    scale_length: float
    clef: str
    clef_line: int
    clef_octave: int
    program: int
    fretting: tuple[float, ...] = ()
    note: str = ""
