"""What the strings are called at the left of a system."""

from __future__ import annotations

from tabforge.model.tuning import Tuning

TWO_OCTAVES = 24


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
