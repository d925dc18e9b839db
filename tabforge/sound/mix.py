"""Sounds and clicks laid on a line of time."""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from typing import TYPE_CHECKING, Final

from tabforge.performance.model import Click, Sound
from tabforge.sound.arrays import RATE
from tabforge.sound.bending import path_of, warped
from tabforge.sound.click import click_sound
from tabforge.sound.clock import Clock
from tabforge.sound.strings import pluck
from tabforge.sound.timbre import Timbre, loudness, timbre_of, voiced

if TYPE_CHECKING:
    from tabforge.sound.arrays import Samples

RELEASE: Final = 0.06
"""Seconds in which a string is silenced at the end of its sound."""

_CONCERT_A: Final = 69
"""The note number of the A above middle C (MIDI 1.0)."""

_KEPT_BYTES: Final = 96 * 1024 * 1024


def hertz(midi: float, a4: float) -> float:
    """The frequency of a note number in equal temperament."""
    return float(a4 * 2 ** ((midi - _CONCERT_A) / 12))


class Strings:
    """The strings of an instrument, which remember the sounds they have made: like sounds are computed once."""

    def __init__(self, program: int, a4: float) -> None:
        self._program = program
        self._a4 = a4
        self._kept: dict[tuple[float, Timbre, int], Samples] = {}
        self._bytes = 0

    def _plucked(self, hz: float, seconds: float, timbre: Timbre, seed: int) -> Samples:
        key = (hz, timbre, seed)
        count = int(seconds * RATE) + 1
        kept = self._kept.get(key)
        if kept is None or len(kept) < count:
            made = pluck(hz, ceil(4 * count / RATE) / 4 + 1 / RATE, timbre, seed)  # some longer, for the next that lasts a little longer
            if kept is None or len(made) > len(kept):
                self._bytes += made.nbytes - (0 if kept is None else kept.nbytes)
                kept = self._kept[key] = made
            while self._bytes > _KEPT_BYTES and len(self._kept) > 1:
                self._bytes -= self._kept.pop(next(iter(self._kept))).nbytes
        return kept[:count]

    def play(self, sound: Sound, clock: Clock, turn: int) -> Samples:
        """One sound from its start to its end and the string's silencing. Of each sound there are two versions; ``turn`` chooses one."""
        import numpy as np  # noqa: PLC0415

        start = clock.at(sound.start)
        length = max(0.0, clock.at(sound.start + sound.ticks) - start)
        count = max(1, round((length + RELEASE) * RATE))
        timbre = voiced(timbre_of(self._program, sound.part), sound)
        hz = hertz(sound.midi + sound.cents / 100, self._a4)
        seed = sound.midi * 2 + turn % 2
        if sound.bend:
            path = path_of([(clock.at(sound.start + point.tick) - start, point.cents) for point in sound.bend], count)
            wave = warped(self._plucked(hz, float(path[-1]) / RATE + 0.001, timbre, seed), path)
        else:
            wave = self._plucked(hz, count / RATE, timbre, seed)[:count]
        wave = wave * np.float32(loudness(sound.velocity))
        held = round(length * RATE)
        if held < len(wave):
            fade = np.arange(held, len(wave), dtype=np.float32) - np.float32(held)
            wave[held:] *= 0.5 + 0.5 * np.cos(fade * np.float32(np.pi / (RELEASE * RATE)).clip(0, np.pi))
        return wave


def lay(target: Samples, wave: Samples, at: int) -> None:
    """Add a sound to a line of time, as far as it lies on it."""
    skipped = max(0, -at)
    stop = min(len(target), at + len(wave))
    if at + skipped < stop:
        target[at + skipped : stop] += wave[skipped : stop - at]


def lay_sounds(target: Samples, sounds: Iterable[tuple[int, Sound]], strings: Strings, clock: Clock, origin: float) -> None:
    """Add numbered sounds; ``origin`` is the second at which the line of time begins."""
    for turn, sound in sounds:
        lay(target, strings.play(sound, clock, turn), round((clock.at(sound.start) - origin) * RATE))


def lay_clicks(target: Samples, clicks: Iterable[Click], clock: Clock, origin: float) -> None:
    """Add clicks likewise."""
    waves = {accent: click_sound(accent) for accent in (True, False)}
    for click in clicks:
        lay(target, waves[click.accent], round((clock.at(click.tick) - origin) * RATE))
