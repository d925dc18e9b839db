"""Instruments and tunings as topics, from their tables."""

from __future__ import annotations

from typing import Final

from tabforge.cli.topics import Entry, Topic, columns
from tabforge.fretboard.frettings import FRETTINGS
from tabforge.fretboard.instruments import INSTRUMENTS, find_instrument, find_tuning, tunings_of
from tabforge.fretboard.tunings import TUNINGS as SETS
from tabforge.fretboard.tunings import tuning_named
from tabforge.model.tuning import Instrument


def _instruments() -> list[Entry]:
    return [
        Entry(each.name, f"{len(each.tuning)} strings, {each.tuning}" + (f" ({each.note})" if each.note else ""))
        for each in INSTRUMENTS.values()
    ]


def _instrument(words: str) -> str | None:
    found = find_instrument(words)
    if found is None:
        return None
    return (
        f"{found.name}  (an instrument)\n\n"
        f"  Strings       {found.tuning}, as a tuning is written: the first is string {len(found.tuning)}\n"
        f"  Frets         {_frets(found)}\n"
        f"  Scale length  {found.scale_length:g} mm\n"
        f"  Tunings       {', '.join(tunings_of(found))}" + (f"\n  Note          {found.note}" if found.note else "")
    )


def _frets(instrument: Instrument) -> str:
    """How many frets there are, and what is unusual about them."""
    said = [str(instrument.frets)]
    if instrument.fretting:
        said.append(f"half steps above the open string: {' '.join(map(str, instrument.fretting))}")
    tuning = instrument.tuning
    said += [f"string {string} begins at fret {nut}" for string, nut in enumerate(tuning.nuts, 1) if nut]
    return "; ".join(said)


def _frettings() -> list[Entry]:
    return [Entry(name, f"half steps above the open string, {' '.join(map(str, octave))} …") for name, octave in FRETTINGS.items()]


def _fretting(words: str) -> str | None:
    octave = FRETTINGS.get(words)
    if octave is None:
        return None
    frets = " ".join(map(str, octave))
    return f"{words}  (a fretting)\n\n  The frets of an octave give {frets} half steps above the open string; the next octaves are like it."


def _tunings() -> list[Entry]:
    return [Entry(row.name, f"{strings}, {row.pitches}") for strings, rows in SETS.items() for row in rows]


def _tuning(words: str) -> str | None:
    """A tuning of every set of strings that has one of this name, or of the instrument named before it (``bass drop D``)."""
    found = [(strings, tuning) for strings in SETS if (tuning := tuning_named(strings, words))]
    parts = words.split()
    for cut in range(1, len(parts)):
        instrument = find_instrument(" ".join(parts[:cut]))
        own = find_tuning(instrument, " ".join(parts[cut:])) if instrument else None
        if instrument and own:
            found.append((instrument.name, own))
    if not found:
        return None
    rows = [Entry(strings, str(tuning)) for strings, tuning in found]
    names = ", ".join(dict.fromkeys(str(tuning.name) for _, tuning in found))
    listed = "\n".join(f"  {line}" for line in columns(rows).split("\n"))
    return f"{names}  (a tuning)\n\n{listed}"


TOPICS: Final = (
    Topic(name="tunings", about="named tunings of every instrument", entries=_tunings, explain=_tuning),
    Topic(name="instruments", about="instruments a study can be for", entries=_instruments, explain=_instrument),
    Topic(name="frettings", about="which half steps the frets of a neck give", entries=_frettings, explain=_fretting),
)
