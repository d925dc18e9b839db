"""Standard MIDI File, format 1: what is heard, a channel a string, for players and sequencers.

``write`` performs the score and gives the bytes. The first track is the conductor's; the line has a track with its words; each second part
and the clicks have theirs.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from tabforge.model.score import BACKINGS, Score
from tabforge.performance.model import BendPoint, Performance
from tabforge.performance.perform import LINE, perform
from tabforge.writers.loss import Loss
from tabforge.writers.midi import losses
from tabforge.writers.midi.channels import assigned
from tabforge.writers.midi.chunks import Moment, file_of, track
from tabforge.writers.midi.tracks import click_track, conductor, lyrics, notes, setup
from tabforge.writers.midi.wheels import range_for
from tabforge.writers.options import DEFAULTS, WriteOptions

LARGEST_DIVISION: Final = 0x7FFF
"""Fifteen bits are left for ticks a quarter note (Standard MIDI Files 1.0)."""

_FINE: Final = 480 * 9 * 7
"""Ticks a quarter note where a study's own are too many: what thirds, fifths, sevenths and ninths need. Other times are rounded."""


def write(score: Score, options: WriteOptions = DEFAULTS) -> tuple[bytes, tuple[Loss, ...]]:
    """The score as a MIDI file, and what it could not carry. No option concerns it."""
    performance = _within(perform(score))
    parts = [LINE, *(kind for kind in BACKINGS if any(sound.part == kind for sound in performance.sounds))]
    channels = assigned(parts, performance.strings)
    lost = [
        *losses.of_way(performance),
        *losses.of_marks(score),
        *losses.of_sounds(performance.sounds, channels),
    ]
    tracks = [track(conductor(performance), performance.ticks)]
    names = {LINE: score.instrument.label, **{kind: kind.capitalize() for kind in BACKINGS}}
    half_steps = range_for(performance.sounds)
    for part in parts:
        sounds = [sound for sound in performance.sounds if sound.part == part and 0 <= sound.midi <= 127]
        swells = any(sound.attack == "swell" for sound in sounds)
        moments: list[Moment] = [*setup(names[part], channels[part], performance.program, half_steps, swells)]
        if part == LINE:
            moments += lyrics(performance)
        moments += notes(sounds, channels[part], half_steps)
        tracks.append(track(moments, performance.ticks))
    if performance.clicks:
        tracks.append(track(click_track(performance.clicks, performance.divisions), performance.ticks))
    return file_of(tracks, performance.divisions), tuple(dict.fromkeys(lost))


def _within(performance: Performance) -> Performance:
    """The performance at a division that the format has room for."""
    if performance.divisions <= LARGEST_DIVISION:
        return performance
    old = performance.divisions

    def at(tick: int) -> int:
        return round(tick * _FINE / old)

    return replace(
        performance,
        divisions=_FINE,
        ticks=at(performance.ticks),
        sounds=tuple(
            replace(
                sound,
                start=at(sound.start),
                ticks=max(1, at(sound.start + sound.ticks) - at(sound.start)),
                bend=tuple(BendPoint(at(point.tick), point.cents) for point in sound.bend),
            )
            for sound in performance.sounds
        ),
        clicks=tuple(replace(each, tick=at(each.tick)) for each in performance.clicks),
        tempos=tuple(replace(each, tick=at(each.tick)) for each in performance.tempos),
        meters=tuple(replace(each, tick=at(each.tick)) for each in performance.meters),
        texts=tuple(replace(each, tick=at(each.tick)) for each in performance.texts),
    )
