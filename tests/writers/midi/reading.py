"""Our MIDI files as mido, an independent reader, has them: notes with their times in quarter notes, the wheel in cents."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from io import BytesIO
from typing import Any

import mido


@dataclass
class Key:
    """A note as it was read. ``wheel`` are the positions in cents while it sounds, with the moment of each."""

    track: str
    channel: int
    key: int
    velocity: int
    start: Fraction
    end: Fraction = Fraction(-1)
    wheel: list[tuple[Fraction, float]] = field(default_factory=list)

    @property
    def length(self) -> Fraction:
        return self.end - self.start


@dataclass
class Read:
    """A file as it was read; ``messages`` are all of them in the order of each track, with their times."""

    keys: list[Key]
    messages: list[tuple[Fraction, Any]]
    names: list[str]
    division: int
    ends: list[Fraction]

    def of_type(self, kind: str) -> list[tuple[Fraction, Any]]:
        return [(at, message) for at, message in self.messages if message.type == kind]


def read(data: bytes) -> Read:
    """Reads a file and holds it to the rules on the way: every key that is struck is let go once, and none is struck twice over."""
    file = mido.MidiFile(file=BytesIO(data), charset="utf-8")
    found = Read([], [], [], file.ticks_per_beat, [])
    for track in file.tracks:
        at = 0
        name = ""
        sounding: dict[tuple[int, int], Key] = {}
        cents: dict[int, float] = {}
        ranges: dict[int, int] = {}
        for message in track:
            assert message.time >= 0
            at += message.time
            now = Fraction(at, file.ticks_per_beat)
            found.messages.append((now, message))
            if message.type == "track_name":
                name = message.name
            elif message.type == "control_change" and message.control == 6:
                ranges[message.channel] = message.value
            elif message.type == "pitchwheel":
                cents[message.channel] = message.pitch / 8192 * ranges[message.channel] * 100
                for key in sounding.values():
                    if key.channel == message.channel:
                        key.wheel.append((now, cents[message.channel]))
            elif message.type == "note_on" and message.velocity:
                key = Key(name, message.channel, message.note, message.velocity, now)
                assert (key.channel, key.key) not in sounding
                key.wheel.append((now, cents.get(message.channel, 0.0)))
                sounding[key.channel, key.key] = key
                found.keys.append(key)
            elif message.type in {"note_off", "note_on"}:
                sounding.pop((message.channel, message.note)).end = now
        assert not sounding
        found.names.append(name)
        found.ends.append(Fraction(at, file.ticks_per_beat))
    return found
