"""Each string by itself: it rings until it is struck again, and what is left of its sounds becomes final."""

from __future__ import annotations

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterator, Sequence

from tabforge.model.pitch import nearest_midi
from tabforge.performance.curves import curve_of, stretch
from tabforge.performance.making import Making
from tabforge.performance.model import Sound
from tabforge.performance.practice import RING_QUARTERS
from tabforge.performance.strokes import strokes
from tabforge.performance.touches import touch


def sounded(makings: Sequence[Making], harmonies: Sequence[int], divisions: int) -> list[Sound]:
    """The sounds of all parts, in order of time. ``harmonies`` are the ticks, ascending, at which the harmony changes or ends."""
    by_string: defaultdict[tuple[str, int], list[Making]] = defaultdict(list)
    for sound in makings:
        if sound.marks:
            touch(sound)
        by_string[sound.part, sound.string].append(sound)
    found: list[Sound] = []
    for row in by_string.values():
        row.sort(key=_start)
        following: Making | None = None
        for sound in reversed(row):
            sound.following = following
            following = sound
        for sound in row:
            if sound.rings:
                _let_ring(sound, harmonies, divisions)
            if sound.following is not None and sound.following.start > sound.start:
                sound.end = min(sound.end, sound.following.start)
        for sound in row:
            found += _final(sound, divisions)
    found.sort(key=lambda sound: (sound.start, sound.part, sound.string, sound.midi))
    return found


def _start(sound: Making) -> int:
    return sound.start


def _let_ring(sound: Making, harmonies: Sequence[int], divisions: int) -> None:
    place = bisect_right(harmonies, sound.start)
    over = harmonies[place] if place < len(harmonies) else sound.end
    sound.end = max(sound.end, min(over, sound.start + RING_QUARTERS * divisions))


def _final(sound: Making, divisions: int) -> Iterator[Sound]:
    ticks = max(1, sound.end - sound.start)
    velocity = max(1, min(127, round(sound.level)))
    if not sound.marks:
        yield Sound(
            part=sound.part, start=sound.start, ticks=ticks, midi=sound.midi, velocity=velocity, string=sound.string,
            cents=sound.cents, attack=sound.attack, kind=sound.kind, span=sound.span,
        )  # fmt: skip
        return
    curve = curve_of(sound, ticks)
    for stroke in strokes(sound, ticks, divisions):
        midi, cents = nearest_midi(round(sound.midi * 100 + sound.cents + stroke.up))
        yield Sound(
            part=sound.part,
            start=sound.start + stroke.offset,
            ticks=stroke.ticks,
            midi=midi,
            cents=cents,
            velocity=max(1, round(velocity * stroke.share)),
            string=sound.string,
            attack=stroke.attack or sound.attack,
            kind=sound.kind,
            bend=stretch(curve, stroke.offset, stroke.ticks),
            span=sound.span,
        )
