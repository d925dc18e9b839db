"""What keeps notes from lying on a neck, as data. ``explain`` turns it into words."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tabforge.fretboard.neck import Place
from tabforge.model.pitch import Pitch


class Kind(Enum):
    """Kinds of trouble. Those of placement come first, those of layouts after them."""

    BELOW = "the pitch is below the lowest string"
    ABOVE = "the pitch is above the last fret"
    NOWHERE = "no string has the pitch, though lower and higher ones lie on the neck"
    UNFRETTED = "no fret gives the pitch, though lower and higher ones do"
    NO_STRING = "the string does not exist"
    NO_FRET = "the fret does not exist"
    SHORT_STRING = "the fret lies before the short string begins"
    NOT_ON_STRING = "the string that was asked for does not have the pitch"
    OTHER_PITCH = "another pitch lies at the place that was asked for"
    TOO_MANY = "the chord has more notes than the instrument has strings"
    SAME_STRING = "two notes of the chord were asked for on one string"
    NO_STRINGS_LEFT = "the notes of the chord cannot all have a string of their own"
    OUT_OF_REACH = "no hand reaches the notes of the chord together"
    HELD = "a note that should ring on must give up its string"

    LAYOUT_STRINGS = "the layout goes from a higher string to a lower one"
    LAYOUT_REENTRANT = "the layout's next string is tuned lower"
    LAYOUT_START = "the string does not have the note that the layout starts on"
    LAYOUT_LOW = "the next string begins above the next note"
    LAYOUT_HIGH = "the layout goes past the last fret"
    LAYOUT_UNFRETTED = "the neck has no fret for notes of the layout"
    LAYOUT_HOLE = "the layout leaves out notes between its strings"
    LAYOUT_FROM = "the layout does not have the note to begin on"
    LAYOUT_TO = "the layout does not go as far as the note to end on"
    LAYOUT_EMPTY = "the layout has no note"
    LAYOUT_SHAPE = "the tuning does not have the shape"
    LAYOUT_SHAPE_PLACE = "the neck has no place for the shape"


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One trouble. ``index`` is the event it befell, ``note`` the note of that event (None for the whole event or layout).

    ``midi``, ``string`` and ``fret`` are what was wanted; ``there`` is the pitch that lies where it was wanted; ``limit``
    is the bound that was crossed (a pitch, a number of strings or a fret, as the kind says). ``missing`` are pitches
    left out. ``nearest`` are places that could be had instead, note for note; ``nearest_fret`` is a fret from which
    the layout fits. ``pitches`` are spellings of pitches that are named here, where they are known. ``named`` is the shape that was wanted
    and, after it, those that there are.
    """

    kind: Kind
    index: int = 0
    note: int | None = None
    midi: int | None = None
    string: int | None = None
    fret: int | None = None
    there: int | None = None
    limit: int | None = None
    missing: tuple[int, ...] = ()
    nearest: tuple[Place, ...] = ()
    nearest_fret: int | None = None
    pitches: tuple[Pitch, ...] = ()
    named: tuple[str, ...] = ()
