"""What is heard in a section: which notes of the octave are struck, how often, where first, and which sound on strong beats.

A section is heard in stretches, each with one scale in force. Muffled strokes have no pitch and are passed over.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from typing import NamedTuple

from tabforge.model.events import Note
from tabforge.model.meter import Meter
from tabforge.model.score import Bar, Scale, Section


def _is_dead(note: Note) -> bool:
    return any(mark.technique.name == "dead note" for mark in note.marks)


class Place(NamedTuple):
    """A bar of a section, counted from 1, and ticks from its beginning."""

    bar: int
    onset: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Bars of a section with one scale in force, and what is heard in them.

    ``first_bar`` is the number of the first, counted from 1. ``struck`` has for each pitch class (0 is C) how often it is struck,
    ``begins`` where first. ``strong`` are those that sound, struck or held, where a strong beat falls.
    """

    scale: Scale | None
    first_bar: int
    bars: tuple[Bar, ...]
    struck: dict[int, int] = field(default_factory=dict)
    begins: dict[int, Place] = field(default_factory=dict)
    strong: frozenset[int] = frozenset()

    @property
    def outside(self) -> int:
        """How many of them the scale has not."""
        scale = self.scale
        return sum(times for sound, times in self.struck.items() if scale and (sound - scale.root.midi) % 12 not in scale.offsets)

    @property
    def total(self) -> int:
        """Notes struck in all."""
        return sum(self.struck.values())


@cache
def strong_onsets(meter: Meter, divisions: int) -> frozenset[int]:
    """Ticks from a bar's beginning at which its strong beats fall (common practice, no source).

    The first beat; the first of each group where the meter names groups; each beat of a compound meter; every other beat where an
    even number of them, more than two, is counted (the third of four).
    """
    unit = divisions * 4 // meter.unit
    starts = [0]
    for pulse in meter.pulses[:-1]:
        starts.append(starts[-1] + pulse * unit)
    if len(meter.groups) > 1 or meter.compound:
        return frozenset(starts)
    return frozenset(starts[::2] if len(starts) % 2 == 0 and len(starts) > 2 else starts[:1])


def scales_in_force(section: Section) -> Iterator[tuple[Scale | None, int, tuple[Bar, ...]]]:
    """The scales of a section in turn: each with the number of its first bar, counted from 1, and its bars."""
    scale, first, bars = section.scale, 1, list[Bar]()
    for number, bar in enumerate(section.bars, 1):
        if bar.scale is not None and bars:
            yield scale, first, tuple(bars)
            scale, first, bars = bar.scale, number, []
        bars.append(bar)
    if bars:
        yield scale, first, tuple(bars)


def stretches(section: Section, divisions: int) -> tuple[Stretch, ...]:
    """What is heard in a section, a stretch for each scale in force. ``divisions`` are ticks a quarter note."""
    return tuple(_listen(scale, first, bars, divisions) for scale, first, bars in scales_in_force(section))


def _listen(scale: Scale | None, first: int, bars: tuple[Bar, ...], divisions: int) -> Stretch:
    struck: dict[int, int] = {}
    begins: dict[int, Place] = {}
    strong: set[int] = set()
    for number, bar in enumerate(bars, first):
        beats = strong_onsets(bar.meter, divisions)
        pickup = number == 1 and bar.partial
        for voice in bar.voices:
            for event in voice:
                stressed = not pickup and event.onset in beats
                for note in event.notes:
                    if note.marks and _is_dead(note):
                        continue
                    sound = note.pitch.midi % 12
                    if stressed:
                        strong.add(sound)
                    if note.tied_in:
                        continue
                    struck[sound] = struck.get(sound, 0) + 1
                    if sound not in begins:
                        begins[sound] = Place(number, event.onset)
    return Stretch(scale=scale, first_bar=first, bars=bars, struck=struck, begins=begins, strong=frozenset(strong))
