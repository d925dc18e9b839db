"""A sound in the making: what is known of it before its string tells how long it may last."""

from __future__ import annotations

from typing import Final, NamedTuple

from tabforge.model.pitch import Pitch
from tabforge.model.score import Section
from tabforge.model.techniques import Mark, Role
from tabforge.source import Span

BEGINS: Final = frozenset({Role.SINGLE, Role.START})
"""Roles of the note on which a technique begins."""


class Piece(NamedTuple):
    """A mark and the written piece of the sound that carries it, in ticks of the performance. ``flags`` are the beams of its value."""

    mark: Mark
    start: int
    end: int
    flags: int


class Making:
    """A sound in the making.

    ``cents`` is its pitch above ``midi``. ``level`` is its velocity as the dynamics have it; ``millisecond`` how many ticks one takes.
    ``section`` knows the neck it is played on. ``rings``: its string is left to ring.
    ``following`` is the next sound of its string.
    """

    __slots__ = (
        *("attack", "cents", "end", "following", "fret", "kind", "level", "marks", "midi"),
        *("millisecond", "part", "rings", "section", "span", "start", "string"),
    )

    def __init__(
        self,
        part: str,
        start: int,
        end: int,
        pitch: Pitch,
        string: int,
        fret: int,
        level: float,
        attack: str,
        millisecond: float,
        section: Section,
        span: Span,
    ) -> None:
        self.part, self.start, self.end, self.string, self.fret = part, start, end, string, fret
        self.midi, self.cents = pitch.midi, pitch.cents
        self.level, self.attack, self.millisecond, self.section, self.span = level, attack, millisecond, section, span
        self.kind = "note"
        self.marks: list[Piece] = []
        self.rings = False
        self.following: Making | None = None

    def struck_with(self, name: str) -> bool:
        """Whether the sound has a technique where it is struck."""
        return any(piece.mark.technique.name == name and piece.start <= self.start for piece in self.marks)
