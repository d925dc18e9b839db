"""The engraver's nested text as lines of runs, each of one size and style."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from xml.etree.ElementTree import Element

_FLATS_AND_SHARPS: Final = "\u266d\u266e\u266f"


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
    return "\ue000" <= char <= "\uf8ff" or char in _FLATS_AND_SHARPS


def flattened(element: Element, bold: bool, italic: bool) -> Iterator[Line]:
    """The lines of a ``text`` element. A part with a place of its own begins a new one."""
    place = (float(element.get("x", 0)), float(element.get("y", 0)), element.get("text-anchor", "start"))
    runs: list[Run] = []
    for each in _leaves(element, bold, italic, 0.0):
        if isinstance(each, Run):
            _append(runs, each)
            continue
        if runs:
            yield Line(*place, tuple(runs))
        place, runs = (*each, place[2]), []
    if runs:
        yield Line(*place, tuple(runs))


def _append(runs: list[Run], run: Run) -> None:
    if runs and not run.music and not runs[-1].music and runs[-1][1:] == run[1:]:
        run = Run(runs.pop().text + run.text, *run[1:])
    runs.append(run)


def _leaves(element: Element, bold: bool, italic: bool, size: float) -> Iterator[Run | tuple[float, float]]:
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
            yield from _leaves(child, heavy, slanted, own)
        elif child.text:
            yield from _runs(child.text.replace("\xa0", " "), own, heavy, slanted)


def _runs(text: str, size: float, bold: bool, italic: bool) -> Iterator[Run]:
    letters = ""
    for char in text:
        if not is_music(char):
            letters += char
            continue
        if letters:
            yield Run(letters, size, bold, italic)
        letters = ""
        yield Run(char, size, bold, italic, True)
    if letters:
        yield Run(letters, size, bold, italic)
