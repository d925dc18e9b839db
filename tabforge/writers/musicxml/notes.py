"""Notes, chords and rests of one voice of a bar.

Most notes carry nothing but pitch, string and fret: they are joined from ready pieces. The others take the way through ``Ink``.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

from tabforge.model.events import NOTHING_ATTACHED, Event, Word
from tabforge.model.pitch import Pitch
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml.harmony import harmony
from tabforge.writers.musicxml.ink import Ink
from tabforge.writers.musicxml.layers import Layer
from tabforge.writers.musicxml.numbers import Numbers
from tabforge.writers.musicxml.rhythm import Frame
from tabforge.writers.musicxml.techniques import write_marks
from tabforge.writers.musicxml.text import escape

_CLOSE = "</note>\n"


def pitch_element(pitch: Pitch) -> str:
    """The ``pitch`` element of a sounding pitch."""
    alter = f"<alter>{pitch.alter}</alter>" if pitch.alter else ""
    return f"<pitch><step>{pitch.step}</step>{alter}<octave>{pitch.octave}</octave></pitch>"


@cache
def _string_fret(string: int, fret: int) -> str:
    return f"<string>{string}</string><fret>{fret}</fret>"


_STROKES: Final = {None: "", "d": "<down-bow/>", "u": "<up-bow/>"}
"""Pick strokes: the standard has one sign for bow and pick."""


@cache
def _fingers(finger: str | None, pluck: str | None) -> str:
    first = f"<fingering>{escape(finger)}</fingering>" if finger else ""
    return f"{first}<pluck>{escape(pluck)}</pluck>" if pluck else first


class NoteWriter:
    """Writes voices of one layer; what lasts over bar lines (lines, hyphens) is kept here."""

    def __init__(self, layer: Layer, numbers: Numbers, losses: list[Loss]) -> None:
        self._layer = layer
        self._numbers = numbers
        self._losses = losses
        self._within_word: dict[int, bool] = {}
        self._pitches: dict[tuple[str, int, int], str] = {}
        self._places: dict[tuple[int, int], str] = {}

    def write(self, out: list[str], events: Sequence[Event], frames: Sequence[Frame], signs: Sequence[str], voice: int) -> None:
        """Append one voice of a bar to ``out``. ``signs``: the accidental element of every note, in order (empty list: none)."""
        pitches = self._pitches
        places = self._places
        tab = self._layer.tab
        at = -1
        for event, frame in zip(events, frames):  # noqa: B905  # as many by construction, and this is the inner loop
            notes = event.notes
            if len(notes) == 1 and not event.marks and event.attached is NOTHING_ATTACHED:
                note = notes[0]
                at += 1
                pitch = note.pitch
                key = (pitch.step, pitch.alter, pitch.octave)
                element = pitches.get(key)
                if element is None:
                    element = pitches[key] = pitch_element(pitch)
                if not (note.marks or note.tied_in or note.tied_out or note.finger or note.pluck):
                    if not tab:
                        out.append(f"{frame.opening}{element}{frame.before}{signs[at]}{frame.after}{_CLOSE}")
                        continue
                    place = (note.string, note.fret)
                    technical = places.get(place)
                    if technical is None:
                        technical = places[place] = f"<technical>{_string_fret(*place)}</technical></notations>{_CLOSE}"
                    out.append(f"{frame.opening}{element}{frame.before}{frame.after}<notations>{frame.tuplets}{technical}")
                    continue
                at -= 1
            elif not notes and not event.marks and event.attached is NOTHING_ATTACHED:
                out.append(f"{frame.rest}{_wrapped(frame.tuplets)}{_CLOSE}")
                continue
            self._full(out, event, frame, signs[at + 1 :] if not tab else (), voice)
            at += len(notes)

    def _full(self, out: list[str], event: Event, frame: Frame, signs: Sequence[str], voice: int) -> None:
        """An event with marks, ties, fingers, words or several notes."""
        layer, attached = self._layer, event.attached
        plays, tab = layer.plays, layer.tab
        ink = Ink(layer, voice, event, self._numbers, self._losses)
        lyric = stroke = ""
        if plays and attached is not NOTHING_ATTACHED:
            if attached.chord is not None:
                ink.before += harmony(attached.chord, layer.staff_element)
            if attached.word is not None:
                lyric = self._lyric(attached.word, voice)
            stroke = _STROKES[attached.stroke]
        body = []
        if not event.notes:
            write_marks(ink, event.marks)
            body.append(f"{frame.rest}{ink.notations(frame.tuplets)}{lyric}{_CLOSE}")
        opening, foot, tuplets = frame.opening, frame.foot, frame.tuplets
        for index, note in enumerate(event.notes):
            ink.turn(note, not index)
            ties = ""
            if note.tied_in:
                ties, ink.tied = '<tie type="stop"/>', '<tied type="stop"/>'
            if note.tied_out:
                ties += '<tie type="start"/>'
                ink.tied += '<tied type="start"/>'
            ink.technical = stroke
            if tab:
                ink.technical += _string_fret(note.string, note.fret)
            if plays and (note.finger or note.pluck):
                ink.technical += _fingers(note.finger, note.pluck)
            if note.marks or event.marks:
                write_marks(ink, note.marks + event.marks)
            body.append(
                f"{opening}{self._pitch(note.pitch)}{frame.timing}{ties}{frame.kind}{signs[index] if signs else ''}{frame.shape}"
                f"{ink.head()}{foot}{ink.notations(tuplets)}{lyric}{ink.play}{_CLOSE}"
            )
            if not index:
                opening, foot, tuplets, lyric, stroke = f"{opening}<chord/>", frame.chord_foot, "", "", ""
        out.append(ink.before)
        out += body
        out.append(ink.after)
        self._numbers.settle()

    def _pitch(self, pitch: Pitch) -> str:
        key = (pitch.step, pitch.alter, pitch.octave)
        known = self._pitches.get(key)
        if known is None:
            known = self._pitches[key] = pitch_element(pitch)
        return known

    def _lyric(self, word: Word, voice: int) -> str:
        within = self._within_word.get(voice, False)
        self._within_word[voice] = word.hyphen
        syllabic = ("middle" if within else "begin") if word.hyphen else ("end" if within else "single")
        number = voice - self._layer.first_voice + 1
        return f'<lyric number="{number}"><syllabic>{syllabic}</syllabic><text>{escape(word.text)}</text></lyric>'


def _wrapped(tuplets: str) -> str:
    return f"<notations>{tuplets}</notations>" if tuplets else ""
