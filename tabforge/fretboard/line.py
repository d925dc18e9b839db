"""What a layout takes and gives: where a line lies, how far it goes, and its notes."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.fretboard.neck import Place
from tabforge.fretboard.readings import Wanted
from tabforge.model.pitch import Pitch


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where a line lies. ``kind`` is one of ``layouts.KINDS``; the rest is used as the kind has need.

    per string: ``count`` notes on each string from ``from_string`` to ``to_string``, beginning at ``fret`` or on ``degree`` (a pitch whose
    octave does not count) where one is given; fragment likewise, diagonal without ``count``. position: ``fret``. string: ``from_string``.
    shape: ``shape``, its name, and ``fret``, the lowest fret of the hand, where one is given.
    """

    kind: str = "free"
    count: int = 3
    from_string: int = 6
    to_string: int = 1
    fret: int | None = None
    degree: Pitch | None = None
    shape: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """How far a line goes: its first and last pitch (``from`` and ``to``), or octaves above its first; what is None is up to the layout."""

    first: Pitch | None = None
    last: Pitch | None = None
    octaves: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A note of a laid-out line. ``string`` and ``fret`` are None where the layout leaves them to placement."""

    pitch: Pitch
    string: int | None = None
    fret: int | None = None

    @property
    def wanted(self) -> Wanted:
        """The note as placement takes it."""
        return Wanted(self.pitch.midi, self.string, self.fret)


Rungs = list[tuple[int, Place | None]]
"""A line before it is cut: rungs of a ladder in ascending order, each with its place, or None where the layout has none for it. A
fragment leaves rungs out."""
