"""Engraved pictures read back: by an XML parser of its own, from nothing but what is written in them."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple

from lxml import etree

from tabforge.model.score import Score
from tabforge.pages import Engraver, PageOptions, Sheet, engrave
from tabforge.pipeline import study_from

ROOT: Final = Path(__file__).parents[2]
STUDIES: Final = sorted([*(ROOT / "examples").glob("*.riff"), *(ROOT / "tests" / "cases").glob("[int]*/*.riff")])
"""The examples and the cases of techniques, notation and instruments."""

SVG: Final = "{http://www.w3.org/2000/svg}"
NUMBER: Final = re.compile(r"-?\d+(?:\.\d+)?")


@cache
def engraver() -> Engraver:
    """One engraving program for the tests of a process."""
    return Engraver()


@cache
def study(path: Path) -> tuple[str, Score]:
    """A study's text and its score."""
    data = path.read_bytes()
    score = study_from(path.name, data).score
    assert score is not None
    return data.decode(), score


@cache
def sheets(path: Path, width: float = 180.0) -> tuple[Sheet, ...]:
    return engrave(study(path)[1], PageOptions(width=width), engraver())[0]


def score_of(text: str) -> Score:
    """The score of a text without errors."""
    outcome = study_from("study.riff", text.encode())
    assert outcome.score is not None, [each.headline for each in outcome.diagnostics]
    return outcome.score


class Numeral(NamedTuple):
    """A number on TAB: its note's data, what is written (a cross: "x"), its place, and the line it is on, counted from the top."""

    at: str
    tick: int
    bar: int
    voice: int
    string: int
    text: str
    x: float
    line: int


def numerals(svg: str) -> list[Numeral]:
    """The numbers of a picture in the order they are written."""
    tab = etree.fromstring(svg).findall(f".//{SVG}g[@transform]")
    tab = next(group for group in tab if group.find(f"{SVG}g[@data-string]") is not None)
    levels = {}
    for path in tab.findall(f"{SVG}path"):
        begin = NUMBER.findall(path.get("d", ""))
        levels[float(begin[1])] = True
    lines = sorted(levels)
    return [_numeral(group, lines) for group in tab.iter(f"{SVG}g") if group.get("data-string")]


def _numeral(group: Any, lines: list[float]) -> Numeral:
    text = group.find(f"{SVG}text")
    if text is not None:
        x, middle, shown = float(text.get("x")), float(text.get("y")) - 0.33 * float(text.get("font-size")), text.text
    else:
        numbers = [float(each) for path in group.findall(f"{SVG}path") for each in NUMBER.findall(path.get("d"))]
        x, middle, shown = _mean(numbers[::2]), _mean(numbers[1::2]), "x"
    gap = lines[1] - lines[0]
    near = [number for number, line in enumerate(lines, 1) if abs(line - middle) < gap / 4]
    tick, bar, voice, string = (int(group.get(f"data-{name}")) for name in ("tick", "bar", "voice", "string"))
    return Numeral(group.get("data-at"), tick, bar, voice, string, shown, x, near[0] if near else 0)


def _mean(numbers: list[float]) -> float:
    return sum(numbers) / len(numbers)


def points(svg: str) -> Iterator[tuple[float, float]]:
    """Points of everything drawn: ends and corners of lines, beginnings of words, places of signs."""
    yield from _points(etree.fromstring(svg), 0.0, 0.0)


def _points(element: Any, across: float, down: float) -> Iterator[tuple[float, float]]:
    tag = element.tag.removeprefix(SVG)
    if tag == "defs":
        return
    transform = element.get("transform", "")
    if transform.startswith("translate") or tag == "use":
        dx, dy = (float(each) for each in NUMBER.findall(transform)[:2])
        across, down = across + dx, down + dy
    if transform.startswith("rotate"):
        return  # a quarter turn of the engraver's, about the middle of a chord
    if tag == "use":
        yield across, down
    for x, y in (("x", "y"), ("cx", "cy")):
        if tag in {"text", "rect", "circle", "ellipse"} and element.get(x):
            yield across + float(element.get(x)), down + float(element.get(y))
    if tag in {"polygon", "polyline"}:
        numbers = [float(each) for each in NUMBER.findall(element.get("points"))]
        yield from ((across + x, down + y) for x, y in zip(numbers[::2], numbers[1::2], strict=True))
    if tag == "path":
        yield from ((across + x, down + y) for x, y in _ends(element.get("d")))
    for child in element:
        yield from _points(child, across, down)


def _ends(data: str) -> Iterator[tuple[float, float]]:
    """Where the moves and straight lines of a path go; curves by their controls."""
    at = (0.0, 0.0)
    for letter, inside in re.findall(r"([MLHVCQqtZ])([^MLHVCQqtZ]*)", data):
        numbers = [float(each) for each in NUMBER.findall(inside)]
        if letter == "H":
            at = numbers[0], at[1]
            yield at
        elif letter in "MLCQ":
            for at in zip(numbers[::2], numbers[1::2], strict=True):
                yield at
        elif letter in "qt":
            at = at[0] + numbers[-2], at[1] + numbers[-1]
            yield at
