"""What is heard, as data: sounds on strings, clicks, tempo, meter, words and markers on one line of time.

Time is whole ticks from the beginning of the performance; ``Performance.divisions`` says how many make a quarter note. Repeats and
jumps are played out, swing and grace notes have their real times.
"""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.source import NOWHERE, Span


@dataclass(frozen=True, slots=True)
class BendPoint:
    """A pitch at a moment of a sound: ``tick`` after its start, ``cents`` above its pitch. In between it moves in a straight line."""

    tick: int
    cents: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Sound:
    """One sound of one string.

    ``part`` is "line" (the study's own voices) or a key of ``model.score.BACKINGS``. ``start`` and ``ticks`` say when it is struck and how
    long it sounds. ``midi`` is the nearest MIDI note number and ``cents`` what the pitch is above it (-50 to 50). ``velocity`` is 1 to 127.
    ``string`` counts from 1. ``attack`` says how it begins: "pick", "finger", "slur" (hammered or pulled), "tap", "slide" or "swell".
    ``kind`` is "note", "dead" (muffled, no pitch), "muted" (palm mute) or "harmonic". ``bend`` is the way of the pitch; empty where it
    stands still.
    ``span`` is the cell of the source it came from; every pass through a repeat has the same.
    """

    part: str
    start: int
    ticks: int
    midi: int
    velocity: int
    string: int
    cents: float = 0.0
    attack: str = "pick"
    kind: str = "note"
    bend: tuple[BendPoint, ...] = ()
    span: Span = NOWHERE


@dataclass(frozen=True, slots=True)
class Click:
    """A click of the metronome. ``accent``: the first beat of a bar; ``counting``: it is part of a count-in."""

    tick: int
    accent: bool
    counting: bool


@dataclass(frozen=True, slots=True)
class TempoPoint:
    """From ``tick`` on, quarter notes a minute. A gradual change is a row of points."""

    tick: int
    quarters: float


@dataclass(frozen=True, slots=True)
class MeterPoint:
    """From ``tick`` on, bars of ``beats`` times 1/``unit``. ``fifths`` is the key signature; ``minor``: the scale's third is minor.

    A bar that is not whole has a signature of its own length.
    """

    tick: int
    beats: int
    unit: int
    fifths: int
    minor: bool = False


@dataclass(frozen=True, slots=True)
class TextPoint:
    """A word at a moment. ``kind`` is "lyric", "marker" (a section or rehearsal mark) or "chord"."""

    tick: int
    text: str
    kind: str


@dataclass(frozen=True, slots=True)
class Passage:
    """Where a section is played: ``section`` is its number in the score, from ``start`` to ``end``, its count-in not included."""

    section: int
    start: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Performance:
    """A score as it is played, all rows sorted by time. ``ticks`` is the whole length in bars (sounds may ring on beyond it).

    ``program`` is the General MIDI program, 1 to 128; ``strings`` how many strings the instrument has.
    ``straight``: repeats and jumps would have made it too long, so that it is played straight through.
    """

    title: str
    divisions: int
    ticks: int
    program: int
    strings: int
    sounds: tuple[Sound, ...]
    clicks: tuple[Click, ...]
    tempos: tuple[TempoPoint, ...]
    meters: tuple[MeterPoint, ...]
    texts: tuple[TextPoint, ...]
    passages: tuple[Passage, ...]
    straight: bool = False
