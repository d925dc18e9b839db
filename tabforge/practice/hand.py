"""What a block asks of the fretting hand: wide stretches, and ways along the neck."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Final

from tabforge.check.grips import UNHELD
from tabforge.check.view import has, is_dead
from tabforge.explaining.layout import kept
from tabforge.fretboard.instruments import neck_of
from tabforge.fretboard.neck import Place
from tabforge.fretboard.reach import HAND_FRETS, Stretch, stretch
from tabforge.model.events import Event, Note
from tabforge.model.score import Score, Section
from tabforge.practice.model import Listening

FAR: Final = HAND_FRETS + 1
"""Frets from one fretted note to the next that take the whole hand along."""


def hand_points(score: Score, section: Section) -> Iterator[Listening]:
    """What to listen and look for where the hand stretches or moves far; nothing where it stays."""
    widest = _widest(score, section)
    if widest is not None:
        yield Listening(
            "stretch",
            f"{kept(f'frets {widest.low[1]} to {widest.high[1]}')}, about {widest.mm:.0f} mm: all its notes clear with a relaxed thumb. "
            "If the hand tightens, play it higher up the neck first, or leave it out today.",
        )
    way = _farthest(section)
    if way is not None:
        bar, low, high = way
        yield Listening(
            "position",
            f"the hand's way from fret {low} to fret {high} (bar {bar}): look at the goal before you leave, and let the note before it "
            "have its full length.",
        )


def _widest(score: Score, section: Section) -> Stretch | None:
    neck = neck_of(score.instrument, section.tuning, section.capo, section.fretting)
    shapes = {*_grips(section), *_groups(section)}
    found = [each for each in (stretch(shape, neck) for shape in shapes) if each is not None and each.wide]
    return max(found, key=lambda each: (each.mm, each.low, each.high), default=None)


def _held(notes: Sequence[Note]) -> tuple[Place, ...]:
    return tuple((note.string, note.fret) for note in notes if not has(note, UNHELD))


def _grips(section: Section) -> Iterator[tuple[Place, ...]]:
    for bar in section.bars:
        for voice in bar.voices:
            yield from (_held(event.notes) for event in voice if len(event.notes) > 1)


def _groups(section: Section) -> Iterator[tuple[Place, ...]]:
    """Single notes in a row on one string, no rest between, and no more than a hand has fingers: it lies over them without moving."""
    if any(len(bar.voices) > 1 for bar in section.bars):
        return
    line = [_held(event.notes) for bar in section.bars for event in bar.voices[0] if not _goes_on(event)]
    for _, group in groupby(line, key=lambda places: places[0][0] if len(places) == 1 else 0):
        row = list(group)
        if len(row[0]) == 1 and len(row) <= HAND_FRETS:
            yield tuple(places[0] for places in row)


def _goes_on(event: Event) -> bool:
    return bool(event.notes) and event.notes[0].tied_in


def _farthest(section: Section) -> tuple[int, int, int] | None:
    """The longest way between two fretted notes in turn in the first voice, as the bar of the second, and both frets."""
    best: tuple[int, int, int] | None = None
    before: int | None = None
    for number, bar in enumerate(section.bars, 1):
        for event in bar.voices[0]:
            frets = [note.fret for note in event.notes if note.fret and not is_dead(note)]
            if not frets:
                continue
            now = min(frets)
            if before is not None and abs(now - before) >= (abs(best[2] - best[1]) + 1 if best else FAR):
                best = (number, before, now)
            before = now
    return best
