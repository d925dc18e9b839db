"""Tracks: the conductor's, one for each part, one for the clicks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from tabforge.performance.model import Click, MeterPoint, Performance, Sound, TempoPoint
from tabforge.writers.midi.channels import Channels
from tabforge.writers.midi.chunks import CENTRE, ORDER_BITS, PERCUSSION, Meta, Moment, Order, control, meta, moment, wheel, words
from tabforge.writers.midi.wheels import positions

_WOOD: Final = {True: (76, 110), False: (77, 84)}
"""Accent → key and velocity of a click: high and low wood block of the General MIDI level 1 percussion map (from memory)."""

_EXPRESSION: Final = 11
_SWELL_STEPS: Final = 32


def conductor(performance: Performance) -> Iterator[Moment]:
    """Title, tempo, meters and keys, markers and chord symbols."""
    if performance.title:
        yield moment(0, Order.SETUP, words(Meta.NAME, performance.title))
    for tempo in performance.tempos:
        yield moment(tempo.tick, Order.SETUP, _tempo(tempo))
    for meter in performance.meters:
        yield moment(meter.tick, Order.SETUP, _meter(meter))
        yield moment(meter.tick, Order.SETUP, meta(Meta.KEY, bytes((meter.fifths & 0xFF, int(meter.minor)))))
    for text in performance.texts:
        if text.kind in {"marker", "chord"}:
            kind = Meta.MARKER if text.kind == "marker" else Meta.TEXT
            yield moment(text.tick, Order.SET, words(kind, text.text))


def _tempo(tempo: TempoPoint) -> bytes:
    """Microseconds a quarter note, three bytes."""
    microseconds = max(1, min(0xFFFFFF, round(60_000_000 / tempo.quarters)))
    return meta(Meta.TEMPO, microseconds.to_bytes(3, "big"))


def _meter(meter: MeterPoint) -> bytes:
    """Numerator, denominator as a power of two, MIDI clocks (24 a quarter note) a click, thirty-seconds a quarter note."""
    clocks = max(1, 96 // meter.unit * (3 if meter.unit >= 8 and meter.beats > 3 and meter.beats % 3 == 0 else 1))
    return meta(Meta.METER, bytes((min(255, meter.beats), meter.unit.bit_length() - 1, clocks, 8)))


def lyrics(performance: Performance) -> Iterator[Moment]:
    """Words, in the track of the line."""
    for text in performance.texts:
        if text.kind == "lyric":
            yield moment(text.tick, Order.SET, words(Meta.LYRIC, text.text))


def setup(name: str, channels: Channels, program: int, half_steps: int, swells: bool) -> Iterator[Moment]:
    """A part's name; for each of its channels program, range of the wheel, wheel at rest, expression full where it will be used.

    Registered parameter 0 is the range, in half steps and cents; number 127, 127 closes it (MIDI 1.0).
    """
    yield moment(0, Order.SETUP, words(Meta.NAME, name))
    for channel in channels.numbers:
        for number, value in ((101, 0), (100, 0), (6, half_steps), (38, 0), (101, 127), (100, 127)):
            yield moment(0, Order.SETUP, control(channel, number, value))
        yield moment(0, Order.SETUP, bytes((0xC0 | channel, program - 1)))
        yield moment(0, Order.SETUP, wheel(channel, CENTRE))
        if swells:
            yield moment(0, Order.SETUP, control(channel, _EXPRESSION, 127))


def notes(sounds: Sequence[Sound], channels: Channels, half_steps: int) -> list[Moment]:
    """Notes with the wheel and the expression pedal on their way.

    A key that is struck while it sounds on its channel is let go first; of two struck at once one is enough.
    """
    found: list[Moment] = []
    add = found.append
    on, off = int(Order.ON), int(Order.OFF)
    for sound, end in _without_overlaps(sounds, channels):
        channel = channels.of(sound.string)
        start = sound.start
        if (sound.bend or sound.cents) and not channels.shared:
            at = CENTRE
            for offset, there in positions(sound, half_steps):
                if there != at and start + offset < end:
                    add(moment(start + offset, Order.SET, wheel(channel, there)))
                    at = there
            if at != CENTRE:
                add(moment(end, Order.RESET, wheel(channel, CENTRE)))
        if sound.attack == "swell" and not channels.shared:
            found += _swell(channel, start, end)
        midi = sound.midi
        add((start << ORDER_BITS | on, bytes((0x90 | channel, midi, sound.velocity))))
        add((end << ORDER_BITS | off, bytes((0x80 | channel, midi, 64))))
    return found


def _without_overlaps(sounds: Sequence[Sound], channels: Channels) -> list[tuple[Sound, int]]:
    row = [(sound, sound.start + sound.ticks) for sound in sounds]
    sounding: dict[tuple[int, int], int] = {}
    gone: set[int] = set()
    for place, (sound, end) in enumerate(row):
        key = (channels.of(sound.string), sound.midi)
        before = sounding.get(key)
        sounding[key] = place
        if before is not None and row[before][1] > sound.start:
            earlier, until = row[before]
            if earlier.start == sound.start:
                gone.add(place)
                row[before] = (earlier, max(until, end))
                sounding[key] = before
            else:
                row[before] = (earlier, sound.start)
    return [each for place, each in enumerate(row) if place not in gone] if gone else row


def _swell(channel: int, start: int, end: int) -> Iterator[Moment]:
    """From silence to full at the middle of the sound."""
    half = (end - start) // 2
    steps = max(1, min(_SWELL_STEPS, half))
    yield moment(start, Order.SET, control(channel, _EXPRESSION, 0))
    for step in range(1, steps + 1):
        order = Order.SET if half else Order.ON
        yield moment(start + half * step // steps, order, control(channel, _EXPRESSION, 127 * step // steps))


def click_track(clicks: Sequence[Click], division: int) -> Iterator[Moment]:
    """Clicks as wood blocks on the channel of percussion."""
    yield moment(0, Order.SETUP, words(Meta.NAME, "Click"))
    short = max(1, division // 16)
    for click in clicks:
        key, velocity = _WOOD[click.accent]
        yield moment(click.tick, Order.ON, bytes((0x90 | PERCUSSION, key, velocity)))
        yield moment(click.tick + short, Order.OFF, bytes((0x80 | PERCUSSION, key, 64)))
