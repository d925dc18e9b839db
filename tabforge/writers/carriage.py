"""How far a format can carry a playing technique, as its writer declares it.

Each format's package has a module ``carried`` with a table CARRIED: technique name to Carriage. The handbook's table of marks is made from
these, and a test holds each against what the writer does.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum


class Level(Enum):
    """FULL: all the mark says stands in the file. APPROXIMATED: less, or in words alone. NEEDLESS: it says how something is to be
    written that the format does not write, so that nothing is lost without it. UNSUPPORTED: it is not in the file, and a loss is reported.
    """

    FULL = "full"
    APPROXIMATED = "approximated"
    NEEDLESS = "needless"
    UNSUPPORTED = "unsupported"


@dataclass(frozen=True, slots=True, kw_only=True)
class Carriage:
    """What a format makes of a technique.

    ``how`` tells it to the reader of the handbook. ``shows`` are pieces of text of which every file that has the technique holds each:
    elements and words of MusicXML, signs in ASCII tab.
    """

    level: Level
    how: str
    shows: tuple[str, ...]


def full(how: str, *shows: str) -> Carriage:
    """A technique that is carried whole."""
    return Carriage(level=Level.FULL, how=how, shows=shows)


def approximated(how: str, *shows: str) -> Carriage:
    """A technique of which part is lost, or that only words tell."""
    return Carriage(level=Level.APPROXIMATED, how=how, shows=shows)


def needless(how: str) -> Carriage:
    """A technique that concerns only what the format does not write; ``how`` says what that is."""
    return Carriage(level=Level.NEEDLESS, how=how, shows=())
