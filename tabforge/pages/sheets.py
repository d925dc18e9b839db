"""What engraving gives: sheets of systems."""

from __future__ import annotations

from dataclasses import dataclass

from tabforge.source import Span


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """One line of music. ``svg`` is a whole picture, ``width`` and ``height`` its size in millimetres; ``inked`` of the width, from the
    left, are drawn on, and the rest is empty paper.

    ``first_bar`` and ``last_bar`` are its bars, counted within the section from 0. ``label`` says in words what it shows.
    """

    svg: str
    width: float
    height: float
    inked: float
    first_bar: int
    last_bar: int
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """A section's music. ``section`` is its number in the score from 0; ``title`` and ``text`` are its own; ``label`` is the words that a
    reader hears instead of the picture: title, key, meter, tempo.
    """

    section: int
    title: str
    text: tuple[str, ...]
    label: str
    systems: tuple[System, ...]
    span: Span
