"""Cells of the row that sounds, as wanted notes: spelled pitches with whatever place the writer pinned."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Final, NamedTuple

from tabforge.compile.frame import Frame
from tabforge.diagnostics import Code
from tabforge.diagnostics.catalogue import music
from tabforge.diagnostics.catalogue import neck as neck_codes
from tabforge.fretboard.neck import NEAR
from tabforge.fretboard.words import missing_fret
from tabforge.model.pitch import Pitch, parse_pitch, spell_plainly
from tabforge.theory.degrees import DegreeProblem, resolve_degree, spell_in_scale
from tabforge.theory.intervals import transpose


class Want(NamedTuple):
    """A wanted note. ``pitch`` is None for a dead note whose string is not known yet; ``string`` and ``fret`` are pins."""

    pitch: Pitch | None
    string: int | None = None
    fret: int | None = None
    dead: bool = False


class Problem(NamedTuple):
    """A cell that makes no sense, as what will be said of it."""

    code: Code
    headline: str
    expected: str | None = None
    help: str | None = None


Sound = tuple[Want, ...] | None
"""What a column sounds: wanted notes, ``()`` for a rest, None for a hold."""

REST: Final[Sound] = ()
_POISON: Final = "?"
_NOTES_JOIN: Final = re.compile(r"\+(?![0-9])")
"""A plus before a number belongs to the note before it: so many cents above its name."""


@dataclass(slots=True)
class Resolver:
    """Resolves the cells of one voice of a block in order: a bare fret depends on the string of the note before it."""

    frame: Frame
    string: int | None = None
    memo: dict[str, Sound | Problem] = field(default_factory=dict)
    fretted: dict[tuple[int, str], Want | Problem] = field(default_factory=dict)
    spelled: dict[int, Pitch] = field(default_factory=dict)

    def sounds(self, kind: str, texts: Sequence[str]) -> list[Sound | Problem]:
        """One entry for each cell of a ``degrees``, ``frets`` or ``notes`` bar."""
        if kind == "frets":
            return [self._fret_cell(text) for text in texts]
        memo, found = self.memo, []
        for text in texts:
            sound = memo.get(text, 0)
            if sound == 0:
                sound = memo[text] = self._named_cell(text, kind == "degrees")
            found.append(sound)
        return found  # type: ignore[return-value]  # 0 has been replaced

    def _named_cell(self, text: str, degrees: bool) -> Sound | Problem:
        if text == "r" or text == _POISON:
            return REST
        if text == "=":
            return None
        parts = text.split("+") if degrees else _NOTES_JOIN.split(text)
        wants = []
        for part in parts:
            want = self._named_part(part, degrees, len(parts) > 1)
            if isinstance(want, Problem):
                return want
            wants.append(want)
        return tuple(wants)

    def _named_part(self, part: str, degrees: bool, chord: bool) -> Want | Problem:
        name, at, pin = part.partition("@")
        string, fret = None, None
        if at:
            first, _, second = pin.partition(":")
            string, fret = int(first), int(second) if second else None
            if string > len(self.frame.tuning):
                return self._no_string(string)
        if name == "x":
            if string is None:
                if chord:
                    return Problem(music.NO_STRING_YET, "a dead note in a chord needs its string", "x@6, for example")
                return Want(None, None, None, True)
            return Want(self._at(string, 0), string, 0, True)
        pitch = self._degree(name) if degrees else self._note(name)
        if isinstance(pitch, Problem):
            return pitch
        if fret is not None and string is not None:
            moved = self._moved(string, fret)
            if isinstance(moved, Problem):
                return moved
            fret, neck = moved, self.frame.neck
            other = (string, fret) not in neck.places(pitch.midi, pitch.cents) if neck.tempered or pitch.cents else None
            if other or (other is None and neck.midi_at(string, fret) != pitch.midi):
                lies = neck.fret_of(pitch.midi - self._shift, string, pitch.cents)
                return Problem(
                    music.PIN_IS_OTHER,
                    f"string {string}, fret {fret} is {self._at(string, fret)}, not {pitch}",
                    f"{name}@{string}:{lies}" if lies is not None else None,
                    None if lies is not None else f"string {string} does not have {pitch} at all",
                )
        return Want(pitch, string, fret)

    def _degree(self, name: str) -> Pitch | Problem:
        scale = self.frame.scale
        if scale is None:
            return Problem(music.NO_SCALE, "degrees need a scale", "a line such as: scale Bb2 lydian")
        found = resolve_degree(scale, name)
        if not isinstance(found, DegreeProblem):
            return found
        has = " ".join(scale.labels)
        if found.kind == "ambiguous":
            return Problem(music.TWO_SUCH_DEGREES, f"{scale.name} has the degree {name} twice", " or ".join(found.labels))
        return Problem(music.NO_SUCH_DEGREE, f"{scale.name} has no degree {name}", f"one of {has}", "a note outside the scale: b2, #4, n6")

    def _note(self, name: str) -> Pitch | Problem:
        pitch = parse_pitch(name)
        assert pitch is not None, name  # the guard has seen it
        return transpose(pitch, self.frame.move) if self.frame.move else pitch

    def _fret_cell(self, text: str) -> Sound | Problem:
        if text == "r" or text == _POISON:
            return REST
        if text == "=":
            return None
        wants = []
        for part in text.split("+"):
            first, colon, second = part.partition(":")
            if colon:
                self.string = int(first)
                first = second
            string = self.string
            if string is None:
                return Problem(music.NO_STRING_YET, f"fret {first} of which string?", f"6:{first}, for example")
            if string > len(self.frame.tuning):
                return self._no_string(string)
            want = self.fretted.get((string, first))
            if want is None:
                want = self.fretted[string, first] = self._fret(string, first)
            if isinstance(want, Problem):
                return want
            wants.append(want)
        return tuple(wants)

    def _fret(self, string: int, text: str) -> Want | Problem:
        if text == "x":
            return Want(self._at(string, 0), string, 0, True)
        fret = self._moved(string, int(text))
        return fret if isinstance(fret, Problem) else Want(self._at(string, fret), string, fret)

    @property
    def _shift(self) -> int:
        return self.frame.move.semitones if self.frame.move else 0

    def _moved(self, string: int, fret: int) -> int | Problem:
        """A fret as it was written, moved with the key: to the fret of the same string that gives the moved pitch."""
        neck, shift = self.frame.neck, self._shift
        if not neck.has(string, fret):
            headline, expected = missing_fret(neck, string, fret)
            return Problem(neck_codes.SHORT_STRING if 0 < fret <= neck.last else music.BEYOND_NECK, headline, expected)
        if not shift:
            return fret
        sounds, cents = neck.sound_at(string, fret)
        midi = sounds + shift
        moved = neck.fret_of(midi, string, cents)
        if moved is not None:
            return moved
        if not neck.fretting and not neck.tuning.nut(string):
            return Problem(music.CANNOT_MOVE, f"in this key the note would lie at fret {fret + shift}", f"a fret from 0 to {neck.last}")
        low, high = (self._at(string, at) for at in (0, neck.last))
        return Problem(
            music.CANNOT_MOVE,
            f"in this key the note would be {spelled_in(midi, self.frame, cents)}, which string {string} does not have",
            f"a note that string {string} has a fret for, from {low} to {high}",
        )

    def _no_string(self, string: int) -> Problem:
        count = len(self.frame.tuning)
        return Problem(music.NO_SUCH_STRING, f"there is no string {string}: this tuning has {count} strings", f"a string from 1 to {count}")

    def _at(self, string: int, fret: int) -> Pitch:
        neck = self.frame.neck
        if neck.tempered:
            midi, cents = neck.sound_at(string, fret)
            return spelled_in(midi, self.frame, cents)
        return self._spell(neck.midi_at(string, fret))

    def _spell(self, midi: int) -> Pitch:
        """A pitch spelled as the scale in force spells it; outside the scale with the accidentals of its key."""
        known = self.spelled.get(midi)
        if known is None:
            known = self.spelled[midi] = spelled_in(midi, self.frame)
        return known


def spelled_in(midi: int, frame: Frame, cents: int = 0) -> Pitch:
    """The spelling of a sounding pitch under the scale in force. Between two notes it is that with the least alteration: half sharps and
    half flats before what is three quarters of a step away.
    """
    own = spell_in_scale(frame.scale, midi) if frame.scale is not None else spell_plainly(midi)
    if not cents:
        return own
    if abs(cents) > NEAR:
        own = min((own, spell_plainly(midi), spell_plainly(midi, flats=True)), key=lambda pitch: abs(100 * pitch.alter + cents))
    return replace(own, cents=cents)
