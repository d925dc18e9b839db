"""Layouts: a ladder of scale tones laid on the neck as an ascending line."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.fretboard.ladder import Ladder
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.placement import Wanted
from tabforge.fretboard.trouble import Trouble
from tabforge.model.pitch import Pitch


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """Where a line lies. ``kind`` is "per string", "position", "string", "open" or "free"; the rest is used as the kind has need.

    per string: ``count`` notes on each string from ``from_string`` to ``to_string``, beginning at ``fret`` or on ``degree`` (a pitch
    whose octave does not count) where one is given. position: ``fret``. string: ``from_string``.
    """

    kind: str = "free"
    count: int = 3
    from_string: int = 6
    to_string: int = 1
    fret: int | None = None
    degree: Pitch | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Extent:
    """How far a line goes: its first and last pitch (``from`` and ``to``), or octaves above the first; whatever is None is up to the layout."""

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


def lay_out(layout: Layout, ladder: Ladder, extent: Extent, neck: Neck) -> tuple[list[Placed], Trouble | None]:
    """The ascending line, or an empty list and what keeps it from being laid out."""
    first = ladder.at_or_above((extent.first or ladder.root).midi)
    end = extent.last.midi if extent.last else ladder.midi(first) + 12 * (extent.octaves or 1)
    return [Placed(pitch=ladder.pitch(rung)) for rung in range(first, ladder.at_or_below(end) + 1)], None
