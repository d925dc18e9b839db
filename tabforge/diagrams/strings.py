"""Strings as a diagram shows them: their names, and where each begins."""

from __future__ import annotations

from typing import Final

from tabforge.diagrams.model import String
from tabforge.fretboard.neck import Neck
from tabforge.model.tuning import Tuning

TWO_OCTAVES: Final = 24


def string_names(tuning: Tuning) -> tuple[str, ...]:
    """Names of the strings, string 1 first, all of the same width.

    A small letter tells a high string from a low one of the same name: the trade writes a guitar's outer strings e and E, a banjo
    gDGBD, a ukulele gCEA (common practice, no source). So it is small if it sounds two octaves or more above the lowest string, or, on a
    re-entrant tuning, higher than the string before it in the order of their numbers.
    """
    lowest = min(pitch.midi for pitch in tuning.strings)
    names = []
    previous = None
    for pitch in tuning.strings:
        name = str(pitch.pitch_class)
        high = pitch.midi - lowest >= TWO_OCTAVES or (previous is not None and pitch.midi > previous)
        names.append(name.lower() if high else name)
        previous = pitch.midi
    width = max(len(name) for name in names)
    return tuple(name.ljust(width) for name in names)


def strings_of(neck: Neck) -> tuple[String, ...]:
    """The strings of a neck, string 1 first."""
    names = string_names(neck.tuning)
    return tuple(String(name=name.strip(), begins=_begins(string, neck)) for string, name in enumerate(names, 1))


def _begins(string: int, neck: Neck) -> int:
    return next((fret for fret in range(neck.last) if neck.has(string, fret + 1)), 0)
