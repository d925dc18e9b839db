"""What a user may ask of the writers, in one place: each writer reads the settings that concern it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, get_args

Staves = Literal["both", "parts", "tab", "notation"]

STAVES: tuple[Staves, ...] = get_args(Staves)
"""Every layout of staves: notation and TAB as two staves of one part, as two parts, TAB alone, notation alone."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WriteOptions:
    """Settings of all writers.

    ``staves`` (MusicXML): one of STAVES. ``exact_mode`` (MusicXML): name church modes in the key signature too; some readers then show
    no signature. ``width`` (ASCII tab): characters a line. ``ascii_only`` (ASCII tab): no character beyond ASCII, in words neither;
    the tab itself is ASCII in any case, and words keep their letters by default.
    ``rhythm_line`` (ASCII tab): durations as letters over the strings. ``legend`` (ASCII tab): explain the signs that were used, at
    the end. ``headings`` (ASCII tab): titles, settings and teaching text; without them the strings stand alone.
    """

    staves: Staves = "both"
    exact_mode: bool = False
    width: int = 80
    ascii_only: bool = False
    rhythm_line: bool = True
    legend: bool = True
    headings: bool = True


DEFAULTS = WriteOptions()
