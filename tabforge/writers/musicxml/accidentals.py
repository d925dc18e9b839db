"""Which accidental a note shows: the rule of the bar, and reminders.

Common practice, no source: an accidental holds for its line or space to the end of the bar; a note tied over a bar line does not show its
accidental again, and it does not hold for the notes after it. Reminders (``cautionary``): in the bar after, and in the same bar in another
octave, where a player could still have the other pitch in mind.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from heapq import merge
from typing import Final

from tabforge.model.events import Event, Note
from tabforge.model.pitch import STEPS, Pitch

SIGNS: Final[dict[float, str]] = {
    -3: "triple-flat",
    -2.5: "flat-flat-down",
    -2: "flat-flat",
    -1.5: "three-quarters-flat",
    -1: "flat",
    -0.5: "quarter-flat",
    0: "natural",
    0.5: "quarter-sharp",
    1: "sharp",
    1.5: "three-quarters-sharp",
    2: "double-sharp",
    2.5: "double-sharp-up",
    3: "triple-sharp",
}
"""MusicXML 4.0 ``accidental-value`` of an alteration in semitones; those of two and a half have an arrow for their quarter tone."""

QUARTER: Final = 40
"""Cents beside a name from which a note shows a quarter tone: it is then ten cents at most from one. Below, it shows its name's sign."""


def shown_alter(pitch: Pitch) -> float:
    """The alteration that a pitch's sign shows, in semitones."""
    alter, cents = pitch.alter, pitch.cents
    beside = alter + (0.5 if cents >= QUARTER else -0.5 if cents <= -QUARTER else 0)
    return beside if beside in SIGNS else alter

_SHARPS: Final = "FCGDAEB"


@cache
def signature(fifths: int) -> dict[str, int]:
    """The alteration of every letter under a key signature (-7 to 7 fifths)."""
    altered = _SHARPS[:fifths] if fifths > 0 else _SHARPS[fifths:] if fifths < 0 else ""
    return {step: (1 if fifths > 0 else -1) if step in altered else 0 for step in STEPS}


_SHOWN: Final = {alter: f"<accidental>{sign}</accidental>" for alter, sign in SIGNS.items()}
_AGAIN: Final = {alter: f'<accidental cautionary="yes" parentheses="yes">{sign}</accidental>' for alter, sign in SIGNS.items()}
_REMINDER: Final = {alter: f'<accidental cautionary="yes">{sign}</accidental>' for alter, sign in SIGNS.items()}


class Accidentals:
    """The state of one staff. Call ``bar`` for its bars in order."""

    def __init__(self, fifths: int) -> None:
        self._key = signature(fifths)
        self._in_force: dict[int, float] = {}
        self._settled: dict[int, float] = {}
        self._before: dict[int, float] = {}
        self._signed: set[int] = set()
        """Places whose last note, one between the half steps, showed its sign."""

    def change(self, fifths: int) -> None:
        """Another key signature from the next bar on."""
        self._key = signature(fifths)

    def bar(self, voices: Sequence[Sequence[Event]]) -> list[list[str]]:
        """For each voice the ``accidental`` element, or nothing, of every note, in the order of its events and their notes."""
        self._before, self._in_force = self._in_force, {}
        settled = self._settled = {}
        found: list[list[str]] = [[] for _ in voices]
        key = self._key
        quiet = not self._before
        for index, event in _in_time(voices):
            put = found[index].append
            for note in event.notes:
                pitch = note.pitch
                step = pitch.step
                alter = pitch.alter
                place = pitch.octave * 7 + _PLACES[step]
                if pitch.cents:
                    put(self._between(note, place))
                    quiet = False
                elif settled.get(place) == alter:
                    put("")
                elif quiet and alter == key[step]:
                    # Nothing in this bar or the one before speaks against the signature.
                    settled[place] = alter
                    put("")
                elif note.tied_in:
                    put(self._tied(place, alter))
                    quiet = False
                elif note.marks and any(mark.technique.name == "dead note" for mark in note.marks):
                    put("")
                else:
                    put(self._show(place, step, alter))
                    quiet = False
        return found

    def _between(self, note: Note, place: int) -> str:
        """A note between the half steps shows its sign by the same rule, and where it shows none its cents need one that is not seen.

        A tied note has the sign of the one it continues, in parentheses: a reader that looks at signs (verovio 5) loses the tie otherwise.
        """
        alter, quiet = shown_alter(note.pitch), unseen(note.pitch)
        if note.tied_in:
            self._tied(place, alter)
            return _AGAIN[alter] if quiet and place in self._signed else quiet
        dead = any(mark.technique.name == "dead note" for mark in note.marks)
        shown = "" if dead or self._settled.get(place) == alter else self._show(place, note.pitch.step, alter)
        (self._signed.add if shown else self._signed.discard)(place)
        return shown or quiet

    def _tied(self, place: int, alter: float) -> str:
        """A tied note shows nothing; it is remembered, for the next note in its place may need a reminder."""
        if place not in self._in_force:
            self._before[place] = alter
        return ""

    def _show(self, place: int, step: str, alter: float) -> str:
        octaves = [other for other in self._in_force if other != place and (other - place) % 7 == 0]
        shown = ""
        if self._in_force.get(place, self._key[step]) != alter:
            self._in_force[place] = alter
            shown = _SHOWN[alter]
            for other in list(self._settled):
                if (other - place) % 7 == 0 and self._settled[other] != alter:
                    del self._settled[other]
        elif self._before.get(place, alter) != alter or any(self._in_force[other] != alter for other in octaves):
            shown = _REMINDER[alter]
        self._settled[place] = alter
        return shown


_UNSEEN: Final = "<accidental>other</accidental>"


def unseen(pitch: Pitch) -> str:
    """An ``accidental`` that draws nothing (the standard's ``other``, without a glyph), for a pitch whose cents are no quarter tone.

    A reader that knows quarter tones alone refuses other decimals of ``alter`` beside no accidental (music21 9 does).
    """
    return _UNSEEN if pitch.cents and (abs(pitch.cents) != 50 or abs(pitch.alter) > 1) else ""


_PLACES: Final = {step: index for index, step in enumerate(STEPS)}


def _in_time(voices: Sequence[Sequence[Event]]) -> Iterator[tuple[int, Event]]:
    """The events of all voices by onset, the upper voice first."""
    if len(voices) == 1:
        return ((0, event) for event in voices[0])
    return ((index, event) for _, index, _, event in merge(*(_numbered(index, voice) for index, voice in enumerate(voices))))


def _numbered(index: int, voice: Sequence[Event]) -> Iterator[tuple[int, int, int, Event]]:
    return ((event.onset, index, place, event) for place, event in enumerate(voice))
