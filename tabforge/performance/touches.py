"""What a technique does to a sound as a whole: how it is struck, how loud, how long, at which pitch. ``curves`` moves the pitch."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from tabforge.model.techniques import Role
from tabforge.performance import practice
from tabforge.performance.making import BEGINS, Making, Piece

Touch = Callable[[Making, Piece], None]


def _length(share: float) -> Touch:
    def touch(sound: Making, piece: Piece) -> None:
        sound.end = max(sound.start + 1, sound.start + int((sound.end - sound.start) * share))

    return touch


def _kind(kind: str) -> Touch:
    def touch(sound: Making, piece: Piece) -> None:
        sound.kind = kind

    return touch


def _attack(attack: str) -> Touch:
    def touch(sound: Making, piece: Piece) -> None:
        sound.attack = attack

    return touch


def _dead(sound: Making, piece: Piece) -> None:
    sound.kind = "dead"
    if not sound.struck_with("string scrape"):
        sound.end = min(sound.end, sound.start + max(1, int(practice.DEAD_MS * sound.millisecond)))


def _muted(sound: Making, piece: Piece) -> None:
    if sound.kind == "note":
        sound.kind = "muted"
    longest = sound.start + max(1, int(practice.PALM_MUTED_MS * sound.millisecond))
    _length(practice.PALM_MUTED)(sound, piece)
    sound.end = min(sound.end, longest)


def _pinched(sound: Making, piece: Piece) -> None:
    sound.kind = "harmonic"
    sound.midi += practice.PINCHED


def _scrape(sound: Making, piece: Piece) -> None:
    sound.kind = "dead"


ARRIVES: Final[dict[str, Touch]] = {
    "hammer-on": _attack("slur"),
    "pull-off": _attack("slur"),
    "legato slide": _attack("slide"),
}
"""Techniques that lead on → what they do to the sound they lead to."""

BEGUN: Final[dict[str, Touch]] = {
    "tap": _attack("tap"),
    "left-hand tap": _attack("slur"),
    "volume swell": _attack("swell"),
    "palm mute": _muted,
    "dead note": _dead,
    "string scrape": _scrape,
    "natural harmonic": _kind("harmonic"),
    "artificial harmonic": _kind("harmonic"),
    "pinch harmonic": _pinched,
    "tapped harmonic": _kind("harmonic"),
    "staccato": _length(practice.STACCATO),
    "strong accent": _length(practice.MARCATO),
}
"""Techniques → what they do to a sound that is struck with them, in whatever role."""


def touch(sound: Making) -> None:
    """Apply the marks a sound is struck with; a mark on a later piece of it changes only its pitch or its ringing."""
    factor, more = 1.0, 0
    for piece in sound.marks:
        name, role = piece.mark.technique.name, piece.mark.role
        leads = piece.mark.technique.leads
        if name == "let ring":
            sound.rings = True
        if piece.start > sound.start or (leads and role in BEGINS):
            continue
        handler = ARRIVES.get(name) if leads and role is Role.STOP else BEGUN.get(name)
        if leads and handler is None:
            continue
        factor *= practice.SOFTER.get(name, 1.0)
        more += practice.LOUDER.get(name, 0)
        if handler is not None:
            handler(sound, piece)
    sound.level = sound.level * factor + more
