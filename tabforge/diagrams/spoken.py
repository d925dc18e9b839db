"""A diagram in words, for those who do not see it."""

from __future__ import annotations

from tabforge.diagrams.model import Diagram, Dot, Role


def in_words(diagram: Diagram) -> str:
    """String by string, string 1 last: which frets, with their labels; what is no plain note is told."""
    heads = [f"{'Chord grip' if diagram.upright else 'Notes on the neck'}, frets {diagram.first} to {diagram.last}"]
    if diagram.left_handed:
        heads.append("drawn for a left-handed player")
    parts = [", ".join(heads)]
    for string in range(len(diagram.strings), 0, -1):
        dots = [dot for dot in diagram.dots if dot.string == string]
        said = ", ".join(map(_dot, dots)) or ("not played" if string in diagram.muted else "")
        if said:
            parts.append(f"String {string} ({diagram.strings[string - 1].name}): {said}")
    parts += [f"Barre at fret {barre.fret}, strings {barre.low} to {barre.high}" for barre in diagram.barres]
    return ". ".join(parts) + "."


def _dot(dot: Dot) -> str:
    where = f"fret {dot.fret}" if dot.fret else "open"
    told = [dot.label] if dot.label else []
    if dot.role is not Role.TONE:
        told.append(dot.role.value)
    return f"{where} ({', '.join(told)})" if told else where
