"""Instruments and tunings as the rest of the pipeline sees them. The tables of named ones are in ``fretboard``."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.model.pitch import Pitch


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuning:
    """Open strings. ``strings[0]`` is string 1 as the trade counts: the one nearest the floor, on a guitar the highest.

    ``name`` is the named tuning, or None for one given by its pitches.
    """

    strings: tuple[Pitch, ...]
    name: str | None = None

    def open(self, string: int) -> Pitch:
        """Pitch of an open string (1-based) without capo."""
        return self.strings[string - 1]

    def __len__(self) -> int:
        return len(self.strings)

    def __str__(self) -> str:
        return " ".join(str(pitch) for pitch in reversed(self.strings))


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """A fretted instrument. ``clef_octave`` is MusicXML's clef-octave-change; ``program`` a General MIDI program, 1 to 128.

    ``scale_length`` is the vibrating string's length in millimetres; ``frets`` the highest fret.
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
