"""Voicings: grips of chords in a style, each led to the next.

What may be asked for is in ``voicing_styles``, what a grip is in ``gripped``; this is the room's front door.
"""

from __future__ import annotations

from collections.abc import Sequence

from tabforge.fretboard.chord_needs import needs_of
from tabforge.fretboard.grip_holding import as_written, held
from tabforge.fretboard.grip_shapes import Part, shapes_in
from tabforge.fretboard.gripped import Barre, Grip, NoGrip
from tabforge.fretboard.neck import Neck
from tabforge.fretboard.players import Player
from tabforge.fretboard.voicing_styles import INVERSIONS, VOICING_KINDS, VoicingKind, VoicingStyle
from tabforge.model.harmony import ChordSymbol

__all__ = ["INVERSIONS", "VOICING_KINDS", "Barre", "Grip", "NoGrip", "VoicingKind", "VoicingStyle", "choose_grips"]


def choose_grips(
    neck: Neck, chords: Sequence[ChordSymbol], style: VoicingStyle, player: Player, *, lead: bool = True
) -> tuple[Grip | NoGrip, ...]:
    """A grip for each chord, or why there is none. The same every time for the same arguments."""
    return tuple(_one(neck, chord, style, player) for chord in chords)


def _one(neck: Neck, chord: ChordSymbol, style: VoicingStyle, player: Player) -> Grip | NoGrip:
    needs = needs_of(chord, len(neck.tuning))
    if chord.shape is not None:
        return as_written(chord.shape[::-1], neck, player.weights)
    if needs is None:
        return NoGrip(why="No chord sounds here.", instead="")
    part = Part(1, min(4, neck.last), strings=style.strings)
    grips = [held(frets, neck, player.weights, lack) for lack, frets in shapes_in(part, needs, neck, 12)]
    return min((grip for grip in grips if grip), key=lambda grip: grip.cost, default=NoGrip(why="No hand holds it.", instead=""))
