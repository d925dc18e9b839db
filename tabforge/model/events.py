"""Events: what sounds and what is silent, exactly when, and how it is written.

An event is one written note, chord or rest inside one bar. A sound that lasts over a bar line, or over a beat that notation must
show, is several events joined by ties. Times are whole ticks; a score's ``divisions`` says how many make a quarter note.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from tabforge.model.harmony import ChordSymbol
from tabforge.model.pitch import Pitch
from tabforge.model.techniques import Mark
from tabforge.model.values import Written
from tabforge.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One sounding note of an event.

    ``string`` counts from 1 as the trade does; ``fret`` counts from the nut, or from the capo. ``finger`` is "1".."4" or "T"; ``pluck``
    "p", "i", "m" or "a". ``tied_in``: continues the same note of the event before; ``tied_out``: goes on in the next one.
    ``marks`` hold the techniques whose scope is a note, in the order they were written.
    """

    pitch: Pitch
    string: int
    fret: int
    marks: tuple[Mark, ...] = ()
    finger: str | None = None
    pluck: str | None = None
    tied_in: bool = False
    tied_out: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A word or syllable under an event. ``hyphen``: the word goes on under the next one."""

    text: str
    hyphen: bool = False


DYNAMICS: Final = (
    *("pppp", "ppp", "pp", "p", "mp", "mf", "f", "ff", "fff", "ffff"),
    *("fp", "pf", "fz", "sf", "sfz", "sffz", "sfp", "rf", "rfz"),
)
"""Dynamic marks, each the name of an element of MusicXML 4.0's ``dynamics``."""

HAIRPINS: Final = {"<": "crescendo", ">": "diminuendo"}
"""The sign of a hairpin and MusicXML's wedge-type."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hairpin:
    """One end of a hairpin: ``kind`` is a value of HAIRPINS, ``begins`` says which end.

    It begins at its event's onset. It ends at the onset of its event (where a dynamic or another hairpin follows) or, ``through``, with the
    end of it.
    """

    kind: str
    begins: bool
    through: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Attached:
    """What hangs on an event besides its notes. One empty object is shared by the events that carry nothing."""

    chord: ChordSymbol | None = None
    word: Word | None = None
    stroke: str | None = None
    """A pick stroke: "d" (down) or "u" (up)."""
    dynamic: str | None = None
    """One of DYNAMICS."""
    hairpins: tuple[Hairpin, ...] = ()
    """Ends of hairpins here; one that ends comes before one that begins."""


NOTHING_ATTACHED = Attached()


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """A note, a chord or, when ``notes`` is empty, a rest.

    ``onset`` is ticks from the start of its bar, ``ticks`` its length (0 for a grace note). ``grace`` is None, "before" (slashed, taken
    from the time before) or "on" (the beat). ``marks`` hold the techniques whose scope is the whole event (see
    ``techniques``). Notes of a chord are ordered from string 1 upward.
    ``span`` is the cell of the source this event came from.
    """

    onset: int
    ticks: int
    written: Written
    notes: tuple[Note, ...]
    span: Span
    marks: tuple[Mark, ...] = ()
    attached: Attached = NOTHING_ATTACHED
    grace: str | None = None
