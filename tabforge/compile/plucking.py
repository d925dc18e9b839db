"""A stroke on a grip: which of its strings sound, and how it is written."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from tabforge.compile.frame import Frame
from tabforge.compile.placing import FINGERS
from tabforge.compile.report import Report
from tabforge.compile.sounding import Want, spelled_in
from tabforge.diagnostics.catalogue import music
from tabforge.fretboard.gripped import Grip
from tabforge.fretboard.neck import Place
from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import SEMITONES, Pitch
from tabforge.source import Span
from tabforge.syntax.origins import Pointer
from tabforge.theory.chords import chord_tones

NOTHING: Final = "."
"""Nothing in a row beside the one that sounds; in a strum, a chord that rings on."""

FROM_TOP: Final = {"a": 1, "m": 2, "i": 3}
"""A plucking finger → its string of a grip, counted from the highest; the thumb has the lowest (common practice, no source)."""

_WRITTEN: Final = {number: text for text, number in FINGERS.items()}

Sides = tuple[str, str, str]
"""What stands under a stroke in marks, picks and fingers."""

SILENCE: Final[Sides] = (NOTHING, NOTHING, NOTHING)


@dataclass(slots=True)
class Plucking:
    """Strokes of one block as wanted notes.

    ``told`` are the strings that were found missing, and where; ``fingered`` is the grip whose fingers were written last: as long as the
    hand stays, they need not be written again.
    """

    frame: Frame
    report: Report
    told: set[tuple[object, ...]] = field(default_factory=set)
    fingered: Grip | None = None

    def strummed(self, text: str, symbol: ChordSymbol, grip: Grip) -> tuple[tuple[Want, ...], Sides]:
        """All strings of a grip: struck (``d``, ``u``), hinted at (``gd``) or muffled (``xd``); ``*`` is a stroke either way."""
        if text[0] == "x":
            return self.muffled(grip), (NOTHING, text[1], NOTHING)
        way = text[-1] if text[-1] in "du" else NOTHING
        fingers = self._fingers(grip, grip.places)
        if fingers != NOTHING and grip == self.fingered and len(grip.places) > 1:
            fingers = "+".join(NOTHING for _ in grip.places)
        self.fingered = grip
        return self._wants(grip.places, symbol), ("gh" if text[0] == "g" else NOTHING, way, fingers)

    def muffled(self, grip: Grip | None) -> tuple[Want, ...]:
        """A stroke on muffled strings: those of a grip, or all."""
        strings = [string for string, _ in grip.places] if grip is not None else range(len(self.frame.tuning), 0, -1)
        return tuple([Want(self._spelled(string, 0, None), string, 0, True) for string in strings])

    def picked(self, text: str, symbol: ChordSymbol, grip: Grip, at: Pointer, span: Span | None) -> tuple[tuple[Want, ...], Sides]:
        """The strings that plucking fingers take."""
        places, plucks = [], []
        for part in text.split("+"):
            finger, pinned, number = part.partition("@")
            place = self._at(int(number), symbol, grip, at, span) if pinned else _place(finger, grip.places)
            if place is not None and place not in places:
                places.append(place)
                plucks.append(finger)
        if not places:
            return (), SILENCE
        return self._wants(places, symbol), (NOTHING, "+".join(plucks), self._fingers(grip, places))

    def _at(self, string: int, symbol: ChordSymbol, grip: Grip, at: Pointer, span: Span | None) -> Place | None:
        """The place of a grip on a string; reported if it has none there."""
        found = next((place for place in grip.places if place[0] == string), None)
        key = (string, symbol, grip.frets, at)
        if found is None and key not in self.told:
            self.told.add(key)
            strings = ", ".join(str(each) for each, _ in grip.places)
            shape = "".join("x" if fret is None else str(fret) if fret < 10 else f"({fret})" for fret in grip.shape)
            self.report.add(
                music.NOT_IN_GRIP,
                f"string {string} does not sound in this grip of {symbol.text}: {shape}",
                at,
                span=span,
                expected=f"one of the strings {strings}; or p, i, m, a without a string, which find theirs in every grip",
            )
        return found

    def _wants(self, places: Sequence[Place], symbol: ChordSymbol) -> tuple[Want, ...]:
        return tuple([Want(self._spelled(string, fret, symbol), string, fret) for string, fret in places])

    def _spelled(self, string: int, fret: int, symbol: ChordSymbol | None) -> Pitch:
        """What sounds at a place, spelled as the chord spells it; as the scale does where it is none of the chord's."""
        neck = self.frame.neck
        midi, cents = neck.sound_at(string, fret) if neck.tempered else (neck.midi_at(string, fret), 0)
        for tone in chord_tones(symbol) if symbol is not None and not cents else ():
            if tone.semitone == midi % 12:
                return Pitch(tone.step, tone.alter, (midi - SEMITONES[tone.step] - tone.alter) // 12 - 1)
        return spelled_in(midi, self.frame, cents)

    def _fingers(self, grip: Grip, places: Sequence[Place]) -> str:
        """The fingers of a grip on some of its places, if fingers are to be shown."""
        if not self.frame.shows_fingers:
            return NOTHING
        found = [_WRITTEN[grip.fingers[string - 1]] if fret == 0 or grip.fingers[string - 1] else NOTHING for string, fret in places]
        return "+".join(found) if any(text != NOTHING for text in found) else NOTHING


def _place(finger: str, places: Sequence[Place]) -> Place:
    """A finger's place of a grip's, which go from the lowest string to the highest; on few strings fingers share the lowest."""
    return places[0] if finger == "p" else places[max(0, len(places) - FROM_TOP[finger])]
