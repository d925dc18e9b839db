"""A ladder: the tones of a scale, or some of them, repeated through the octaves."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tabforge.model.pitch import SEMITONES, Pitch, PitchClass
from tabforge.model.score import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Ladder:
    """An endless ascending line of spelled pitches. Rung 0 is the first tone at or above ``root``; rungs below it are negative.

    ``offsets`` are semitones above the root, ascending within one octave (0 to 11), ``tones`` their spelling; there is at least one.
    """

    root: Pitch
    offsets: tuple[int, ...]
    tones: tuple[PitchClass, ...]

    @staticmethod
    def of(scale: Scale, tones: Sequence[Pitch] | None = None) -> Ladder:
        """The ladder of a scale, or of some tones above its root; of those only letter and accidental count, not the octave."""
        if tones is None:
            return Ladder(root=scale.root, offsets=scale.offsets, tones=scale.tones)
        base = scale.root.midi
        chosen: dict[int, PitchClass] = {}
        for tone in tones:
            chosen.setdefault((tone.midi - base) % 12, tone.pitch_class)
        offsets = tuple(sorted(chosen))
        return Ladder(root=scale.root, offsets=offsets, tones=tuple(chosen[each] for each in offsets))

    def midi(self, rung: int) -> int:
        """The MIDI number of a rung."""
        octave, step = divmod(rung, len(self.offsets))
        return self.root.midi + 12 * octave + self.offsets[step]

    def pitch(self, rung: int) -> Pitch:
        """The spelled pitch of a rung."""
        tone = self.tones[rung % len(self.tones)]
        octave = (self.midi(rung) - tone.alter - SEMITONES[tone.step]) // 12 - 1
        return Pitch(tone.step, tone.alter, octave)

    def at_or_above(self, midi: int) -> int:
        """The lowest rung that is not below a pitch."""
        octave, rest = divmod(midi - self.root.midi, 12)
        return octave * len(self.offsets) + sum(offset < rest for offset in self.offsets)

    def at_or_below(self, midi: int) -> int:
        """The highest rung that is not above a pitch."""
        return self.at_or_above(midi + 1) - 1
