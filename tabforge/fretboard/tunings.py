"""The table of named tunings, by the set of strings they are for.

Pitches stand from the last string to the first, as a tuning is written: from the lowest to the highest, but for re-entrant ones. They
are the usual ones of each name (common practice, no source; written from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Final

from tabforge.model.pitch import Pitch, parse_pitch
from tabforge.model.tuning import Tuning
from tabforge.theory.names import fold, without_last_word


@dataclass(frozen=True, slots=True)
class TuningRow:
    """A named tuning: its name, its pitches as text, other names. It is also found by its letters (``DADGAD``)."""

    name: str
    pitches: str
    others: tuple[str, ...] = ()

    @property
    def letters(self) -> str:
        """The notes without octaves, run together."""
        return "".join(pitch.rstrip("-0123456789") for pitch in self.pitches.split())


def _t(name: str, pitches: str, *others: str) -> TuningRow:
    return TuningRow(name, pitches, others)


STANDARD: Final = "standard"
_HALF_DOWN: Final = ("half step down", "half step lower", "tuned down a half step")
_WHOLE_DOWN: Final = ("whole step down", "whole step lower", "full step down", "tuned down a whole step")

TUNINGS: Final[dict[str, tuple[TuningRow, ...]]] = {
    "guitar": (
        _t(STANDARD, "E2 A2 D3 G3 B3 E4", "E", "E standard"),
        _t("drop D", "D2 A2 D3 G3 B3 E4", "dropped D"),
        _t("double drop D", "D2 A2 D3 G3 B3 D4"),
        _t("DADGAD", "D2 A2 D3 G3 A3 D4", "D modal", "Dsus4", "open Dsus4"),
        _t("open D", "D2 A2 D3 F#3 A3 D4"),
        _t("open D minor", "D2 A2 D3 F3 A3 D4", "open Dm", "cross note D"),
        _t("open E", "E2 B2 E3 G#3 B3 E4"),
        _t("open E minor", "E2 B2 E3 G3 B3 E4", "open Em", "cross note E"),
        _t("open G", "D2 G2 D3 G3 B3 D4"),
        _t("open G minor", "D2 G2 D3 G3 Bb3 D4", "open Gm"),
        _t("open A", "E2 A2 E3 A3 C#4 E4"),
        _t("open C", "C2 G2 C3 G3 C4 E4"),
        _t("open C6", "C2 A2 C3 G3 C4 E4"),
        _t(_HALF_DOWN[0], "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", *_HALF_DOWN[1:], "Eb", "Eb standard", "D# standard"),
        _t(_WHOLE_DOWN[0], "D2 G2 C3 F3 A3 D4", *_WHOLE_DOWN[1:], "D standard"),
        _t("C# standard", "C#2 F#2 B2 E3 G#3 C#4", "Db standard"),
        _t("C standard", "C2 F2 Bb2 Eb3 G3 C4"),
        _t("B standard", "B1 E2 A2 D3 F#3 B3", "baritone"),
        _t("drop C#", "C#2 G#2 C#3 F#3 A#3 D#4", "drop Db", "dropped C#"),
        _t("drop C", "C2 G2 C3 F3 A3 D4", "dropped C"),
        _t("drop B", "B1 F#2 B2 E3 G#3 C#4", "dropped B"),
        _t("drop Bb", "Bb1 F2 Bb2 Eb3 G3 C4", "drop A#"),
        _t("drop A", "A1 E2 A2 D3 F#3 B3", "dropped A"),
        _t("all fourths", "E2 A2 D3 G3 C4 F4", "fourths", "perfect fourths"),
        _t("all fifths", "C2 G2 D3 A3 E4 B4", "fifths", "perfect fifths"),
        _t("lute", "E2 A2 D3 F#3 B3 E4"),
        # Re-entrant: the four lower strings sound an octave higher.
        _t("high-strung", "E3 A3 D4 G4 B3 E4", "nashville", "high string"),
    ),
    "seven-string guitar": (
        _t(STANDARD, "B1 E2 A2 D3 G3 B3 E4", "B standard"),
        _t("drop A", "A1 E2 A2 D3 G3 B3 E4", "low A"),
        _t(_HALF_DOWN[0], "Bb1 Eb2 Ab2 Db3 Gb3 Bb3 Eb4", *_HALF_DOWN[1:], "Bb standard"),
        _t("drop G#", "G#1 D#2 G#2 C#3 F#3 A#3 D#4", "drop Ab"),
        _t(_WHOLE_DOWN[0], "A1 D2 G2 C3 F3 A3 D4", *_WHOLE_DOWN[1:], "A standard"),
        _t("drop G", "G1 D2 G2 C3 F3 A3 D4"),
        _t("low C", "C2 E2 A2 D3 G3 B3 E4"),
        _t("high A", "E2 A2 D3 G3 B3 E4 A4"),
        _t("all fourths", "B1 E2 A2 D3 G3 C4 F4", "fourths", "perfect fourths"),
        _t("open G", "D2 G2 B2 D3 G3 B3 D4", "russian"),
    ),
    "eight-string guitar": (
        _t(STANDARD, "F#1 B1 E2 A2 D3 G3 B3 E4", "F# standard"),
        _t("drop E", "E1 B1 E2 A2 D3 G3 B3 E4"),
        _t(_HALF_DOWN[0], "F1 Bb1 Eb2 Ab2 Db3 Gb3 Bb3 Eb4", *_HALF_DOWN[1:], "F standard"),
        _t(_WHOLE_DOWN[0], "E1 A1 D2 G2 C3 F3 A3 D4", *_WHOLE_DOWN[1:], "E standard"),
        _t("all fourths", "F#1 B1 E2 A2 D3 G3 C4 F4", "fourths", "perfect fourths"),
    ),
    "baritone guitar": (
        _t(STANDARD, "B1 E2 A2 D3 F#3 B3", "B standard"),
        _t("C standard", "C2 F2 Bb2 Eb3 G3 C4"),
        _t("A standard", "A1 D2 G2 C3 E3 A3"),
        _t("drop A", "A1 E2 A2 D3 F#3 B3"),
        _t("drop B", "B1 F#2 B2 E3 G#3 C#4"),
    ),
    "tenor guitar": (
        _t(STANDARD, "C3 G3 D4 A4", "fifths"),
        _t("chicago", "D3 G3 B3 E4", "guitar"),
        _t("irish", "G2 D3 A3 E4", "octave mandolin"),
    ),
    "bass": (
        _t(STANDARD, "E1 A1 D2 G2", "E standard"),
        _t("drop D", "D1 A1 D2 G2", "dropped D"),
        _t(_HALF_DOWN[0], "Eb1 Ab1 Db2 Gb2", *_HALF_DOWN[1:], "Eb standard"),
        _t("drop C#", "C#1 G#1 C#2 F#2", "drop Db"),
        _t(_WHOLE_DOWN[0], "D1 G1 C2 F2", *_WHOLE_DOWN[1:], "D standard"),
        _t("drop C", "C1 G1 C2 F2", "dropped C"),
        _t("BEAD", "B0 E1 A1 D2", "B standard"),
        _t("drop B", "B0 F#1 B1 E2"),
        _t("tenor", "A1 D2 G2 C3"),
        _t("all fifths", "C1 G1 D2 A2", "fifths", "perfect fifths"),
    ),
    "five-string bass": (
        _t(STANDARD, "B0 E1 A1 D2 G2", "low B"),
        _t("high C", "E1 A1 D2 G2 C3", "tenor"),
        _t("drop A", "A0 E1 A1 D2 G2"),
        _t(_HALF_DOWN[0], "Bb0 Eb1 Ab1 Db2 Gb2", *_HALF_DOWN[1:]),
        _t(_WHOLE_DOWN[0], "A0 D1 G1 C2 F2", *_WHOLE_DOWN[1:]),
    ),
    "six-string bass": (
        _t(STANDARD, "B0 E1 A1 D2 G2 C3"),
        _t("drop A", "A0 E1 A1 D2 G2 C3"),
        _t(_HALF_DOWN[0], "Bb0 Eb1 Ab1 Db2 Gb2 B2", *_HALF_DOWN[1:]),
        _t(_WHOLE_DOWN[0], "A0 D1 G1 C2 F2 Bb2", *_WHOLE_DOWN[1:]),
    ),
    "ukulele": (
        # Re-entrant: string 4 sounds above strings 3 and 2. The order of the strings is kept.
        _t(STANDARD, "G4 C4 E4 A4", "high G", "C6", "re-entrant", "reentrant"),
        _t("low G", "G3 C4 E4 A4", "linear"),
        _t("D", "A4 D4 F#4 B4", "D6"),
        _t("open C", "G4 C4 E4 G4", "slack key"),
        _t(_HALF_DOWN[0], "F#4 B3 D#4 G#4", *_HALF_DOWN[1:]),
    ),
    "baritone ukulele": (
        _t(STANDARD, "D3 G3 B3 E4", "linear"),
        _t("high D", "D4 G3 B3 E4", "re-entrant", "reentrant"),
        _t("C", "G3 C4 E4 A4", "low G"),
    ),
    "mandolin": (
        _t(STANDARD, "G3 D4 A4 E5"),
        _t("GDAD", "G3 D4 A4 D5"),
        _t("AEAE", "A3 E4 A4 E5", "cross A", "cross"),
        _t("ADAE", "A3 D4 A4 E5", "high D"),
    ),
    "mandola": (_t(STANDARD, "C3 G3 D4 A4"),),
    "octave mandolin": (
        _t(STANDARD, "G2 D3 A3 E4"),
        _t("GDAD", "G2 D3 A3 D4", "irish", "bouzouki"),
        _t("ADAD", "A2 D3 A3 D4"),
    ),
    "mandocello": (_t(STANDARD, "C2 G2 D3 A3"),),
    "five-string banjo": (
        # Re-entrant: the short fifth string is the highest.
        _t(STANDARD, "G4 D3 G3 B3 D4", "open G"),
        _t("C", "G4 C3 G3 B3 D4", "drop C"),
        _t("double C", "G4 C3 G3 C4 D4"),
        _t("sawmill", "G4 D3 G3 C4 D4", "mountain minor", "G modal"),
        _t("open D", "F#4 D3 F#3 A3 D4"),
        _t("open A", "A4 E3 A3 C#4 E4"),
    ),
    "tenor banjo": (
        _t(STANDARD, "C3 G3 D4 A4", "fifths"),
        _t("irish", "G2 D3 A3 E4"),
        _t("chicago", "D3 G3 B3 E4", "guitar"),
    ),
    "plectrum banjo": (
        _t(STANDARD, "C3 G3 B3 D4"),
        _t("chicago", "D3 G3 B3 E4", "guitar"),
    ),
    "charango": (_t(STANDARD, "G4 C5 E5 A4 E5"),),  # re-entrant; of the paired third string, the higher one
    "cavaquinho": (_t(STANDARD, "D4 G4 B4 D5"), _t("DGBE", "D4 G4 B4 E5")),
    "mountain dulcimer": (
        # Named for the mode that a diatonic melody string, string 1, gives from the keynote D upward.
        _t(STANDARD, "D3 A3 D4", "mixolydian"),
        _t("DAA", "D3 A3 A3", "ionian"),
        _t("DAC", "D3 A3 C4", "aeolian"),
        _t("DAG", "D3 A3 G3", "dorian"),
        _t("DGD", "D3 G3 D4"),
    ),
    "stick dulcimer": (_t(STANDARD, "G3 D4 G4"), _t("DAD", "D3 A3 D4")),
}
"""Set of strings → its tunings, the standard one first."""

NUTS: Final[dict[str, tuple[int, ...]]] = {"five-string banjo": (0, 0, 0, 0, 5)}
"""Set of strings → the fret at which each string begins, from string 1, where some are short."""


def tuning_of(pitches: Sequence[Pitch], name: str | None = None, nuts: tuple[int, ...] = ()) -> Tuning:
    """A tuning by its open strings, written from the last string to the first (low to high).

    ``nuts`` are those of the instrument, from string 1; they hold if there are as many strings.
    """
    return Tuning(strings=tuple(reversed(pitches)), name=name, nuts=nuts if len(nuts) == len(pitches) else ())


def _tuning(row: TuningRow, nuts: tuple[int, ...]) -> Tuning:
    pitches = [parse_pitch(text) for text in row.pitches.split()]
    return tuning_of([pitch for pitch in pitches if pitch is not None], row.name, nuts)


@cache
def named_tunings(strings: str) -> dict[str, Tuning]:
    """Name → tuning, for a set of strings. KeyError for one that is not in the table."""
    return {row.name: _tuning(row, NUTS.get(strings, ())) for row in TUNINGS[strings]}


@cache
def _by_folded_name(strings: str) -> dict[str, str]:
    rows = TUNINGS[strings]
    found = {fold(row.letters): row.name for row in reversed(rows)}
    found.update({fold(name): row.name for row in rows for name in (row.name, *row.others)})
    return found


def tuning_named(strings: str, name: str) -> Tuning | None:
    """A tuning of a set of strings by its name, another name or its letters; None if there is none."""
    folded = fold(name)
    names = _by_folded_name(strings)
    own = names.get(folded) or names.get(without_last_word(folded, "tuning"))
    return named_tunings(strings)[own] if own else None
