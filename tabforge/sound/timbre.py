"""How strings sound: tables of timbres, of ways to begin a sound and of kinds of sound.

All figures are by ear and by common practice (no source): nylon is darker and dies sooner than steel, thick strings ring longer, the
nearer to the bridge the pick, the brighter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from tabforge.performance.model import Sound


@dataclass(frozen=True, slots=True, kw_only=True)
class Timbre:
    """How a string sounds that is plucked at full strength.

    ``ring`` is the time in seconds in which its fundamental falls by 60 dB at 110 Hz, ``high`` the same for what lies at 3 kHz.
    ``bright`` is the frequency in hertz from which on partials of the pluck are weak. ``pick`` is where it is struck, as a part of
    the string's length from the bridge. ``noise`` is the pick's own sound against the string's. ``rise`` is the time in seconds of
    the beginning.
    """

    ring: float
    high: float
    bright: float
    pick: float
    level: float = 1.0
    noise: float = 0.0
    rise: float = 0.0008


STEEL: Final = Timbre(ring=6.0, high=1.1, bright=2600.0, pick=0.14, noise=0.10)
CLEAN: Final = Timbre(ring=7.0, high=0.9, bright=2100.0, pick=0.17, noise=0.05)
DRIVEN: Final = Timbre(ring=9.0, high=1.6, bright=2900.0, pick=0.13, noise=0.05)
NYLON: Final = Timbre(ring=4.0, high=0.5, bright=1500.0, pick=0.22, noise=0.06)
BASS: Final = Timbre(ring=7.0, high=0.5, bright=800.0, pick=0.18, level=1.15, noise=0.06)
BANJO: Final = Timbre(ring=1.6, high=0.45, bright=3200.0, pick=0.10, noise=0.14)

PROGRAMS: Final[dict[range, Timbre]] = {
    range(25, 26): NYLON,
    range(26, 27): STEEL,
    range(27, 30): CLEAN,
    range(30, 32): DRIVEN,
    range(32, 33): STEEL,
    range(33, 41): BASS,
    range(105, 109): BANJO,
}
"""General MIDI level 1 programs, counted from 1: 25 nylon, 26 steel, 27–29 electric, 30–31 driven, 33–40 basses, 105–108 sitar, banjo,
shamisen and koto."""

DRONE: Final = Timbre(ring=12.0, high=0.35, bright=500.0, pick=0.30, level=1.2, rise=0.012)
VAMP_LEVEL: Final = 0.7
VAMP_BRIGHT: Final = 0.65


def timbre_of(program: int, part: str) -> Timbre:
    """The timbre of a part. Second parts are softer than the line: a drone is a dark bass, a vamp the instrument played gently."""
    if part == "drone":
        return DRONE
    own = next((timbre for programs, timbre in PROGRAMS.items() if program in programs), STEEL)
    if part == "line":
        return own
    return replace(own, level=own.level * VAMP_LEVEL, bright=own.bright * VAMP_BRIGHT, noise=own.noise * 0.3, rise=0.004)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """Factors on a timbre. ``pick`` and ``rise`` replace it where given."""

    ring: float = 1.0
    high: float = 1.0
    bright: float = 1.0
    level: float = 1.0
    noise: float = 1.0
    pick: float | None = None
    rise: float | None = None

    def on(self, timbre: Timbre) -> Timbre:
        return Timbre(
            ring=timbre.ring * self.ring,
            high=timbre.high * self.high,
            bright=timbre.bright * self.bright,
            level=timbre.level * self.level,
            noise=timbre.noise * self.noise,
            pick=timbre.pick if self.pick is None else self.pick,
            rise=timbre.rise if self.rise is None else max(timbre.rise, self.rise),
        )


ATTACKS: Final[dict[str, _Change]] = {
    "pick": _Change(),
    "finger": _Change(bright=0.7, noise=0.4, pick=0.28, rise=0.002),
    "slur": _Change(bright=0.5, noise=0.0, rise=0.003),
    "tap": _Change(bright=0.65, noise=0.5, pick=0.42),
    "slide": _Change(bright=0.45, noise=0.0, rise=0.008),
    "swell": _Change(bright=0.8, noise=0.0, rise=0.35),
}
"""How a sound begins (``Sound.attack``). How loud it is, its velocity says."""

KINDS: Final[dict[str, _Change]] = {
    "note": _Change(),
    "muted": _Change(ring=0.07, high=0.09, bright=0.55, level=1.1),
    "dead": _Change(ring=0.012, high=0.03, bright=0.6, level=1.1, noise=4.0),
    "harmonic": _Change(ring=1.2, high=0.8, bright=0.5, noise=0.6, pick=0.31),
}
"""What kind of sound it is (``Sound.kind``)."""

_SOFT_STEPS: Final = 4


def voiced(timbre: Timbre, sound: Sound) -> Timbre:
    """A timbre as one sound has it: its attack, its kind, and darker the softer it is, in four steps so that like sounds can be shared."""
    step = -(-min(127, max(1, sound.velocity)) * _SOFT_STEPS // 127)
    softness = _Change(bright=0.55 + 0.45 * step / _SOFT_STEPS)
    return softness.on(KINDS[sound.kind].on(ATTACKS[sound.attack].on(timbre)))


def loudness(velocity: int) -> float:
    """The factor of a velocity from 1 to 127: half as strong is 9 dB softer (common practice, no source)."""
    return float((min(127, max(1, velocity)) / 127) ** 1.5)
