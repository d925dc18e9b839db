"""Styles of voicing: the sorts of grips that a chord may be asked for in. All definitions are common practice, no source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

VoicingKind = Literal["open", "barre", "shell", "triads", "drop2", "drop3", "spread", "power", "free"]

VOICING_KINDS: Final[dict[VoicingKind, str]] = {
    "open": "in the first four frets, with open strings where the chord has them",
    "barre": "movable: no open string, the first finger across several strings at the lowest fret",
    "shell": "root, third and seventh; the sixth or the fifth where there is no seventh",
    "triads": "the three notes of the triad once each, within an octave, on neighbouring strings",
    "drop2": "four notes in close position, the second from the top an octave lower",
    "drop3": "four notes in close position, the third from the top an octave lower",
    "spread": "the triad wider than an octave: its middle note an octave higher",
    "power": "root and fifth, and the octave where it is in reach",
    "free": "whatever lies best, anywhere up to the twelfth fret",
}
"""Kind → what its grips are, in a player's words."""

_CALLED: Final[dict[VoicingKind, str]] = {
    "open": "grip in the first frets",
    "barre": "barre grip",
    "shell": "shell",
    "triads": "close triad",
    "drop2": "drop 2 voicing",
    "drop3": "drop 3 voicing",
    "spread": "spread triad",
    "power": "power chord",
    "free": "grip",
}

INVERSIONS: Final = ("root position", "first inversion", "second inversion", "third inversion")
"""What is in the bass: the root, the third, the fifth, the seventh."""


@dataclass(frozen=True, slots=True, kw_only=True)
class VoicingStyle:
    """What grips are asked for. ``strings``: exactly these sound, in any order; empty for any. ``inversion``: 0 for the root in the bass,
    to 3 for the seventh; None where the style decides. A bass that a chord's symbol names (``C/E``) goes before it.
    """

    kind: VoicingKind
    strings: tuple[int, ...] = ()
    inversion: int | None = None


def called(kind: VoicingKind) -> str:
    """What a grip of a kind is called in a sentence, without an article."""
    return _CALLED[kind]
