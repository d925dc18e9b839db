"""From a performance to the files of its practice tracks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from tabforge.limits import MAX_RUNG_SECONDS, MAX_TIMES, MAX_TRACK_SECONDS
from tabforge.performance.model import Performance
from tabforge.sound.arrays import RATE
from tabforge.sound.encode import encode
from tabforge.sound.level import decibels, level
from tabforge.sound.mix import Strings
from tabforge.sound.options import CLICK, HIGHEST_A4, LOWEST_A4, STEMS, TrackOptions
from tabforge.sound.rungs import Rung, first_tick, play_rung, rung_of

if TYPE_CHECKING:
    from tabforge.sound.arrays import Samples


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """A file that was made. ``stem`` is the part it holds alone, None for all together; ``percent`` its rung, None for the whole ladder.

    ``seconds`` is its length, ``peak`` its highest sample in dB under full scale.
    """

    stem: str | None
    percent: float | None
    data: bytes
    seconds: float
    peak: float


def heard(performance: Performance, options: TrackOptions) -> tuple[str, ...]:
    """The parts that there are and that are wanted."""
    present = {sound.part for sound in performance.sounds} | ({CLICK} if performance.clicks else set())
    return tuple(part for part in STEMS if part in present and part in options.parts)


def refusal(performance: Performance, options: TrackOptions) -> str | None:
    """Why no tracks are made of this, in a sentence or two; None if they are."""
    if not LOWEST_A4 <= options.a4 <= HIGHEST_A4:
        return f"A4 is tuned to {LOWEST_A4:g} to {HIGHEST_A4:g} Hz, not to {options.a4:g}."
    if not 1 <= options.times <= MAX_TIMES:
        return f"Each rung is played 1 to {MAX_TIMES} times, not {options.times}."
    if performance.ticks <= first_tick(performance) or not heard(performance, options):
        return "There is nothing to hear in it."
    rungs = _rungs(performance, options)
    longest = max(rungs, key=lambda rung: rung.samples)
    if longest.samples > MAX_RUNG_SECONDS * RATE:
        return (
            f"One rung, at {longest.percent:g} % of the tempo, would last {spoken(longest.samples / RATE)}; the most is "
            f"{spoken(MAX_RUNG_SECONDS)}. Take one block of the study, or fewer repeats."
        )
    total = sum(rung.samples for rung in rungs) / RATE
    if not options.split and total > MAX_TRACK_SECONDS:
        return (
            f"The whole ladder would last {spoken(total)}; the most in one file is {spoken(MAX_TRACK_SECONDS)}. "
            "Write a file for each rung, or take fewer rungs or repeats."
        )
    return None


def spoken(seconds: float) -> str:
    """A length as it is told: 2:05 min."""
    whole = round(seconds)
    return f"{whole // 60}:{whole % 60:02} min"


def tracks(performance: Performance, options: TrackOptions) -> Iterator[Track]:
    """The tracks one by one: all parts together, then each stem if wanted; with ``split`` all of one rung before the next.

    Every rung has the same times in every file, so stems can be laid over one another. Raises ValueError for what ``refusal`` refuses.
    """
    why = refusal(performance, options)
    if why:
        raise ValueError(why)
    strings = Strings(performance.program, options.a4)
    parts = heard(performance, options)
    rungs = _rungs(performance, options)
    stems: list[str | None] = [None, *(parts if options.stems else ())]
    for group in [[rung] for rung in rungs] if options.split else [rungs]:
        for stem in stems:
            made = encode(options.form, _levelled(performance, group, parts if stem is None else (stem,), strings))
            yield Track(
                stem=stem, percent=group[0].percent if options.split else None, data=made.data, seconds=made.samples / RATE,
                peak=decibels(made.peak),
            )  # fmt: skip


def _rungs(performance: Performance, options: TrackOptions) -> list[Rung]:
    return [rung_of(performance, percent, options.times) for percent in options.ladder]


def _levelled(performance: Performance, rungs: Sequence[Rung], parts: tuple[str, ...], strings: Strings) -> Iterator[Samples]:
    for rung in rungs:
        wave = play_rung(performance, rung, parts, strings)
        level(wave)
        yield wave
