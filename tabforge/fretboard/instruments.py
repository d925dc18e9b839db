"""The table of instruments.

Scale lengths (millimetres) and numbers of frets are those usually built; common practice, no source. Programs are those of the General MIDI
level 1 sound set, counted from 1: 25 nylon guitar, 26 steel guitar, 28 clean electric guitar, 34 fingered bass, 106 banjo. It has no
ukulele and no mandolin; the nearest plucked sound stands in.

Clefs: the guitar family is written in the G clef and sounds an octave lower, basses in the F clef likewise; small instruments
sound as written.

Dulcimers have a diatonic fretting (see ``frettings``); their number of frets differs from maker to maker, two octaves and a little more
are usual (common practice, no source).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final, NamedTuple

from tabforge.fretboard.frettings import CHROMATIC, FRETTINGS, fretting_up_to
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.tunings import STANDARD, named_tunings, tuning_named, tuning_of
from tabforge.model.tuning import Instrument, Tuning
from tabforge.theory.names import fold

__all__ = [
    "INSTRUMENTS",
    "find_instrument",
    "find_tuning",
    "fretting_named",
    "instrument_names",
    "neck_of",
    "reach_of",
    "tuning_of",
    "tunings_of",
]


class _Clef(NamedTuple):
    sign: str
    line: int
    octave: int


_G_BELOW: Final = _Clef("G", 2, -1)
_G: Final = _Clef("G", 2, 0)
_F_BELOW: Final = _Clef("F", 4, -1)
_F: Final = _Clef("F", 4, 0)

_NYLON: Final = 25
_STEEL: Final = 26
_CLEAN: Final = 28
_BASS: Final = 34
_BANJO: Final = 106


@dataclass(frozen=True, slots=True)
class _Row:
    """An instrument: name, label, set of strings (see ``tunings``), frets, scale length in mm, clef, program, other names.

    ``note``: what a writer should know, such as how courses are written. Where ``fretting`` is not chromatic, ``frets`` is the number of
    half steps that the neck reaches.
    """

    name: str
    label: str
    strings: str
    frets: int
    scale_length: float
    clef: _Clef
    program: int
    others: tuple[str, ...] = ()
    note: str = ""
    fretting: str = CHROMATIC


def _pairs(count: str) -> str:
    return f"written as {count} strings, each for its pair"


_OCTAVES: Final = "; octaves within a pair are not written out"


_ROWS: Final = (
    _Row("guitar", "Guitar", "guitar", 24, 648, _G_BELOW, _STEEL, ("six-string guitar", "gtr")),
    _Row("acoustic guitar", "Acoustic Guitar", "guitar", 20, 645, _G_BELOW, _STEEL, ("steel-string guitar", "acoustic", "western guitar")),
    _Row("classical guitar", "Classical Guitar", "guitar", 19, 650, _G_BELOW, _NYLON, ("nylon-string guitar", "nylon guitar")),
    _Row("electric guitar", "Electric Guitar", "guitar", 24, 648, _G_BELOW, _CLEAN, ("electric", "e-guitar")),
    _Row("twelve-string guitar", "Twelve-String Guitar", "guitar", 20, 645, _G_BELOW, _STEEL, ("twelve-string",), _pairs("six") + _OCTAVES),
    _Row("seven-string guitar", "Seven-String Guitar", "seven-string guitar", 24, 648, _G_BELOW, _CLEAN, ("seven-string",)),
    _Row("eight-string guitar", "Eight-String Guitar", "eight-string guitar", 24, 686, _G_BELOW, _CLEAN, ("eight-string",)),
    _Row("baritone guitar", "Baritone Guitar", "baritone guitar", 24, 686, _G_BELOW, _CLEAN, ("baritone",)),
    _Row("tenor guitar", "Tenor Guitar", "tenor guitar", 19, 584, _G_BELOW, _STEEL, ("four-string guitar",)),
    _Row("bass", "Bass", "bass", 24, 864, _F_BELOW, _BASS, ("bass guitar", "electric bass", "four-string bass")),
    _Row("five-string bass", "Five-String Bass", "five-string bass", 24, 864, _F_BELOW, _BASS, ("five-string bass guitar",)),
    _Row("six-string bass", "Six-String Bass", "six-string bass", 24, 864, _F_BELOW, _BASS, ("six-string bass guitar",)),
    _Row("ukulele", "Ukulele", "ukulele", 18, 381, _G, _NYLON, ("uke", "concert ukulele", "concert uke")),
    _Row("soprano ukulele", "Soprano Ukulele", "ukulele", 12, 346, _G, _NYLON, ("soprano uke", "standard ukulele")),
    _Row("tenor ukulele", "Tenor Ukulele", "ukulele", 19, 432, _G, _NYLON, ("tenor uke",)),
    _Row("baritone ukulele", "Baritone Ukulele", "baritone ukulele", 19, 511, _G_BELOW, _NYLON, ("baritone uke",)),
    _Row("mandolin", "Mandolin", "mandolin", 20, 352, _G, _STEEL, (), _pairs("four")),
    _Row("mandola", "Mandola", "mandola", 20, 419, _G_BELOW, _STEEL, ("tenor mandola",), _pairs("four")),
    _Row("octave mandolin", "Octave Mandolin", "octave mandolin", 20, 533, _G_BELOW, _STEEL, ("octave mandola", "irish bouzouki"),
         _pairs("four")),
    _Row("mandocello", "Mandocello", "mandocello", 20, 635, _F, _STEEL, ("mandoncello",), _pairs("four")),
    _Row("five-string banjo", "Five-String Banjo", "five-string banjo", 22, 667, _G_BELOW, _BANJO, ("banjo",)),
    _Row("tenor banjo", "Tenor Banjo", "tenor banjo", 19, 584, _G_BELOW, _BANJO, ("four-string banjo",)),
    _Row("plectrum banjo", "Plectrum Banjo", "plectrum banjo", 22, 667, _G_BELOW, _BANJO),
    _Row("charango", "Charango", "charango", 18, 370, _G, _NYLON, (), _pairs("five") + _OCTAVES),
    _Row("cavaquinho", "Cavaquinho", "cavaquinho", 17, 335, _G, _STEEL),
    _Row("mountain dulcimer", "Mountain Dulcimer", "mountain dulcimer", 29, 686, _G_BELOW, _STEEL,
         ("dulcimer", "appalachian dulcimer", "lap dulcimer"), "written as three strings; a paired melody string is string 1", "diatonic"),
    _Row("stick dulcimer", "Stick Dulcimer", "stick dulcimer", 24, 560, _G_BELOW, _STEEL, ("dulcimer guitar",), "", "diatonic"),
)


def _instrument(row: _Row) -> Instrument:
    fretting = fretting_up_to(row.fretting, row.frets)
    return Instrument(
        name=row.name,
        label=row.label,
        tuning=named_tunings(row.strings)[STANDARD],
        frets=len(fretting) or row.frets,
        scale_length=row.scale_length,
        clef=row.clef.sign,
        clef_line=row.clef.line,
        clef_octave=row.clef.octave,
        program=row.program,
        fretting=fretting,
        note=row.note,
    )


INSTRUMENTS: Final[dict[str, Instrument]] = {row.name: _instrument(row) for row in _ROWS}
"""Name → instrument; ``guitar`` is the one a study is for if it names none."""

_STRINGS: Final[dict[str, str]] = {row.name: row.strings for row in _ROWS}


@cache
def _by_folded_name() -> dict[str, str]:
    return {fold(name): row.name for row in _ROWS for name in (row.name, *row.others)}


def find_instrument(name: str) -> Instrument | None:
    """The instrument of this name or another name of it; case, hyphens and runs of spaces do not matter. None if there is none."""
    own = _by_folded_name().get(fold(name))
    return INSTRUMENTS[own] if own else None


def instrument_names() -> list[str]:
    """Every name an instrument may be asked for by."""
    return [name for row in _ROWS for name in (row.name, *row.others)]


def tunings_of(instrument: Instrument) -> dict[str, Tuning]:
    """Name → tuning, the standard one first. A new dictionary each time. KeyError for an instrument that is not in the table."""
    return dict(named_tunings(_STRINGS[instrument.name]))


def find_tuning(instrument: Instrument, name: str) -> Tuning | None:
    """A tuning of an instrument by its name (``drop D``), another name of it or its letters (``DADGAD``); None if there is none."""
    return tuning_named(_STRINGS[instrument.name], name)


def reach_of(instrument: Instrument) -> int:
    """Half steps from an open string to the last fret of an instrument."""
    return int(instrument.fretting[-1]) if instrument.fretting else instrument.frets


def fretting_named(instrument: Instrument, name: str) -> tuple[float, ...] | None:
    """A named fretting on an instrument's neck, or None if there is none of this name."""
    return fretting_up_to(name, reach_of(instrument)) if name in FRETTINGS else None


def neck_of(instrument: Instrument, tuning: Tuning, capo: int, fretting: tuple[float, ...]) -> Neck:
    """An instrument's neck, tuned and fretted like that: an empty fretting has a fret for each half step, as far as the neck reaches."""
    return Neck(tuning=tuning, capo=capo, frets=reach_of(instrument), scale_length=instrument.scale_length, fretting=fretting)
