"""The score: sections of bars of voices of events. This is all a writer gets."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from tabforge.model.events import Event
from tabforge.model.meter import Meter, Swing, Tempo
from tabforge.model.pitch import Pitch, PitchClass
from tabforge.model.tuning import Instrument, Tuning, half_steps
from tabforge.source import NOWHERE, Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Scale:
    """A scale on a root: spelled degrees in ascending order within one octave.

    ``labels`` name each note against the major scale on the root ("1", "2", "3", "#4"); ``numbers`` are the labels' numbers;
    ``tones`` the spelled pitch classes; ``offsets`` semitones above the root. ``fifths`` is the key signature (-7 to 7),
    ``root`` places degree 1.
    """

    name: str
    root: Pitch
    labels: tuple[str, ...]
    numbers: tuple[int, ...]
    tones: tuple[PitchClass, ...]
    offsets: tuple[int, ...]
    fifths: int


@dataclass(frozen=True, slots=True, kw_only=True)
class BarLine:
    """A bar line. ``style`` is "regular", "double" or "final"; ``repeat`` None, "forward" or "backward".

    ``times`` is how often a passage that ends in a backward repeat is played in all. ``endings`` are the numbers of an ending bracket that
    begins (left line) or ends (right line) here; ``hooked`` says whether its end has a downward hook.
    """

    style: str = "regular"
    repeat: str | None = None
    times: int = 2
    endings: tuple[int, ...] = ()
    hooked: bool = True


PLAIN_LINE = BarLine()

SIGNS: Final = {
    "segno": "segno",
    "coda": "coda",
    "tocoda": "To Coda",
    "fine": "Fine",
    "dc": "D.C.",
    "ds": "D.S.",
    "dcfine": "D.C. al Fine",
    "dsfine": "D.S. al Fine",
    "dccoda": "D.C. al Coda",
    "dscoda": "D.S. al Coda",
}
"""Signs of the way through a piece, as written in a signs row, and their words in the score (the segno and the coda are drawn).

The segno and the coda stand at the beginning of their bar, the others at its end.
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar. ``ticks`` is its real length; ``partial`` is set for a pickup and for a bar a repeat cuts short.

    ``voices`` holds one tuple of events for each voice (one or two); each fills the bar exactly. ``meter`` is in force;
    ``tempo`` is given only where it is set or changes, ``scale`` only where it is another than before, and never on a section's first bar.
    ``tempo_change`` is one of TEMPO_CHANGES' keys ("rit" …), ``signs`` are keys
    of SIGNS, ``rehearsal`` is the text of a rehearsal mark of its own, ``new_line`` a hint that a new line of music begins with this bar.
    """

    meter: Meter
    ticks: int
    voices: tuple[tuple[Event, ...], ...]
    left: BarLine = PLAIN_LINE
    right: BarLine = PLAIN_LINE
    tempo: Tempo | None = None
    scale: Scale | None = None
    partial: bool = False
    tempo_change: str | None = None
    signs: tuple[str, ...] = ()
    rehearsal: str | None = None
    new_line: bool = False
    span: Span = NOWHERE


BACKINGS: Final = ("drone", "vamp")
"""Kinds of second parts, in the order in which they stand under the first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Backing:
    """A second part under a section, played by another player on the same instrument and tuning.

    ``kind`` is one of BACKINGS. ``bars`` has for each bar of the section the part's events, which fill it exactly. ``shown``: it is
    printed too, not only played. ``every`` is the duration after which it is struck again, as it is written ("h"); None: a drone is held,
    a chord of a vamp struck once.
    """

    kind: str
    bars: tuple[tuple[Event, ...], ...]
    shown: bool = True
    every: str | None = None
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A titled block of bars, or of teaching text alone (then ``bars`` is empty).

    ``title`` is the block's name, followed by its key when the study is written in several. ``text`` holds teaching notes, a line each.
    ``partial_capo`` is a fret and the strings a capo lies on that not all strings are under: words only, it changes no pitch.
    ``scale`` is the one in force where the section begins. ``fretting`` has for each fret of the neck the half steps above the open string,
    to a hundredth and without capo; it is empty where every fret gives one.
    ``backing`` holds the second parts, at most one of a kind. ``click``: beats are to be clicked where the section is played;
    ``count_in`` is how many bars of clicks come before it, None where that is not said.
    """

    title: str
    tuning: Tuning
    capo: int
    bars: tuple[Bar, ...]
    partial_capo: tuple[int, tuple[int, ...]] | None = None
    fretting: tuple[float, ...] = ()
    scale: Scale | None = None
    swing: Swing | None = None
    text: tuple[str, ...] = ()
    backing: tuple[Backing, ...] = ()
    click: bool = False
    count_in: int | None = None
    span: Span = NOWHERE

    def half_steps(self, string: int, low: int, high: int) -> float:
        """Half steps from one fret of a string up to another, both counted from the capo; before its own nut a string is open."""
        nut = self.tuning.nut(string)
        below, above = (half_steps(self.fretting, self.capo + max(fret, nut)) for fret in (low, high))
        return round(above - below, 2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """A compiled study. ``divisions`` is ticks a quarter note: a multiple of 480 that divides every duration exactly."""

    title: str
    instrument: Instrument
    divisions: int
    sections: tuple[Section, ...]
    subtitle: str | None = None
    author: str | None = None
    text: tuple[str, ...] = ()
    left_handed: bool = False
    """Whether diagrams are drawn for a player who frets with the right hand."""

    def ticks(self, quarters: Fraction) -> int:
        """A length in quarter notes as ticks. Raises ValueError if it is not a whole number of them."""
        ticks = quarters * self.divisions
        if ticks.denominator != 1:
            raise ValueError(f"{quarters} quarter notes are not a whole number of ticks at {self.divisions}")
        return ticks.numerator
