"""The one home of named scales: every kind, found by any of its names, its degrees or its sound."""

from __future__ import annotations

from functools import cache
from typing import Final

from tabforge.theory.names import fold, without_last_word
from tabforge.theory.scale_families import FAMILIES, MAJOR_MODES
from tabforge.theory.scale_kind import ScaleKind
from tabforge.theory.scale_others import OTHERS

__all__ = ["SCALES", "ScaleKind", "DIATONIC", "find_kind", "find_name", "kind_of_labels", "kind_of_offsets", "kin_of"]

SCALES: Final[tuple[ScaleKind, ...]] = (*(kind for modes in FAMILIES.values() for kind in modes), *OTHERS)
"""Every named scale, families first. No two have the same notes, and no name stands for two."""

DIATONIC: Final[dict[str, ScaleKind]] = {kind.kin: kind for kind in MAJOR_MODES if kind.kin}
"""The seven modes a key signature can be named by."""

_USUAL: Final = ("ionian", "aeolian", "mixolydian", "dorian", "lydian", "phrygian", "locrian")
"""Modes from the most usual to the least (by how often a player meets them; our own order)."""


@cache
def _by_folded_name() -> dict[str, tuple[str, ScaleKind]]:
    return {fold(name): (name, kind) for kind in SCALES for name in kind.names}


@cache
def find_name(text: str) -> tuple[str, ScaleKind] | None:
    """The name in the table's own spelling and its kind, or None. Case, hyphens and runs of spaces do not matter (see ``names.fold``).

    A last word "scale" or "mode" may follow the name.
    """
    table, folded = _by_folded_name(), fold(text)
    return table.get(folded) or table.get(without_last_word(folded, "scale", "mode"))


def find_kind(text: str) -> ScaleKind | None:
    """The scale of this name, or None."""
    found = find_name(text)
    return found[1] if found else None


@cache
def _by_labels() -> dict[tuple[str, ...], ScaleKind]:
    return {kind.labels: kind for kind in SCALES}


@cache
def _by_offsets() -> dict[tuple[int, ...], ScaleKind]:
    return {kind.offsets: kind for kind in SCALES}


def kind_of_labels(labels: tuple[str, ...]) -> ScaleKind | None:
    """The named scale with exactly these degrees, or None."""
    return _by_labels().get(labels)


def kind_of_offsets(offsets: tuple[int, ...]) -> ScaleKind | None:
    """The named scale that sounds like this (semitones above the root, ascending), or None."""
    return _by_offsets().get(offsets)


@cache
def kin_of(labels: tuple[str, ...]) -> str | None:
    """The diatonic mode whose key signature suits a scale of these degrees; None for none.

    A named scale says it itself. Otherwise it is the mode that shares most degrees; among equals one that has the scale's
    third (or thirds), then the more usual one.
    """
    named = kind_of_labels(labels)
    if named:
        return named.kin
    thirds = [label for label in labels if label.strip("#b") == "3"]

    def likeness(mode: str) -> tuple[int, int]:
        own = DIATONIC[mode].labels
        return sum(label in own for label in labels), sum(third in own for third in thirds)

    return max(_USUAL, key=likeness)
