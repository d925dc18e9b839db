"""The engraver's nested text as lines of runs, each of one size and style."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_DRAWN: Final = {"\u266d": "\uea64", "\u266e": "\uea65", "\u266f": "\uea66"}
"""Accidentals in words, which many fonts lack, and the music font's signs for them, those the engraver sets beside letters."""

_LARGER: Final = 1.78
"""Size of an accidental of the music font against the letters beside it."""
_ALTERED: Final = re.compile(r"([b#])(?=[0-9])")
_SIGNS: Final = {"b": "\u266d", "#": "\u266f"}


class Run(NamedTuple):
    """Letters of one style, or one music sign."""

    text: str
    size: float
    bold: bool
    italic: bool
    music: bool = False


class Line(NamedTuple):
    """Runs on one base line; ``anchor`` says what of it ``x`` is."""

    x: float
    y: float
    anchor: str
    runs: tuple[Run, ...]


def is_music(char: str) -> bool:
    """Whether a character is drawn as a sign: a private one of the music font, or an accidental, which many fonts lack."""
    return "\ue000" <= char <= "\uf8ff" or char in _DRAWN


def flattened(element: Element, bold: bool, italic: bool, chord: bool = False) -> Iterator[Line]:
    """The lines of a ``text`` element. A part with a place of its own begins a new one. ``chord``: it is a chord symbol."""
    place = (float(element.get("x", 0)), float(element.get("y", 0)), element.get("text-anchor", "start"))
    runs: list[Run] = []
    for each in _leaves(element, bold, italic, 0.0, chord):
        if isinstance(each, Run):
            _append(runs, each)
            continue
        if runs:
            yield Line(*place, tuple(runs))
        place, runs = (*each, place[2]), []
    if runs:
        yield Line(*place, tuple(runs))


def is_beat(char: str) -> bool:
    """Whether a sign is a note of a metronome mark (SMuFL: individual notes, and metronome marks)."""
    return "\ue1d0" <= char <= "\ue1ef" or "\ueca0" <= char <= "\uecbf"


def with_signs(symbol: str) -> str:
    """A piece of a chord symbol with the signs for a flat and a sharp where letters stand for them: m7b5."""
    return _ALTERED.sub(lambda found: _SIGNS[found[1]], symbol)


def _append(runs: list[Run], run: Run) -> None:
    if runs and not run.music and not runs[-1].music and runs[-1][1:] == run[1:]:
        run = Run(runs.pop().text + run.text, *run[1:])
    runs.append(run)


def _leaves(element: Element, bold: bool, italic: bool, size: float, chord: bool) -> Iterator[Run | tuple[float, float]]:
    """The runs of an element, and a place where one begins a new line."""
    for child in element:
        given = child.get("font-size")
        own = float(given.removesuffix("px")) if given else size
        weight, style = child.get("font-weight"), child.get("font-style")
        heavy = bold if weight is None else weight == "bold"
        slanted = italic if style is None else style == "italic"
        if child.get("x") is not None and child.get("y") is not None:
            yield float(child.get("x", 0)), float(child.get("y", 0))
        if len(child):
            yield from _leaves(child, heavy, slanted, own, chord)
        elif child.text:
            text = child.text.replace("\xa0", " ")
            yield from _runs(with_signs(text) if chord else text, own, heavy, slanted)


def _runs(text: str, size: float, bold: bool, italic: bool) -> Iterator[Run]:
    letters = ""
    for char in text:
        if not is_music(char):
            letters += char
            continue
        if letters:
            yield Run(letters, size, bold, italic)
        letters = ""
        sign = _DRAWN.get(char)
        yield Run(sign or char, size * _LARGER if sign else size, bold, italic, True)
    if letters:
        yield Run(letters, size, bold, italic)
