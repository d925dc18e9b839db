"""Second parts in words: all there is to know of a drone and of a vamp, without a tab of their own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain

from tabforge.fretboard.gripped import shape_text
from tabforge.model.events import Event
from tabforge.model.score import Backing, Section
from tabforge.writers.ascii.context import Context
from tabforge.writers.ascii.plain import wrap
from tabforge.writers.ascii.rhythm import spoken_length


def backing_in_words(section: Section, context: Context) -> list[str]:
    """A line or two for each second part of a section that is to be printed."""
    lines: list[str] = []
    for part, told in shown_backing(section, context.divisions):
        lines += wrap(context.words(told, f"the {part.kind}", part.span), context.options.width, 2)
    return lines


def shown_backing(section: Section, divisions: int) -> Iterator[tuple[Backing, str]]:
    """Each second part of a section that is to be printed, with a line of words that tell it; a vamp has a second line for its grips."""
    strings = len(section.tuning)
    for part in section.backing:
        if part.shown:
            for told in _drone(part, strings) if part.kind == "drone" else _vamp(part, strings, divisions):
                yield part, told


def _drone(part: Backing, strings: int) -> Iterator[str]:
    """The notes of a drone from the lowest and their grip, each time they change."""
    struck = [f"{_notes(event)} ({_grip(event, strings)})" for event in _struck(part.bars)]
    told = [notes for index, notes in enumerate(struck) if index == 0 or notes != struck[index - 1]]
    yield f"Drone: {', then '.join(told)}, {f'struck every {part.every}' if part.every else 'held'}"


def _vamp(part: Backing, strings: int, divisions: int) -> Iterator[str]:
    """The chords of a vamp bar by bar, once around if it goes around, and their grips."""
    grips: dict[str, str] = {}
    shown = [_bar(cells, divisions) for cells in _cells(part.bars, strings, grips)]
    first = "rest, then " if shown[0] == "rest" and len(shown) > 1 else ""
    shown = shown[1:] if first else shown
    turn = next((size for size in range(1, len(shown)) if all(bar == shown[at % size] for at, bar in enumerate(shown))), 0)
    once = " | ".join(shown[:turn] if turn else shown)
    yield f"Vamp: {first}{once}{', again and again' if turn else ''}{f', struck every {part.every}' if part.every else ''}"
    if grips:
        yield f"Grips of the vamp: {', '.join(f'{name} {grip}' for name, grip in grips.items())}"


def _cells(bars: Sequence[Sequence[Event]], strings: int, grips: dict[str, str]) -> Iterator[list[tuple[str, int]]]:
    """The chords of each bar with their ticks; a dot for what sounds on from the bar before. ``grips`` takes the grip of each."""
    name = ""
    for events in bars:
        cells: list[tuple[str, int]] = []
        for event in events:
            name = event.attached.chord.text if event.attached.chord is not None else name
            text = "rest" if not event.notes else "." if all(note.tied_in for note in event.notes) else name
            if text == name:
                grips.setdefault(name, _grip(event, strings))
            if cells and text in (".", cells[-1][0]):
                cells[-1] = cells[-1][0], cells[-1][1] + event.ticks
            else:
                cells.append((text, event.ticks))
        yield cells


def _bar(cells: Sequence[tuple[str, int]], divisions: int) -> str:
    """A bar of chords: how long each lasts stands behind it, where there are several."""
    if len(cells) == 1:
        return cells[0][0]
    return " ".join(f"{text} ({spoken_length(Fraction(ticks, divisions))})" for text, ticks in cells)


def _struck(bars: Sequence[Sequence[Event]]) -> Iterator[Event]:
    return (event for event in chain.from_iterable(bars) if event.notes and not all(note.tied_in for note in event.notes))


def _grip(event: Event, strings: int) -> str:
    frets = {note.string: note.fret for note in event.notes}
    return shape_text(tuple(frets.get(string) for string in range(strings, 0, -1)))


def _notes(event: Event) -> str:
    return " ".join(str(note.pitch) for note in sorted(event.notes, key=lambda note: (note.pitch.midi, note.pitch.cents)))
