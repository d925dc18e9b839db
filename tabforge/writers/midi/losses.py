"""What a MIDI file says of a study only in part."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.model.events import Event
from tabforge.model.score import Score
from tabforge.performance.model import Performance, Sound
from tabforge.source import NOWHERE
from tabforge.writers.loss import Loss
from tabforge.writers.midi.carried import CARRIED
from tabforge.writers.midi.channels import Channels
from tabforge.writers.midi.wheels import RANGES

TOLD: Final = ("dead note", "pinch harmonic", "rake", "string scrape")
"""Techniques whose sound MIDI has no message for, so that what is heard instead is told."""


def of_marks(score: Score) -> Iterator[Loss]:
    """Marks that are played by something else."""
    for section in score.sections:
        rows = [voice for bar in section.bars for voice in bar.voices]
        rows += [events for backing in section.backing for events in backing.bars]
        for events in rows:
            for event in events:
                if event.marks or any(note.marks for note in event.notes):
                    yield from _of_event(event)


def _of_event(event: Event) -> Iterator[Loss]:
    names = {mark.technique.name for mark in event.marks} | {mark.technique.name for note in event.notes for mark in note.marks}
    if "string scrape" in names:
        names.discard("dead note")  # it is written on one, and heard in its stead
    for name in TOLD:
        if name in names:
            yield Loss(span=event.span, what=name, how=CARRIED[name].how)


def of_way(performance: Performance) -> Iterator[Loss]:
    """Repeats that are too many to be played out."""
    if performance.straight:
        yield Loss(span=NOWHERE, what="repeats and jumps", how="left out: played out, they would make the study too long")


def of_sounds(sounds: Sequence[Sound], channels: dict[str, Channels]) -> Iterator[Loss]:
    """Sounds beyond the keys, and ways of the pitch that no wheel can go."""
    for sound in sounds:
        if not 0 <= sound.midi <= 127:
            yield Loss(span=sound.span, what="a pitch beyond the keys of MIDI", how="left out: keys end at C-1 and G9")
        elif (sound.bend or sound.cents) and channels[sound.part].shared:
            yield Loss(span=sound.span, what=f"a bent note in the {sound.part}", how="played without the bend: its strings share a channel")
        elif any(abs(point.cents + sound.cents) > RANGES[-1] * 100 for point in sound.bend):
            yield Loss(span=sound.span, what="a slide of more than four octaves", how=f"ends {RANGES[-1]} half steps away")
