"""From where to where each mark of a section reaches."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final, NamedTuple

from tabforge.model.events import Note
from tabforge.model.techniques import Mark, Role
from tabforge.pages.stage import Head, Spot, Stage


class Reach(NamedTuple):
    """A mark from its first spot to its last. ``string`` is the string of a mark on a note, None for one on the event.

    ``further``: the mark begins on a note of a chord that is not the first one with it, so that what is said once for the event is said.
    """

    mark: Mark
    first: Spot
    last: Spot
    string: int | None
    further: bool

    @property
    def name(self) -> str:
        """The technique's name."""
        return self.mark.technique.name

    @property
    def below(self) -> bool:
        """Whether it is told under the strings: a lower voice's."""
        return self.first.placed.voice > 0

    @property
    def head(self) -> Head | None:
        """The number it begins at."""
        return self.first.on(self.string)


_ROWS: Final = frozenset({"natural harmonic", "pinch harmonic", "volume swell"})
"""Techniques that are said once for events in a row, with a line to the last."""


def reaches(stage: Stage) -> Iterator[Reach]:
    """Every mark of a stage, in the order in which they end."""
    for voice in stage.voices:
        begun: dict[tuple[str, int | None], tuple[Mark, Spot, bool]] = {}
        rows: dict[str, tuple[Mark, Spot, Spot]] = {}
        for spot in voice:
            marks = list(_marks(spot))
            for name in [name for name in rows if name not in {mark.technique.name for mark, _ in marks}]:
                yield _row(rows.pop(name))
            said: set[str] = set()
            for mark, note in sorted(marks, key=lambda each: each[0].role is not Role.STOP):
                name = mark.technique.name
                string = note.string if note else None
                if name in _ROWS:
                    rows[name] = (mark, rows[name][1] if name in rows else spot, spot)
                elif mark.role is Role.STOP:
                    found = begun.pop((name, string), None)
                    if found is not None:
                        yield Reach(found[0], found[1], spot, string, found[2])
                elif mark.role is Role.START:
                    begun[name, string] = mark, spot, name in said
                elif mark.role is Role.SINGLE and not (mark.technique.stays and note is not None and note.tied_in):
                    yield Reach(mark, spot, stage.last_of(spot, string), string, name in said)
                if mark.role is not Role.STOP:
                    said.add(name)
        for each in rows.values():
            yield _row(each)


def _marks(spot: Spot) -> Iterator[tuple[Mark, Note | None]]:
    for mark in spot.event.marks:
        yield mark, None
    for note in spot.event.notes:
        for mark in note.marks:
            yield mark, note


def _row(found: tuple[Mark, Spot, Spot]) -> Reach:
    mark, first, last = found
    return Reach(mark, first, last, None, False)
