"""How much faster than real time practice tracks are made, beside the plainest synthesis there is.

    python -m tests.bench.bench_sound

A study of sixteen bars of eighths with a drone and a click. The baseline is numpy alone adding a sine that dies away for each note: what
anything that computes each note anew costs at least. "Ladder": 60 to 120 in steps of 5, each rung twice; strings that have sounded are
remembered. Memory is what Python and numpy had at most (tracemalloc), in bytes a second of sound.
"""

from __future__ import annotations

import random
import time
import tracemalloc
from collections.abc import Callable

import numpy as np

from tabforge.performance.model import Performance
from tabforge.sound.drone import with_drone
from tabforge.sound.options import TrackOptions
from tabforge.sound.tracks import tracks
from tests.sound.ears import BAR, RATE, performance, sound

BARS = 16
TEMPO = 100.0
LADDER = tuple(float(percent) for percent in range(60, 121, 5))


def study(bars: int = BARS) -> Performance:
    """Eighths that wander over three octaves, some hammered or palm-muted."""
    chance = random.Random(7)
    line = []
    for step in range(8 * bars):
        attack, kind = chance.choice((("pick", "note"), ("pick", "note"), ("slur", "note"), ("pick", "muted")))
        line.append(sound(chance.randint(40, 76), step / 2, 0.5, velocity=chance.randint(60, 110), attack=attack, kind=kind))
    return with_drone(performance(line, bars=bars, tempo=TEMPO, click=True, count_in=1), {0: 45}, range(BAR, BAR * (bars + 1), BAR))


def sines(given: Performance) -> None:
    """The baseline: a dying sine for each sound, mixed."""
    second = 60 / TEMPO / given.divisions
    whole = np.zeros(round(given.ticks * second * RATE) + RATE, np.float32)
    for each in given.sounds:
        length = np.arange(round(each.ticks * second * RATE)) / RATE
        start = round(each.start * second * RATE)
        whole[start : start + len(length)] += np.sin(2 * np.pi * 440 * 2 ** ((each.midi - 69) / 12) * length) * np.exp(-2 * length)


def best(run: Callable[[], object], times: int = 5) -> float:
    """The shortest of some runs, in seconds."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        run()
        taken.append(time.perf_counter() - begun)
    return min(taken)


def measure() -> None:
    given = study()
    base = best(lambda: sines(given))
    for label, options in (
        ("one, WAV", TrackOptions()),
        ("one, MP3", TrackOptions(form="mp3")),
        ("ladder, WAV", TrackOptions(ladder=LADDER, times=2)),
        ("ladder, MP3", TrackOptions(ladder=LADDER, times=2, form="mp3")),
    ):
        seconds = sum(track.seconds for track in tracks(given, options))
        spent = best(lambda options=options: list(tracks(given, options)), 3)
        tracemalloc.start()
        list(tracks(given, options))
        peak = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
        music = BARS * 4 * 60 / TEMPO
        print(
            f"{label:<12} {seconds:7.1f} s of sound in {spent:6.3f} s: {seconds / spent:6.0f} times real time, "
            f"{(spent / seconds) / (base / music):5.2f} sine baselines, {peak / seconds / 1000:5.0f} kB a second at peak"
        )
    print(f"sines alone  {music:7.1f} s of sound in {base:6.3f} s: {music / base:6.0f} times real time")


if __name__ == "__main__":
    measure()
