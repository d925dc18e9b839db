"""Bytes of a Standard MIDI File (MIDI 1.0 with Standard MIDI Files 1.0, both by the MIDI Association; from memory)."""

from __future__ import annotations

from collections.abc import Iterable
from enum import IntEnum
from operator import itemgetter
from struct import pack
from typing import Final


class Order(IntEnum):
    """What comes first of all that happens at one tick: what ends, then what is set anew, then what begins."""

    SETUP = 0
    OFF = 1
    RESET = 2
    SET = 3
    ON = 4


ORDER_BITS: Final = 3
"""Bits that an order takes."""

Moment = tuple[int, bytes]
"""A number that grows with the tick and, at one tick, with the order; and the message. Plain tuples are quick to make and sort."""


def moment(tick: int, order: Order, data: bytes) -> Moment:
    """A message at a tick."""
    return (tick << ORDER_BITS | order, data)


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


_SHORT: Final = tuple(bytes((number,)) for number in range(0x80))


def varied(number: int) -> bytes:
    """A variable-length quantity: seven bits a byte, the highest first, all but the last with bit 7 set. At most 0x0FFFFFFF."""
    if number < 0x80:
        return _SHORT[number]
    if number < 0x4000:
        return bytes((number >> 7 | 0x80, number & 0x7F))
    return _before_last(number >> 7) + _SHORT[number & 0x7F]


def _before_last(number: int) -> bytes:
    """The bytes of a quantity before its last."""
    before = _before_last(number >> 7) if number >> 7 else b""
    return before + bytes((number & 0x7F | 0x80,))


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


_LONGEST: Final = 0x0FFFFFFF
"""The longest time between two messages: four bytes of seven bits."""


def _waiting(ticks: int) -> list[bytes]:
    """Empty texts that pass a time longer than the longest, as many as go into it whole."""
    return [varied(_LONGEST) + meta(Meta.TEXT, b"")] * (ticks // _LONGEST)


def track(moments: Iterable[Moment], end: int) -> bytes:
    """A track chunk. It ends at tick ``end``, or with its last message."""
    out: list[bytes] = []
    add = out.append
    last = 0
    for when, data in sorted(moments, key=itemgetter(0)):
        tick = when >> ORDER_BITS
        if tick - last > _LONGEST:
            out += _waiting(tick - last)
            last += (tick - last) // _LONGEST * _LONGEST
        add(varied(tick - last))
        add(data)
        last = tick
    out += _waiting(max(0, end - last))
    add(varied(max(0, end - last) % _LONGEST) + meta(Meta.END, b""))
    body = b"".join(out)
    return b"MTrk" + pack(">I", len(body)) + body


def file_of(tracks: Iterable[bytes], division: int) -> bytes:
    """Header and tracks."""
    row = list(tracks)
    return header(len(row), division) + b"".join(row)
