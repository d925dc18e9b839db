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
    barre: int
    half_barre: int
    dynamics: int
    words: int


WAY: Final = 0
"""Rehearsal marks and signs of the way through the piece, at the start and at the end of a bar."""
DIRECTIONS: Final = 1
"""Key, meter, tempo and its changes at the start of a bar, the repeat count at its end."""
ENDINGS: Final = 2
CHORDS: Final = 3
STRINGS: Final = 20
"""The row of string s is STRINGS + s; there are at most twelve strings."""
PICKING_HAND: Final = 50
FRETTING_HAND: Final = 51

VOICES: Final = (
    VoiceRows(rhythm=13, tuplets=(10, 11, 12), signs=9, barre=8, half_barre=7, mute=6, ring=5, dynamics=4, words=52),
    VoiceRows(rhythm=40, tuplets=(43, 42, 41), signs=44, barre=45, half_barre=46, mute=47, ring=48, dynamics=49, words=53),
)
"""The rhythm stands next to the strings, innermost tuplets next to the rhythm: above for voice 1, below for voice 2."""

ALONE: Final = (VOICES[0]._replace(dynamics=VOICES[1].dynamics), VOICES[1])
"""The rows where no bar has two voices: dynamics stand below the strings, as they do below a staff (common practice, no source)."""

MARGINS: Final = {PICKING_HAND: "RH", FRETTING_HAND: "LH"}
"""What stands at the left of a row. L.H. and R.H. are the trade's words for the fretting and the picking hand
(common practice, no source)."""
