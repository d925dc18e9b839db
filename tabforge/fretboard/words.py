"""Names for what a trouble speaks of: pitches as the study spells them, places, grips."""

from __future__ import annotations

from dataclasses import replace

from tabforge.fretboard.neck import Neck, Place
from tabforge.fretboard.trouble import Trouble
from tabforge.model.pitch import Pitch, spell_plainly

Said = tuple[str, str, str | None, str | None]
"""What is said of a trouble: headline, label, what was expected, help."""


class Words:
    """What a trouble's explanation needs to name things."""

    def __init__(self, trouble: Trouble, neck: Neck, pitch: Pitch | None, among: str = "this chord") -> None:
        self.trouble = trouble
        self.among = among
        self.neck = neck
        self._spelled = {each.midi: each for each in neck.tuning.strings}
        self._spelled.update((each.midi, each) for each in trouble.pitches)
        if pitch is not None:
            octaves = range(-10, 11)
            self._spelled.update((pitch.midi + 12 * up, replace(pitch, octave=pitch.octave + up)) for up in octaves)

    def name(self, midi: int | None) -> str:
        """A pitch by its name, spelled as the study does where that is known."""
        if midi is None:
            return "the note"
        return str(self._spelled.get(midi) or spell_plainly(midi))

    @property
    def wanted(self) -> str:
        """The name of the pitch that was wanted."""
        return self.name(self.trouble.midi)

    @property
    def capo(self) -> str:
        """A reminder of the capo, if there is one."""
        return f" with the capo at fret {self.neck.capo}" if self.neck.capo else ""

    def nearest(self) -> str | None:
        """Where the nearest thing lies that can be had."""
        places = self.trouble.nearest
        if not places:
            return None
        if len(places) > 1:
            grip = "+".join(f"{string}:{fret}" for string, fret in places)
            return f"with one note elsewhere or in another octave it lies under one hand: {grip}"
        midi = self.neck.midi_at(*places[0])
        return f"{self.name(midi)} lies on {spoken(places[0])}"

    def start(self) -> str | None:
        """The nearest fret a layout can start from."""
        fret = self.trouble.nearest_fret
        return None if fret is None else f"the whole layout fits from fret {fret}"


def spoken(place: Place) -> str:
    """A place in words."""
    string, fret = place
    return f"string {string}, fret {fret}" if fret else f"string {string}, open"


def missing_fret(neck: Neck, string: int, fret: int) -> tuple[str, str]:
    """What is said of a fret that a string does not have: a headline, and which frets it has."""
    nut, last = neck.tuning.nut(string), neck.last
    above = f" with the capo at fret {neck.capo}" if neck.capo else ""
    if 0 < fret <= nut:
        return (
            f"string {string} has no fret {fret}: it begins at fret {nut}, and its frets are counted along the neck",
            f"0 for the open string, or a fret from {nut + 1} to {last}" if nut < last else "0 for the open string",
        )
    return f"there is no fret {fret}: the neck ends at fret {last}{above}", f"a fret from 0 to {last}"
