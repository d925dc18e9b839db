"""How long, how loud and how high: every number a player would choose by feel. All are common practice, no source.

Lengths in milliseconds turn into ticks at the tempo in force; shares are of the sound they belong to.
"""

from __future__ import annotations

from typing import Final, NamedTuple

PLAIN_TEMPO: Final = 120.0
"""Quarter notes a minute where nothing is said: what a Standard MIDI File means without a tempo (SMF 1.0, from memory)."""

# Tempo

SLOWED: Final = 3 / 4
"""What a rit. or rall. brings the tempo to, unless the next tempo is slower than the one before; an accel. is its inverse."""

GRADUAL_BARS: Final = 4
"""A gradual change is over after so many bars, and its end is held."""

FERMATA: Final = 2.0
"""How many times longer a fermata makes what stands under it."""

# Loudness


class Dynamic(NamedTuple):
    """Velocity of what is struck at the mark, and the level after it (None: the one before it stays)."""

    attack: int
    after: int | None


LEVELS: Final = {"pppp": 10, "ppp": 20, "pp": 34, "p": 49, "mp": 64, "mf": 80, "f": 96, "ff": 112, "fff": 120, "ffff": 126}
"""MIDI velocity of each plain dynamic."""

DYNAMIC: Final[dict[str, Dynamic]] = {
    **{name: Dynamic(level, level) for name, level in LEVELS.items()},
    "fp": Dynamic(LEVELS["f"], LEVELS["p"]),
    "pf": Dynamic(LEVELS["p"], LEVELS["f"]),
    "fz": Dynamic(110, None),
    "sf": Dynamic(110, None),
    "sfz": Dynamic(114, None),
    "sffz": Dynamic(122, None),
    "sfp": Dynamic(110, LEVELS["p"]),
    "rf": Dynamic(104, None),
    "rfz": Dynamic(106, None),
}
"""Every dynamic of ``model.events.DYNAMICS``."""

USUAL_LEVEL: Final = LEVELS["mf"]
"""The level a section begins with."""

HAIRPIN_STEP: Final = 24
"""How far a hairpin leads whose end names no dynamic."""

BACKING_LOUDNESS: Final = 0.75
"""Second parts stay below the line."""

SOFTER: Final = {
    "hammer-on": 0.8, "pull-off": 0.75, "legato slide": 0.75, "tap": 0.9, "left-hand tap": 0.8, "palm mute": 0.9, "dead note": 0.8,
    "ghost note": 0.5, "natural harmonic": 0.9, "artificial harmonic": 0.9, "tapped harmonic": 0.85,
}  # fmt: skip
"""Technique → what it does to the velocity of the sound that has it, or that it leads to."""

LOUDER: Final = {"accent": 14, "strong accent": 24, "tenuto": 6, "pinch harmonic": 8}
"""Technique → what it adds to the velocity."""

SLURRED_STROKE: Final = 0.75
"""Velocity of the strokes of a trill after the first, as a share of the first's."""

# Length

PALM_MUTED: Final = 0.6
PALM_MUTED_MS: Final = 450.0
"""Damped at the bridge, a string dies away within so long, however long its note is written."""

STACCATO: Final = 0.5
MARCATO: Final = 0.8
DEAD_MS: Final = 70.0
"""A muffled stroke is over after so long."""

RING_QUARTERS: Final = 8
"""A string that is let ring dies away within so many quarter notes."""

# Small times

GRACE_SHARE: Final = 0.25
"""What the grace notes before one note take of its neighbour in all."""

GRACE_LARGEST: Final = 8
"""No grace note is longer than a quarter note over this: a thirty-second."""

STRUM_MS: Final = 8.0
BRUSH_MS: Final = 14.0
ARPEGGIO_MS: Final = 45.0
"""From one string to the next: a plain stroke of the pick, a brush, a spread chord."""

SPREAD_LARGEST: Final = 0.5
"""A spread is over after this share of the chord's length."""

RAKE_MS: Final = 35.0
RAKE_STRINGS: Final = 3
RAKE_SHARE: Final = 0.7
"""A rake: from one damped string to the next, how many there are, and how loud beside the note they lead to."""

TRILL_MS: Final = 60.0
"""A trill is no faster than this a note; it is in thirty-seconds, sixteenths or eighths."""

# Pitch, in cents

BEND_MS: Final = 180.0
BEND_SHARE: Final = 0.3
"""A bend reaches its height, and a release its foot, after the shorter of the two."""

RELEASE_AT: Final = 0.5
"""Where in a sound the string is let back."""

VIBRATO_HZ: Final = 5.5
VIBRATO: Final = {"vibrato": 30.0, "wide vibrato": 80.0}
"""How high a vibrato goes: a finger can but raise a fretted string."""

SLIDE_MS: Final = 120.0
SLIDE_SHARE: Final = 0.4
"""The hand moves within this time at the end of the first note."""

NOWHERE_FRETS: Final = 3
"""How far a slide from or to nowhere goes, where the neck lets it."""

DIP: Final = -200.0
DIP_MS: Final = 160.0
SCRAPE: Final = -1200.0
PINCHED: Final = 12
"""Half steps from the stopped string to a pinch harmonic: the octave, of all partials that may sound."""
