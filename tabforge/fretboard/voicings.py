"""Voicings: grips of chords in a style, each led to the next.

What may be asked for is in ``voicing_styles``, what a grip is in ``gripped``; this is the room's front door.
"""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.fretboard.grip_holding import as_written
from tabforge.fretboard.gripped import Barre, Grip, NoGrip
from tabforge.fretboard.leading import lead_through
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.no_grips import no_grip
from tabforge.fretboard.players import Player
from tabforge.fretboard.voice_plans import Refusal
from tabforge.fretboard.voicing_candidates import candidates
from tabforge.fretboard.voicing_styles import INVERSIONS, VOICING_KINDS, VoicingKind, VoicingStyle
from tabforge.model.harmony import ChordSymbol

__all__ = ["INVERSIONS", "VOICING_KINDS", "Barre", "Grip", "NoGrip", "VoicingKind", "VoicingStyle", "choose_grips", "grips_of"]


def choose_grips(
    neck: Neck, chords: Sequence[ChordSymbol], style: VoicingStyle, player: Player, *, lead: bool = True
) -> tuple[Grip | NoGrip, ...]:
    """A grip for each chord, or why there is none. The same every time for the same arguments.

    With ``lead`` the grips are those that go best from each to the next (``leading``); without, each chord has the one that is best by
    itself. A chord that names its shape has that shape, whatever the style and the hand say; it must fit the neck.
    """
    found = [grips_of(neck, chord, style, player) for chord in chords]
    chosen = [choices if lead else choices[:1] for choices in found if not isinstance(choices, NoGrip)]
    chain = iter(lead_through(chosen, neck))
    return tuple(choices if isinstance(choices, NoGrip) else next(chain) for choices in found)


def grips_of(neck: Neck, chord: ChordSymbol, style: VoicingStyle, player: Player) -> tuple[Grip, ...] | NoGrip:
    """The grips of one chord that ``choose_grips`` chooses from, the one that is best by itself first; or why there is none."""
    weights = player.weights
    if chord.shape is not None:
        return (as_written(chord.shape[::-1], neck, weights),)
    found = candidates(neck, chord, style, weights)
    if isinstance(found, Refusal):
        return no_grip(neck, chord, style, weights, found)
    return found or no_grip(neck, chord, style, weights, None)
