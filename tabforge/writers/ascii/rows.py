"""The lines of a system, from top to bottom. A row's number is its place; rows without contents are left out."""

from __future__ import annotations

from typing import Final, NamedTuple


class VoiceRows(NamedTuple):
    """The rows that belong to one voice. ``tuplets`` holds one row for each nesting level, the outermost first."""

    rhythm: int
    tuplets: tuple[int, int, int]
    signs: int
    mute: int
    ring: int
    words: int


DIRECTIONS: Final = 0
"""Tempo and meter at the start of a bar, the repeat count at its end."""
ENDINGS: Final = 1
CHORDS: Final = 2
STRINGS: Final = 20
"""The row of string s is STRINGS + s; there are at most twelve strings."""
PICKING_HAND: Final = 50
FRETTING_HAND: Final = 51

VOICES: Final = (
    VoiceRows(rhythm=9, tuplets=(6, 7, 8), signs=5, mute=4, ring=3, words=52),
    VoiceRows(rhythm=40, tuplets=(43, 42, 41), signs=44, mute=45, ring=46, words=53),
)
"""The rhythm stands next to the strings, innermost tuplets next to the rhythm: above for voice 1, below for voice 2."""

MARGINS: Final = {PICKING_HAND: "RH", FRETTING_HAND: "LH"}
"""What stands at the left of a row. L.H. and R.H. are the trade's words for the fretting and the picking hand
(common practice, no source)."""
