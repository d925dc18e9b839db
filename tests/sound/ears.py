"""Performances made by hand, and ways to measure what came of them that know nothing of how it was made."""

from __future__ import annotations

import io
import wave
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from tabforge.performance.model import Click, MeterPoint, Passage, Performance, Sound, TempoPoint

RATE = 44_100
DIVISIONS = 480
BAR = 4 * DIVISIONS

Wave = NDArray[np.float64]


def sound(midi: int, quarter: float, quarters: float = 1.0, **more: object) -> Sound:
    """A sound of the line, placed by quarter notes."""
    given: dict[str, object] = {"part": "line", "velocity": 90, "string": 3} | more
    return Sound(start=round(quarter * DIVISIONS), ticks=round(quarters * DIVISIONS), midi=midi, **given)  # type: ignore[arg-type]


def performance(
    sounds: Sequence[Sound], *, bars: int = 1, count_in: int = 0, tempo: float = 120.0, tempos: Sequence[TempoPoint] = (),
    click: bool = False, program: int = 26,
) -> Performance:
    """Bars of 4/4; sounds are placed from the first bar after the count-in, which is moved in here."""
    lead = count_in * BAR
    moved = [Sound(**{name: getattr(each, name) for name in Sound.__dataclass_fields__} | {"start": each.start + lead}) for each in sounds]
    clicks = [Click(beat * DIVISIONS, beat % 4 == 0, beat < 4 * count_in) for beat in range(4 * (bars + count_in))]
    return Performance(
        title="Lantern Bay", divisions=DIVISIONS, ticks=lead + bars * BAR, program=program, strings=6, sounds=tuple(moved),
        clicks=tuple(each for each in clicks if each.counting or click), tempos=tuple(tempos) or (TempoPoint(0, tempo),),
        meters=(MeterPoint(0, 4, 4, 0),), texts=(), passages=(Passage(0, lead, lead + bars * BAR),),
    )  # fmt: skip


def read_wav(data: bytes) -> Wave:
    """A WAV file as the standard library reads it."""
    with wave.open(io.BytesIO(data)) as file:
        assert (file.getframerate(), file.getnchannels(), file.getsampwidth()) == (RATE, 1, 2)
        return np.frombuffer(file.readframes(file.getnframes()), "<i2") / 32768


def piece(signal: Wave, start: float, seconds: float) -> Wave:
    """From a second on, for so many."""
    return signal[round(start * RATE) : round((start + seconds) * RATE)]


def pitch(signal: Wave, near: float) -> float:
    """The frequency of the strongest spectral peak within a half step of ``near`` hertz.

    A Gaussian window makes the peak a parabola in decibels, so three points of a padded spectrum give its top (textbook, no source).
    """
    time = (np.arange(len(signal)) - len(signal) / 2) / (len(signal) / 2)
    size = 1 << 19
    spectrum = np.log(np.abs(np.fft.rfft(signal * np.exp(-8 * time**2), size)) + 1e-30)
    low, high = (round(near * 2 ** (side / 24) * size / RATE) for side in (-1, 1))
    top = low + int(np.argmax(spectrum[low : high + 1]))
    before, here, after = spectrum[top - 1 : top + 2]
    return float((top + (before - after) / (2 * (before - 2 * here + after))) * RATE / size)


def cents(heard: float, wanted: float) -> float:
    """How much higher one frequency is than another."""
    return float(1200 * np.log2(heard / wanted))


def onsets(signal: Wave, least: float = 0.02) -> list[float]:
    """Seconds at which energy sets in: the mean square of the next millisecond is far above what any part of the twelve before it had.

    Twelve, because within a period of a low string energy comes and goes.
    """
    step = RATE // 2000
    power = (signal[: len(signal) // step * step].reshape(-1, step) ** 2).mean(1)
    found: list[float] = []
    for place in range(24, len(power) - 2):
        after, before = power[place : place + 2].mean(), power[place - 24 : place].max()
        if after > least**2 and after > 3 * before and (not found or place * step / RATE - found[-1] > 0.05):
            found.append(place * step / RATE)
    return found
