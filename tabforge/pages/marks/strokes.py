"""How a chord is struck: arrows beside its numbers; and the fingers that pluck, under TAB."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.pages.marks.reaches import Reach
from tabforge.pages.shapes import THIN, Shape, arrow_head, line, path, together, words
from tabforge.pages.stage import Spot, Stage

PLUCKED: Final = 0
"""Fingers stand nearest to the strings."""

_ASIDE: Final = 95.0
_OVER: Final = 0.5
_FINGER: Final = 290.0


def _arrow(x: float, top: float, bottom: float, *, up: bool, wavy: bool) -> Shape:
    """An upright arrow from one end to the other."""
    tip, foot = (top, bottom) if up else (bottom, top)
    neck = tip + (95 if up else -95)
    if not wavy:
        shaft = line(x, foot, x, neck, THIN + 4)
    else:
        count = max(2, round(abs(foot - neck) / 110))
        step = (neck - foot) / count
        data = f"M{x:.0f} {foot:.0f}q55 {step / 4:.0f} 0 {step / 2:.0f}" + f"t0 {step / 2:.0f}" * (2 * count - 1)
        shaft = path([(x - 30, foot), (x + 30, neck)], data, THIN + 8)
    return together([shaft, arrow_head(x, tip, down=not up)])


def beside(*, up: bool, wavy: bool) -> Callable[[Stage, Reach], None]:
    """An arrow left of the chord's numbers; it points to the string that is struck last. ``up``: up the page."""

    def draw(stage: Stage, reach: Reach) -> None:
        spot = reach.first
        heights = [head.y for head in spot.heads]
        if heights and not reach.further:
            board = stage.boards[spot.system]
            over = _OVER * board.gap
            shape = _arrow(spot.x - spot.half - _ASIDE, min(heights) - over, max(heights) + over, up=up, wavy=wavy)
            board.put(reach.name, shape)

    return draw


def plucking(stage: Stage) -> None:
    """The fingers p, i, m and a under the numbers they pluck, those of both voices: the highest string's on top."""
    columns: dict[tuple[int, int, bool], tuple[Spot, list[tuple[int, str]]]] = {}
    for voice in stage.voices:
        for spot in voice:
            fingers = [(note.string, note.pluck) for note in spot.event.notes if note.pluck and not note.tied_in]
            if fingers:
                key = spot.placed.bar, spot.placed.tick, spot.event.grace is not None
                columns.setdefault(key, (spot, []))[1].extend(fingers)
    for spot, fingers in columns.values():
        _column(stage, spot, [finger for _, finger in sorted(fingers)])


def _column(stage: Stage, spot: Spot, fingers: list[str]) -> None:
    step = _FINGER * 0.82
    half = max(stage.fonts.width(finger, italic=True) for finger in fingers) * _FINGER / 2

    def draw(level: float) -> Shape:
        letters = [
            words(stage.fonts, finger, spot.x, level + (place + 0.6) * step, _FINGER, anchor="middle", italic=True)
            for place, finger in enumerate(fingers)
        ]
        return together(letters)

    stage.boards[spot.system].stack(PLUCKED, "pluck", spot.x - half, spot.x + half, len(fingers) * step + 20, draw, below=True)
