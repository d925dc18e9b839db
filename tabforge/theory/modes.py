"""The relation of modes: the same notes with another home, and the scale they are all turns of."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Final

from tabforge.model.pitch import PitchClass
from tabforge.model.score import Scale
from tabforge.theory.scale_families import FAMILIES
from tabforge.theory.scale_kind import ScaleKind
from tabforge.theory.scale_others import PENTATONICS
from tabforge.theory.scale_table import kind_of_offsets

_LIMIT_OF_TURNS: Final = 9
"""A scale with more notes has every other scale in it, so that its turns say nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mode:
    """A scale begun on another of its notes. ``degree`` is that note's label in the first scale; ``name`` is None if it has none."""

    degree: str
    root: PitchClass
    name: str | None

    def __str__(self) -> str:
        return f"{self.root} {self.name or '(no name)'}"


def _turned(offsets: tuple[int, ...], start: int) -> tuple[int, ...]:
    return tuple(sorted((offset - offsets[start]) % 12 for offset in offsets))


@cache
def modes_of(scale: Scale) -> tuple[Mode, ...]:
    """All turns of a scale, each of its notes as home, itself first. Cached."""
    found = []
    for start, (degree, root) in enumerate(zip(scale.labels, scale.tones, strict=True)):
        kind = kind_of_offsets(_turned(scale.offsets, start))
        found.append(Mode(degree=degree, root=root, name=kind.name if kind else None))
    return tuple(found)


@cache
def _parents() -> frozenset[ScaleKind]:
    """The kinds that head a family of modes."""
    return frozenset({*(modes[0] for modes in FAMILIES.values()), PENTATONICS[0]})


@cache
def parent_of(scale: Scale) -> Mode | None:
    """The scale that this one is a turn of, if it heads a family and is not this one; None for others. Cached."""
    names = {kind.name for kind in _parents()}
    if len(scale.offsets) > _LIMIT_OF_TURNS or _symmetric(scale.offsets):
        return None
    turns = modes_of(scale)
    return next((mode for mode in turns[1:] if mode.name in names), None) if turns[0].name not in names else None


def _symmetric(offsets: tuple[int, ...]) -> bool:
    """Whether a scale repeats within the octave: then it has no one home."""
    return any(_turned(offsets, start) == offsets for start in range(1, len(offsets)))


def is_symmetric(scale: Scale) -> bool:
    """Whether a scale repeats within the octave, so that several of its notes could be home."""
    return _symmetric(scale.offsets)
