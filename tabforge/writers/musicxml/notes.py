"""Notes, chords and rests of one voice of a bar.

Most notes carry nothing but pitch, string and fret: they are joined from ready pieces. The others take the way through ``Ink``.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

from tabforge.model.events import NOTHING_ATTACHED, Event, Word
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch
from tabforge.model.score import Section
from tabforge.writers.loss import Loss
from tabforge.writers.musicxml.accidentals import unseen
from tabforge.writers.musicxml.harmony import harmony
from tabforge.writers.musicxml.ink import Ink
from tabforge.writers.musicxml.layers import Layer
from tabforge.writers.musicxml.loudness import write_loudness
from tabforge.writers.musicxml.numbers import Numbers
from tabforge.writers.musicxml.rhythm import Frame
from tabforge.writers.musicxml.techniques import TAB_HAS_NOTHING, write_marks
from tabforge.writers.musicxml.text import escape

_CLOSE = "</note>\n"


def pitch_element(pitch: Pitch) -> str:
    """The ``pitch`` element of a sounding pitch; cents are decimals of its ``alter``."""
    steps = f"{pitch.alter + pitch.cents / 100:g}" if pitch.cents else pitch.alter
    alter = f"<alter>{steps}</alter>" if steps else ""
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

    _section: Section

    def __init__(self, layer: Layer, numbers: Numbers, losses: list[Loss]) -> None:
        self._layer = layer
        self._numbers = numbers
        self._losses = losses
        self._within_word: dict[int, bool] = {}
        self._previous: dict[int, Event] = {}
        self._pitches: dict[tuple[str, int, int, int], str] = {}
        self._places: dict[tuple[int, int], str] = {}

    def begin(self, section: Section) -> None:
        """Begin a section, before its first bar: nothing reaches over from the one before."""
        self._previous.clear()
        self._section = section

    def write(
        self,
        out: list[str],
        events: Sequence[Event],
        frames: Sequence[Frame],
        signs: Sequence[str],
        voice: int,
        following: Event | None,
    ) -> None:
        """Append one voice of a bar to ``out``.

        ``signs``: the accidental element of every note, in order (on TAB: none). ``following``: what this voice has after the bar.
        """
        pitches, places = self._pitches, self._places
        tab, silent = self._layer.tab, self._layer.silent
        previous = self._previous.get(voice)
        self._previous[voice] = events[-1]
        at = 0
        for event, frame, ahead in zip(events, frames, (*events[1:], following)):  # noqa: B905  # as many by construction; the inner loop
            notes, marks = event.notes, event.marks
            if marks and silent and all(mark.technique.name in TAB_HAS_NOTHING for mark in marks):
                marks = ()
            if marks or len(notes) > 1 or not (silent or event.attached is NOTHING_ATTACHED):
                self._full(out, self._ink(voice, event, previous, ahead), frame, signs, at)
            elif notes:
                note = notes[0]
                pitch = note.pitch
                key = (pitch.step, pitch.alter, pitch.octave, pitch.cents)
                element = pitches.get(key)
                if element is None:
                    element = pitches[key] = pitch_element(pitch)
                if (
                    note.marks
                    or note.tied_in
                    or note.tied_out
                    or (tab and pitch.cents)
                    or not (silent or (note.finger is None and note.pluck is None))
                ):
                    self._full(out, self._ink(voice, event, previous, ahead), frame, signs, at)
                elif tab:
                    place = (note.string, note.fret)
                    technical = places.get(place)
                    if technical is None:
                        technical = places[place] = f"<technical>{_string_fret(*place)}</technical></notations>{_CLOSE}"
                    out.append(f"{frame.opening}{element}{frame.before}{frame.after}<notations>{frame.tuplets}{technical}")
                else:
                    out.append(f"{frame.opening}{element}{frame.before}{signs[at]}{frame.after}{_CLOSE}")
            else:
                out.append(f"{frame.rest}{_wrapped(frame.tuplets)}{_CLOSE}")
            at += len(notes)
            previous = event

    def _ink(self, voice: int, event: Event, previous: Event | None, following: Event | None) -> Ink:
        return Ink(self._layer, self._section, voice, event, previous, following, self._numbers, self._losses)

    def _full(self, out: list[str], ink: Ink, frame: Frame, signs: Sequence[str], at: int) -> None:
        """An event with marks, ties, fingers, words or several notes. ``at``: the place of its first note in ``signs``."""
        layer, event = self._layer, ink.event
        attached, marks = event.attached, event.marks
        plays, tab = layer.plays, layer.tab
        lyric = stroke = ""
        if plays and attached is not NOTHING_ATTACHED:
            if attached.chord is not None:
                ink.before = self._chord(attached.chord, ink)
            if attached.word is not None:
                lyric = self._lyric(attached.word, ink.voice)
            stroke = _STROKES[attached.stroke]
            if attached.dynamic is not None or attached.hairpins:
                write_loudness(ink, attached)
        body = []
        if not event.notes:
            write_marks(ink, marks)
            body.append(f"{frame.rest}{ink.notations(frame.tuplets)}{lyric}{_CLOSE}")
        opening, foot, tuplets = frame.opening, frame.foot, frame.tuplets
        first = True
        for note in event.notes:
            ink.turn(note, first)
            ties = ""
            if note.tied_in:
                ties, ink.tied = '<tie type="stop"/>', '<tied type="stop"/>'
            if note.tied_out:
                ties += '<tie type="start"/>'
                ink.tied += '<tied type="start"/>'
            technical = stroke
            if tab:
                technical += _string_fret(note.string, note.fret)
            if plays and (note.finger or note.pluck):
                technical += _fingers(note.finger, note.pluck)
            ink.technical = technical
            if note.marks or marks:
                write_marks(ink, note.marks + marks)
                head, play, notations = ink.head(), ink.play, ink.notations(tuplets)
            else:
                head = play = ""
                notations = ink.tied + tuplets + (f"<technical>{technical}</technical>" if technical else "")
                notations = f"<notations>{notations}</notations>" if notations else ""
            body.append(
                f"{opening}{self._pitch(note.pitch)}{frame.timing}{ties}{frame.kind}{unseen(note.pitch) if tab else signs[at]}{frame.shape}"
                f"{head}{foot}{notations}{lyric}{play}{_CLOSE}"
            )
            at += 1
            if first:
                opening, foot, tuplets, lyric, stroke = f"{opening}<chord/>", frame.chord_foot, "", "", ""
                first = False
        if ink.before:
            out.append(ink.before)
        out += body
        if ink.after:
            out.append(ink.after)
        self._numbers.settle()

    def _chord(self, symbol: ChordSymbol, ink: Ink) -> str:
        if symbol.shape is not None and set(symbol.shape) == {None}:
            ink.lose("chord diagram", "left out: none of its strings is played")
        return harmony(symbol, self._layer.staff_element)

    def _pitch(self, pitch: Pitch) -> str:
        key = (pitch.step, pitch.alter, pitch.octave, pitch.cents)
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
