"""Where a chord has no grip of a style: why, and the nearest that can be had, in a player's words."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from tabforge.fretboard.cost import Weights
from tabforge.fretboard.gripped import NoGrip, shape_text
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.voice_plans import Refusal
from tabforge.fretboard.voicing_candidates import candidates
from tabforge.fretboard.voicing_styles import INVERSIONS, VoicingKind, VoicingStyle, called
from tabforge.model.harmony import ChordSymbol

NEAREST: Final[dict[VoicingKind, tuple[VoicingKind, ...]]] = {
    "open": ("free",),
    "barre": ("free",),
    "shell": ("triads", "free"),
    "triads": ("spread", "power", "free"),
    "drop2": ("drop3", "spread", "triads", "free"),
    "drop3": ("drop2", "spread", "triads", "free"),
    "spread": ("triads", "free"),
    "power": ("free",),
    "free": (),
}
"""What is looked for instead, the nearest first (common practice, no source)."""


def no_grip(neck: Neck, chord: ChordSymbol, style: VoicingStyle, weights: Weights, refusal: Refusal | None) -> NoGrip:
    """Why a chord has no grip, as it was refused or because no hand reaches one, and the nearest grip that there is."""
    why = refusal.why if refusal else f"No hand reaches {_described(style, chord.text)} on this neck."
    if chord.root is None:
        return NoGrip(why=why, instead="Name a chord to have a grip of it.")
    for symbol, other in _others(chord, style):
        found = candidates(neck, symbol, other, weights)
        if found and not isinstance(found, Refusal):
            instead = f"The nearest is {shape_text(found[0].shape)}, {_described(other, symbol.text)}."
            return NoGrip(why=why, instead=instead, nearest=found[0])
    return NoGrip(why=why, instead="This neck has no grip of it at all: choose another chord or another tuning.")


def _others(chord: ChordSymbol, style: VoicingStyle) -> Iterator[tuple[ChordSymbol, VoicingStyle]]:
    """What is asked for instead: on other strings, in another inversion, of another kind, and at last without the bass."""
    if style.strings:
        yield chord, replace(style, strings=())
    if style.inversion is not None:
        yield chord, replace(style, inversion=None)
        yield chord, replace(style, strings=(), inversion=None)
    for kind in NEAREST[style.kind]:
        yield chord, VoicingStyle(kind=kind)
    if chord.bass is not None:
        plain = replace(chord, bass=None, text=chord.text.rpartition("/")[0])
        yield plain, replace(style, strings=())
        yield plain, VoicingStyle(kind="free")


def _described(style: VoicingStyle, name: str) -> str:
    inversion = f" in {INVERSIONS[style.inversion]}" if style.inversion is not None else ""
    strings = f" on string{'s' * (len(style.strings) > 1)} {' '.join(map(str, style.strings))}" if style.strings else ""
    return f"a {called(style.kind)} of {name}{inversion}{strings}"
