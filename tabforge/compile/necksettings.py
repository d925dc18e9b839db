"""Settings about the neck as they are meant: tuning, fretting, a capo on some strings."""

from __future__ import annotations

from tabforge.compile.report import Report
from tabforge.diagnostics import nearest
from tabforge.diagnostics.catalogue import music
from tabforge.diagnostics.catalogue import neck as neck_codes
from tabforge.fretboard.frettings import in_hundredths, rises
from tabforge.fretboard.instruments import find_tuning, fretting_named, tuning_of, tunings_of
from tabforge.model.pitch import parse_pitch
from tabforge.model.tuning import Instrument, Tuning
from tabforge.syntax.origins import Pointer


def partial_capo(partial: tuple[int, tuple[int, ...]], count: int, at: Pointer, report: Report) -> tuple[int, tuple[int, ...]] | None:
    """A partial capo, if the strings it lies on exist."""
    missing = [string for string in partial[1] if string > count]
    for string in missing:
        report.add(
            music.NO_SUCH_STRING,
            f"the capo cannot lie on string {string}: this tuning has {count} strings",
            at,
            expected=f"strings from 1 to {count}",
        )
    return None if missing else partial


def fretting_in_force(instrument: Instrument, given: str | list[float], at: Pointer, report: Report) -> tuple[float, ...]:
    """The half steps of every fret of a setting; the instrument's own where they cannot be."""
    if isinstance(given, str):
        return fretting_named(instrument, given) or ()
    rough = next((number for number, each in enumerate(given) if not in_hundredths(each)), None)
    if rough is not None:
        report.add(
            neck_codes.BAD_FRETTING,
            f"fret {rough + 1} of this fretting is given more finely than the ear can tell",
            (*at, rough),
            expected=f"two decimals, which are hundredths of a half step: {given[rough]:.2f}",
        )
        return instrument.fretting
    if not rises(tuple(given)):
        report.add(
            neck_codes.BAD_FRETTING,
            "the frets of this fretting do not rise",
            at,
            expected="for each fret more half steps than for the one before: 2 4 5 7 9 10 12",
        )
        return instrument.fretting
    return tuple([round(each, 2) if each != int(each) else int(each) for each in given])


def tuning_in_force(instrument: Instrument, given: str | list[str], at: Pointer, report: Report) -> Tuning | None:
    """The tuning of a setting; None for a name that the instrument does not know."""
    if isinstance(given, list):
        pitches = [parse_pitch(text) for text in given]
        return tuning_of([pitch for pitch in pitches if pitch is not None], nuts=instrument.tuning.nuts)
    tuning = find_tuning(instrument, given)
    if tuning is None:
        names = list(tunings_of(instrument))
        report.add(
            music.UNKNOWN_TUNING,
            f"{instrument.label} has no tuning called “{given}”",
            at,
            suggestion=nearest(given, names),
            expected=f"a tuning of {instrument.label}, or pitches from the lowest string: {instrument.tuning}",
            help="`tabforge list tunings` shows them all",
        )
    return tuning
