"""Bytes of a Standard MIDI File (MIDI 1.0 with Standard MIDI Files 1.0, both by the MIDI Association; from memory)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import IntEnum
from struct import pack
from typing import Final, NamedTuple


class Order(IntEnum):
    """What comes first of all that happens at one tick: what ends, then what is set anew, then what begins."""

    SETUP = 0
    OFF = 1
    RESET = 2
    SET = 3
    ON = 4


class Moment(NamedTuple):
    """A message and when it is sent; sorts by tick, then by what kind it is."""

    tick: int
    order: int
    data: bytes


class Meta(IntEnum):
    """Types of meta events."""

    TEXT = 0x01
    NAME = 0x03
    LYRIC = 0x05
    MARKER = 0x06
    END = 0x2F
    TEMPO = 0x51
    METER = 0x58
    KEY = 0x59


CENTRE: Final = 8192
"""The pitch wheel at rest."""

PERCUSSION: Final = 9
"""Channel 10 as musicians count: percussion in General MIDI."""


def varied(number: int) -> bytes:
    """A variable-length quantity: seven bits a byte, the highest first, all but the last with bit 7 set. At most 0x0FFFFFFF."""
    if number < 0x80:
        return bytes((number,))
    found = bytearray((number & 0x7F,))
    while number := number >> 7:
        found.insert(0, number & 0x7F | 0x80)
    return bytes(found)


def meta(kind: Meta, data: bytes) -> bytes:
    """A meta event."""
    return bytes((0xFF, kind)) + varied(len(data)) + data


def words(kind: Meta, text: str) -> bytes:
    """A meta event of text. The standard asks for no more than ASCII and allows other encodings; ours is UTF-8."""
    return meta(kind, text.encode("utf-8", "replace"))


def control(channel: int, number: int, value: int) -> bytes:
    """A control change."""
    return bytes((0xB0 | channel, number, value))


def wheel(channel: int, value: int) -> bytes:
    """A pitch bend change, 0 to 16383: seven bits and seven bits, the lower first."""
    return bytes((0xE0 | channel, value & 0x7F, value >> 7))


def header(tracks: int, division: int) -> bytes:
    """The header chunk of a format 1 file; ``division`` ticks a quarter note, at most 32767."""
    return b"MThd" + pack(">IHHH", 6, 1, tracks, division)


def track(moments: Sequence[Moment], end: int) -> bytes:
    """A track chunk. It ends at tick ``end``, or with its last message."""
    out: list[bytes] = []
    last = 0
    for tick, _, data in sorted(moments, key=_when):
        out.append(varied(tick - last))
        out.append(data)
        last = tick
    out.append(varied(max(0, end - last)) + meta(Meta.END, b""))
    body = b"".join(out)
    return b"MTrk" + pack(">I", len(body)) + body


def _when(moment: Moment) -> int:
    return moment[0] * len(Order) + moment[1]


def file_of(tracks: Iterable[bytes], division: int) -> bytes:
    """Header and tracks."""
    row = list(tracks)
    return header(len(row), division) + b"".join(row)
