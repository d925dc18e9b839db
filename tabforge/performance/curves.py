"""The way of a sound's pitch: bends, releases, slides, vibrato and the bar, each a curve of its own; the sound's is their sum."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from typing import Final

from tabforge.performance import practice
from tabforge.performance.making import BEGINS, Making, Piece
from tabforge.performance.model import BendPoint

Curve = list[tuple[int, float]]
"""Ticks after the start, ascending, and cents; a straight line between two, level before the first and after the last."""

Shape = Callable[[Making, Piece, int], Curve]
"""The curve a mark gives a sound of so many ticks."""

_WAVE: Final = 8
"""Points of one wave of a vibrato."""


def _moving(sound: Making, ticks: int) -> int:
    return max(1, int(min(practice.BEND_MS * sound.millisecond, practice.BEND_SHARE * ticks)))


def _cents(piece: Piece) -> float:
    return float(piece.mark.amount or 0) * 200


def _bend(sound: Making, piece: Piece, ticks: int) -> Curve:
    if piece.mark.role not in BEGINS:  # held up from the stroke before, or going on in a later piece of the sound
        return [(0, _cents(piece))] if piece.start <= sound.start else []
    offset = max(0, piece.start - sound.start)
    return [(offset, 0.0), (offset + _moving(sound, ticks - offset), _cents(piece))]


def _bend_and_release(sound: Making, piece: Piece, ticks: int) -> Curve:
    back = int(practice.RELEASE_AT * ticks)
    return [(0, 0.0), (_moving(sound, ticks), _cents(piece)), (back, _cents(piece)), (back + _moving(sound, ticks), 0.0)]


def _bent_before(sound: Making, piece: Piece, ticks: int) -> Curve:
    return [(0, _cents(piece))] if piece.start <= sound.start else []


def _bent_before_and_released(sound: Making, piece: Piece, ticks: int) -> Curve:
    back = int(practice.RELEASE_AT * ticks)
    return [(0, _cents(piece)), (back, _cents(piece)), (back + _moving(sound, ticks), 0.0)]


def _vibrato(sound: Making, piece: Piece, ticks: int) -> Curve:
    """Up and back, from the piece that has the mark to the end of the sound or to where another begins."""
    depth = practice.VIBRATO[piece.mark.technique.name]
    start = max(0, piece.start - sound.start)
    if any(other.mark.technique is piece.mark.technique and other.start < piece.start for other in sound.marks):
        return []  # one wave for the whole sound
    step = 1000 / practice.VIBRATO_HZ / _WAVE * sound.millisecond
    waves = max(1, int((ticks - start) / (step * _WAVE)))
    step = min(step, (ticks - start) / _WAVE)
    heights = [depth * (1 - math.cos(2 * math.pi * point / _WAVE)) / 2 for point in range(_WAVE)]
    curve = [(start + round(step * point), heights[point % _WAVE]) for point in range(waves * _WAVE + 1)]
    return list(dict(curve).items())


def _slide(sound: Making, piece: Piece, ticks: int) -> Curve:
    """Towards the next sound of the string, at the end of this one."""
    if piece.mark.role not in BEGINS or sound.following is None:
        return []
    moving = max(1, int(min(practice.SLIDE_MS * sound.millisecond, practice.SLIDE_SHARE * ticks)))
    return [(ticks - moving, 0.0), (ticks, float((sound.following.midi - sound.midi) * 100 + sound.following.cents - sound.cents))]


def _nowhere(sound: Making, direction: int) -> float:
    """Cents to where a slide comes from or goes: some frets off, or to the nut; a half step below an open string."""
    if direction < 0 and sound.fret < 1:
        return -100.0
    there = max(0, sound.fret + direction * practice.NOWHERE_FRETS)
    return sound.section.half_steps(sound.string, sound.fret, there) * 100.0


def _slide_in(direction: int) -> Shape:
    def shape(sound: Making, piece: Piece, ticks: int) -> Curve:
        moving = max(1, int(min(practice.SLIDE_MS * sound.millisecond, practice.SLIDE_SHARE * ticks)))
        return [(0, _nowhere(sound, direction)), (moving, 0.0)]

    return shape


def _slide_out(direction: int) -> Shape:
    def shape(sound: Making, piece: Piece, ticks: int) -> Curve:
        moving = max(1, int(min(practice.SLIDE_MS * sound.millisecond, practice.SLIDE_SHARE * ticks)))
        return [(ticks - moving, 0.0), (ticks, _nowhere(sound, direction))]

    return shape


def _dip(sound: Making, piece: Piece, ticks: int) -> Curve:
    half = max(1, int(min(practice.DIP_MS * sound.millisecond, 0.8 * ticks) / 2))
    return [(0, 0.0), (half, practice.DIP), (2 * half, 0.0)]


def _scrape(sound: Making, piece: Piece, ticks: int) -> Curve:
    return [(0, 0.0), (ticks, practice.SCRAPE)]


SHAPES: Final[dict[str, Shape]] = {
    "bend": _bend,
    "bend and release": _bend_and_release,
    "pre-bend": _bent_before,
    "pre-bend and release": _bent_before_and_released,
    "vibrato": _vibrato,
    "wide vibrato": _vibrato,
    "legato slide": _slide,
    "shift slide": _slide,
    "slide in from below": _slide_in(-1),
    "slide in from above": _slide_in(1),
    "slide out upward": _slide_out(1),
    "slide out downward": _slide_out(-1),
    "vibrato bar dip": _dip,
    "string scrape": _scrape,
}
"""Techniques that move the pitch."""


def value_at(curve: Sequence[tuple[int, float]], tick: float) -> float:
    """The height of a curve at a tick."""
    before = curve[0]
    for point in curve:
        if point[0] > tick:
            if before[0] > tick:
                return before[1]
            return before[1] + (point[1] - before[1]) * (tick - before[0]) / (point[0] - before[0])
        before = point
    return before[1]


def curve_of(sound: Making, ticks: int) -> Curve:
    """The sum of a sound's curves; empty where the pitch stands still."""
    curves = []
    for piece in sound.marks:
        shape = SHAPES.get(piece.mark.technique.name)
        curve = shape(sound, piece, ticks) if shape is not None else []
        if curve:
            curves.append(curve)
    if len(curves) < 2:
        return curves[0] if curves else []
    turns = sorted({tick for curve in curves for tick, _ in curve})
    return [(turn, sum(value_at(curve, turn) for curve in curves)) for turn in turns]


def stretch(curve: Curve, start: int, ticks: int) -> tuple[BendPoint, ...]:
    """The part of a curve from ``start`` on that lasts ``ticks``, from its own beginning; empty where it is level at nothing."""
    if not curve:
        return ()
    end = start + ticks
    inside = [BendPoint(tick - start, cents) for tick, cents in curve if start < tick < end]
    points = [BendPoint(0, value_at(curve, start)), *inside]
    last = value_at(curve, end)
    if last != points[-1].cents:
        points.append(BendPoint(ticks, last))
    return tuple(points) if any(point.cents for point in points) else ()
