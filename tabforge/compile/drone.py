"""A drone: degrees of the scale in force that sound through a block, or are struck again and again, low on the instrument."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import Final

from tabforge.compile.durations import length_of
from tabforge.compile.frame import Frame
from tabforge.compile.places import SHORTEST, BarPlace, grid, rhythm_at
from tabforge.compile.report import Report
from tabforge.compile.rows import VoiceBar
from tabforge.compile.sounding import Problem, Resolver, Sound, Want
from tabforge.diagnostics.catalogue import music
from tabforge.diagnostics.catalogue import neck as neck_codes
from tabforge.fretboard.placement import Wanted, fingered
from tabforge.model.pitch import Pitch
from tabforge.model.score import Scale
from tabforge.syntax.document import DroneSetting
from tabforge.syntax.origins import Pointer

_OCTAVES: Final = range(-10, 11)


def drone_bars(places: Sequence[BarPlace], given: DroneSetting, frame: Frame, report: Report) -> list[VoiceBar]:
    """A bar of columns for each place. The drone begins with the first bar, a pickup too, and anew where its notes change."""
    at = frame.beside.drone_at
    onsets = grid(places, every) if (every := every_of(given.get("every"), at, report)) else [[] for _ in places]
    known: dict[Scale | None, Sound] = {}
    bars = []
    before: Sound = None
    span = report.origins.span(at)
    for place, again in zip(places, onsets, strict=True):
        if place.scale not in known:
            known[place.scale] = _notes(given, replace(frame, scale=place.scale), report)
        sound = known[place.scale]
        struck = sorted({*again, *([Fraction(0)] if sound != before else [])})
        columns: list[tuple[Fraction, Sound]] = [(onset, sound) for onset in struck]
        if not struck or struck[0]:
            columns.insert(0, (Fraction(0), None if sound else ()))
        rhythm = rhythm_at(place, [onset for onset, _ in columns])
        bars.append(VoiceBar(rhythm, [each for _, each in columns], [span] * len(columns), {}, at, at, scale=place.scale))
        before = sound
    return bars


def every_of(text: str | None, at: Pointer, report: Report) -> Fraction | None:
    """How often a second part is struck, in quarter notes; None if nothing says so, or what does is reported."""
    length = length_of(text) if text is not None else None
    if length is not None and length % SHORTEST:
        report.add(
            music.TOO_FINE,
            f"bars cannot be filled with {text}: what is left of them is too short to write",
            (*at, "every"),
            expected="a whole number of thirty-second notes, such as s, e. or q",
        )
        return None
    return length


def _notes(given: DroneSetting, frame: Frame, report: Report) -> Sound:
    """The notes of a drone under a scale, in the lowest octave in which a hand holds them."""
    bare, marked = _read([text.strip("_^") for text in given["degrees"]], frame), _read(given["degrees"], frame)
    if isinstance(bare, Problem) or isinstance(marked, Problem):
        problem = bare if isinstance(bare, Problem) else marked
        assert isinstance(problem, Problem)
        report.add(problem.code, problem.headline, (*frame.beside.drone_at, "degrees"), expected=problem.expected, help=problem.help)
        return ()
    lowest = next((octave for octave in _OCTAVES if _held(bare, octave, frame)), _OCTAVES[0])
    found = next((octave for octave in _OCTAVES if octave >= lowest and _held(marked, octave, frame)), None)
    if found is None:
        *more, last = (str(pitch.pitch_class) for pitch in marked)
        one = not more
        names = last if one else f"{', '.join(more)} and {last}"
        report.add(
            neck_codes.NO_DRONE,
            f"{names} cannot be had on this instrument" if one else f"{names} cannot be held together on this instrument, in any octave",
            (*frame.beside.drone_at, "degrees"),
            expected="a degree that the neck has" if one else "one degree, or two or three that lie well: 1, 1+5 or 1+5+^1",
        )
        return ()
    return tuple([Want(_moved(pitch, found)) for pitch in marked])


def _read(degrees: Sequence[str], frame: Frame) -> list[Pitch] | Problem:
    (sound,) = Resolver(frame).sounds("degrees", ["+".join(degrees)])
    if isinstance(sound, Problem):
        return sound
    return [want.pitch for want in sound or () if want.pitch is not None]


def _held(pitches: Sequence[Pitch], octave: int, frame: Frame) -> bool:
    """Whether one hand holds these notes so many octaves up."""
    notes = dict.fromkeys(pitch.midi + 12 * octave for pitch in pitches)
    if not all(frame.neck.places(midi) for midi in notes):
        return False
    return not fingered([tuple(map(Wanted, notes))], frame.neck, weights=frame.player.weights).troubles


def _moved(pitch: Pitch, octave: int) -> Pitch:
    return replace(pitch, octave=pitch.octave + octave)
