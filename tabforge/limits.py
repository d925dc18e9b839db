"""What one study may ask for. Each limit is stated in the error that enforces it.

They are far above anything a person writes; they keep a broken or hostile input from taking the machine's memory or time.
"""

from __future__ import annotations

from typing import Final

MAX_SOURCE_BYTES: Final = 8 * 1024 * 1024
"""Bytes of one input file."""

MAX_EVENTS: Final = 250_000
"""Notes, chords and rests of one study after repeats of tokens, bars and keys are written out."""

MAX_LINES: Final = 250_000
"""Lines of one input text."""

MAX_BARS: Final = 1_000_000
"""Bars of all the rows of one text, repeated bars counted."""

MAX_REPEAT: Final = 999
"""The largest repeat count of a token, a group or a bar."""

MAX_TUPLET_DEPTH: Final = 3
"""Tuplets inside tuplets."""

MAX_TUPLET_NUMBER: Final = 32
"""The largest number in a tuplet's ratio."""

MAX_DIVISIONS: Final = 50_000_000
"""Ticks a quarter note; a study whose tuplets have no common division below this is refused."""

MAX_STRINGS: Final = 12
MIN_STRINGS: Final = 3

MAX_FRET: Final = 36
"""Fret numbers above this are refused before any neck is looked at."""

MAX_DIAGNOSTICS: Final = 200
"""Diagnostics kept for one source; the rest are counted."""

MAX_JSON_DEPTH: Final = 64
"""Arrays and objects inside one another in a JSON input."""

MAX_RUNGS: Final = 100
"""Rungs of a tempo ladder."""

MIN_SPEED: Final = 10
MAX_SPEED: Final = 400
"""The slowest and the fastest rung, in percent of the tempo."""

MAX_TIMES: Final = 100
"""How often each rung of a ladder is played."""

MAX_RUNG_SECONDS: Final = 15 * 60
"""Seconds of one rung with all its repeats: it is mixed as a whole, at 176 kB a second."""

MAX_TRACK_SECONDS: Final = 60 * 60
"""Seconds of one practice track: its file is held in memory, at 88 kB a second."""

MIN_PLAN_MINUTES: Final = 10
MAX_PLAN_MINUTES: Final = 180
"""Minutes of a day of a practice plan."""

MAX_PLAN_DAYS: Final = 60

MAX_PLAN_TIMES: Final = 20
"""How often a rung is to be played without a slip, in a plan."""
