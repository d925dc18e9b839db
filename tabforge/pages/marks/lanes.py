"""What is told in a line over TAB: words, words with dashes to where they end, wavy lines."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.pages.board import Board
from tabforge.pages.fonts import DESCENT
from tabforge.pages.marks.legato import said
from tabforge.pages.marks.reaches import Reach
from tabforge.pages.shapes import Shape, line, together, wave, words
from tabforge.pages.stage import Spot, Stage
from tabforge.writers.musicxml.extents import roman

TAPS: Final = 2
HARMONICS: Final = 3
WAVES: Final = 4
TOLD: Final = 5
MUTED: Final = 6
RINGING: Final = 7
BARRES: Final = 8
"""How near to the strings a family stands, after bends and letters."""

_SIZE: Final = 285.0
_HOOK: Final = 90.0
_BEFORE: Final = 60.0
"""Size of words, depth of the hook that ends a dashed line, room between the words and the line."""


def _foot(told: str) -> float:
    """How far words reach below their base line."""
    return DESCENT * _SIZE if any(char in "gjpqy()" for char in told) else 0.0


def _line_of(stage: Stage, board: Board, reach: Reach, rank: int, told: str, left: float, right: float | None, hook: bool) -> None:
    """Words at a place, with dashes to ``right`` if given."""
    width = stage.fonts.width(told, italic=True) * _SIZE
    begins = left + width + (_BEFORE if told else 0)
    dashed = right is not None and right > begins + 70
    end = right if dashed and right is not None else left + width
    foot = _foot(told)
    height = _SIZE * 0.7 + foot
    below = reach.below
    if not dashed:  # words stay clear of the bar line
        left = end = max(min(left, reach.first.bar_right - width - 40), reach.first.bar_left + 40)
        end += width

    def draw(level: float) -> Shape:
        base = (level + height if below else level) - foot
        shapes = [words(stage.fonts, told, left, base, _SIZE, italic=True)] if told else []
        if dashed:
            y = base - 0.3 * _SIZE
            shapes.append(line(begins, y, end, y, dashed=True))
            if hook:
                shapes.append(line(end, y - 8, end, y + (-_HOOK if below else _HOOK) * 0.7))
        return together(shapes)

    board.stack(rank, reach.name, left, end, height, draw, below=below)


def extent(told: str, rank: int) -> Callable[[Stage, Reach], None]:
    """Words and dashes as far as the mark reaches; words alone for one event. After a turn of the line they are said again in brackets."""

    def draw(stage: Stage, reach: Reach) -> None:
        if reach.further:
            return
        several = reach.first is not reach.last
        for board, left, right, begins, ends in stage.stretches(reach.first, reach.last):
            text = told if begins else f"({told})"
            _line_of(stage, board, reach, rank, text, left, right if several else None, ends)

    return draw


def barre(sign: str) -> Callable[[Stage, Reach], None]:
    """A barre: a letter and the fret as a roman numeral, as players write it (common practice, no source), with dashes to its end."""

    def draw(stage: Stage, reach: Reach) -> None:
        extent(f"{sign} {roman(int(reach.mark.amount or 0))}", BARRES)(stage, reach)

    return draw


def told_at(told: str, rank: int = TOLD) -> Callable[[Stage, Reach], None]:
    """Words at the event."""

    def draw(stage: Stage, reach: Reach) -> None:
        if not reach.further:
            _line_of(stage, stage.boards[reach.first.system], reach, rank, told, reach.first.left, None, False)

    return draw


def has(spot: Spot, name: str) -> bool:
    """Whether an event, or a note of it, has a technique."""
    event = spot.event
    return any(mark.technique.name == name for marks in (event.marks, *(note.marks for note in event.notes)) for mark in marks)


def touched(letters: str) -> Callable[[Stage, Reach], None]:
    """A harmonic with the fret that is touched or tapped."""

    def draw(stage: Stage, reach: Reach) -> None:
        head = reach.head
        if head is not None and not reach.further:
            fret = reach.first.event.notes[head.note].fret + int(reach.mark.amount or 0)
            before = stage.before(reach.first)
            again = before is not None and before.system == reach.first.system and has(before, reach.name)
            told = f"({fret})" if again else f"{letters} ({fret})"
            _line_of(stage, stage.boards[reach.first.system], reach, HARMONICS, told, reach.first.left, None, False)

    return draw


def tapped(letters: str) -> Callable[[Stage, Reach], None]:
    """Letters over the number."""

    def draw(stage: Stage, reach: Reach) -> None:
        if not reach.further:
            said(stage, stage.boards[reach.first.system], reach, letters, reach.first.x, TAPS)

    return draw


def shaken(height: float, length: float) -> Callable[[Stage, Reach], None]:
    """A wavy line as long as the note. A chord whose notes are all shaken has one."""

    def draw(stage: Stage, reach: Reach) -> None:
        if not reach.further:
            last = stage.last_of(reach.last, reach.string)
            for board, left, right, _, _ in stage.stretches(reach.first, last):
                _wave(board, reach, left, right, height, length)

    return draw


def _wave(board: Board, reach: Reach, left: float, right: float, height: float, length: float) -> None:
    count = max(2, int((right - left) / length))
    end = left + count * length
    below = reach.below
    tall = height + 30

    def draw(level: float) -> Shape:
        return wave(left, end, level + tall / 2 if below else level - tall / 2, height, length)

    board.stack(WAVES, reach.name, left, end, tall, draw, below=below)


def trill(stage: Stage, reach: Reach) -> None:
    """The fret to alternate with, and a wavy line."""
    head = reach.head
    if head is None or reach.further:
        return
    told = f"tr ({reach.first.event.notes[head.note].fret + int(reach.mark.amount or 0)})"
    width = stage.fonts.width(told, italic=True) * _SIZE
    last = stage.last_of(reach.last, reach.string)
    for board, left, right, begins, _ in stage.stretches(reach.first, last):
        if begins:
            _trill(stage, board, reach, told, left, max(right, left + width), width)
        else:
            _wave(board, reach, left, right, 70, 120)


def _trill(stage: Stage, board: Board, reach: Reach, told: str, left: float, right: float, width: float) -> None:
    start = left + width + _BEFORE
    count = int((right - start) / 120)
    foot = _foot(told)
    height = _SIZE * 0.7 + foot

    def draw(level: float) -> Shape:
        base = (level + height if reach.below else level) - foot
        shapes = [words(stage.fonts, told, left, base, _SIZE, italic=True)]
        if count > 1:
            shapes.append(wave(start, start + count * 120, base - 0.3 * _SIZE, 70, 120))
        return together(shapes)

    end = start + count * 120 if count > 1 else left + width
    board.stack(WAVES, reach.name, left, end, height, draw, below=reach.below)
