"""A diagram as data: what lies where on the neck, and what it is called."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

from tabforge.fretboard.gripped import Barre


class Role(Enum):
    """What a note is to its scale or chord; the value says so in the legend. A characteristic note is one that sets its scale apart."""

    ROOT = "root"
    CHARACTERISTIC = "characteristic note"
    TONE = "note"
    OUTSIDE = "outside"


@dataclass(frozen=True, slots=True, kw_only=True)
class Dot:
    """A note at a place: string from 1, fret from the capo (0 is open), the pitch's MIDI number. ``label`` may be empty."""

    string: int
    fret: int
    midi: int
    label: str
    role: Role


@dataclass(frozen=True, slots=True, kw_only=True)
class String:
    """A string by its name. ``begins`` is the fret at its own nut: 0, or where a short string begins."""

    name: str
    begins: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagram:
    """Part of a neck with dots on it: frets ``first`` (1 or more) to ``last`` (0 for none), and open strings beside them.

    ``strings[0]`` is string 1.
    ``upright``: a chord's chart, strings standing, the nut on top; else strings lie, string 1 on top, as in tablature. ``dots`` are in the
    order of their strings and frets. ``alt`` says all of it in words.
    """

    title: str
    subtitle: str
    strings: tuple[String, ...]
    first: int
    last: int
    dots: tuple[Dot, ...]
    muted: tuple[int, ...] = ()
    barres: tuple[Barre, ...] = ()
    upright: bool = False
    left_handed: bool = False
    wires: tuple[float, ...] = ()
    """Where the frets lie, on a neck whose frets are not half steps: the part of the open string from the nut to the end of each fret
    shown, and first to where the first one begins. Empty where they are drawn evenly, as is usual."""
    alt: str = ""

    @property
    def open_strings(self) -> tuple[int, ...]:
        """The strings that sound open."""
        return tuple(dot.string for dot in self.dots if dot.fret == 0)

    @property
    def roles(self) -> tuple[Role, ...]:
        """The roles that occur, in the order of the legend."""
        found = {dot.role for dot in self.dots}
        return tuple(role for role in Role if role in found)

    def at(self, string: int, fret: int) -> Dot | None:
        """The dot at a place, or None."""
        return next((dot for dot in self.dots if dot.string == string and dot.fret == fret), None)

    def drawn_at(self, string: int, fret: int) -> Dot | None:
        """The dot that is drawn at a fret: its own, or, before the nut of a short string, that of the open string."""
        return self.at(string, 0 if self._begins_inside(string) == fret else fret)

    def beside(self, string: int) -> Dot | None:
        """The dot of an open string that is drawn beside the frets, or None."""
        return None if self._begins_inside(string) else self.at(string, 0)

    @property
    def has_beside(self) -> bool:
        """Whether something is drawn beside the frets: an open string or one that is not played."""
        return bool(self.muted) or any(self.beside(string) for string in self.open_strings)

    def _begins_inside(self, string: int) -> int:
        begins = self.strings[string - 1].begins
        return begins if self.first <= begins <= self.last else 0

    def barred(self, string: int, fret: int) -> bool:
        """Whether a barre lies over a place."""
        return any(barre.fret == fret and barre.high <= string <= barre.low for barre in self.barres)
