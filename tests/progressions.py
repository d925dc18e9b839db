"""Chord blocks of whole studies, with what must sound of them: for ``tests.vocabulary``.

Every chord brings its own grip, so what is struck where is known here. The handbook's section "Chords" says when a chord sounds, which
strings a finger takes, and how chords share a bar.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import Final

from tests.marks_that_fit import Slot

SHARES: Final = {
    "4/4": ((32,), (16, 16), (8, 8, 8, 8)),
    "3/4": ((24,), (8, 8, 8)),
    "2/4": ((16,), (8, 8)),
    "2/2": ((32,), (16, 16)),
    "6/8": ((24,), (12, 12)),
    "12/8": ((48,), (24, 24), (12, 12, 12, 12)),
    "5/8": ((20,), (8, 12)),
    "7/8": ((28,), (8, 8, 12)),
    "2+2+3/8": ((28,), (8, 8, 12)),
}
"""How chords may share a bar, in thirty-seconds."""

NAMES: Final = ("Am7", "C/E", "G", "F#m7b5", "Bbmaj7", "bVII", "nV7", "niim7", "nii7", "bVI/b3", "#iv°")
STRUMS: Final = ("d", "u", "gd", "gu", "xd", "xu")
PICKS: Final = ("p", "i", "m", "a", "p+a", "p+i+m+a", "i+m")
VOICINGS: Final = ("open", "barre", "shell first inversion", "triads on 3 2 1", "drop 2 on 3 2 1 root position", "spread", "power", "free")

Places = tuple[tuple[int, int | None], ...]


@dataclass(slots=True)
class Progression:
    """Makes the bars of one chord block. ``struck``: onset in quarter notes and places of what sounds."""

    dice: Random
    strings: int
    base: int
    picking: bool
    now: dict[int, int] | None = None
    last: dict[int, int] | None = None
    struck: list[tuple[Fraction, Places]] = field(default_factory=list)

    def grip(self) -> dict[int, int]:
        """Frets of two to four strings."""
        chosen = self.dice.sample(range(1, self.strings + 1), min(self.dice.randint(2, 4), self.strings))
        return {string: self.dice.choice((0, *range(self.base, self.base + 4))) for string in sorted(chosen, reverse=True)}

    def bar(self, shares: Sequence[int], slots: Sequence[Slot], start: Fraction) -> tuple[str, str]:
        """A bar of the progression and its strokes."""
        onsets = [sum((slot.length for slot in slots[:index]), Fraction(0)) for index in range(len(slots))]
        edges = [Fraction(sum(shares[:index]), 8) for index in range(len(shares) + 1)]
        cells, strokes = [], []
        for low, high in pairwise(edges):
            inside = [onset for onset in onsets if low <= onset < high]
            goes_on = bool(cells or self.now or self.last) and (not inside or self.dice.randrange(4) == 0)
            if not goes_on:
                cells.append(self._chord())
            else:
                cells.append(".")
            for index, onset in enumerate(inside):
                strokes.append(self._stroke(start + onset, must=index == 0 and not goes_on and self.now is not None))
        return " ".join(cells), " ".join(strokes)

    def _chord(self) -> str:
        if self.dice.randrange(10) == 0:
            self.now = None
            self.last = self.last or dict.fromkeys(range(1, self.strings + 1), 0)
            return "N.C."
        self.now = self.grip()
        frets = [str(self.now.get(string, "x")) for string in range(self.strings, 0, -1)]
        return f"{self.dice.choice(NAMES)}@{('.' if '10' in frets else '').join(frets)}"

    def _stroke(self, onset: Fraction, must: bool) -> str:
        if not must and self.dice.randrange(3) == 0:
            return self.dice.choice(("r", "."))
        cell = self.dice.choice(PICKS if self.picking else STRUMS)
        muffled = cell[0] == "x"
        grip = self.now if self.now is not None else self.last if muffled else None
        if grip is None:
            return cell
        if self.now is not None:
            self.last = self.now
        if self.picking:
            self.struck.append((onset, self._picked(cell, grip)))
        else:
            self.struck.append((onset, tuple(sorted((string, None if muffled else fret) for string, fret in grip.items()))))
        return cell

    @staticmethod
    def _picked(cell: str, grip: dict[int, int]) -> Places:
        order = sorted(grip)  # from the highest string down
        nth = {"a": 0, "m": 1, "i": 2, "p": len(order)}
        taken = {order[min(nth[finger], len(order) - 1)] for finger in cell.split("+")}
        return tuple(sorted((string, grip[string]) for string in taken))


def chord_block(
    dice: Random, strings: int, base: int, bar: Callable[[int], tuple[str, list[Slot]]], meters: dict[str, int], keys: Sequence[str] = ()
) -> tuple[list[str], list[tuple[Fraction, Places]]]:
    """The lines of a chord block, and what is struck in it. ``bar`` makes a rhythm of so many thirty-seconds; ``keys`` are
    cells of a key row.
    """
    meter = dice.choice(list(SHARES))
    made = Progression(dice, strings, base, dice.randrange(2) == 0)
    lines = ['chords "Chords"', f"  meter {meter}", f"  voicing {dice.choice(VOICINGS)}", f"  diagrams {dice.choice(('show', 'hide'))}"]
    start = Fraction(0)
    rows: list[tuple[str, str, str]] = []
    for _ in range(dice.randint(1, 4)):
        rhythm, slots = bar(meters[meter])
        cells, strokes = made.bar(dice.choice(SHARES[meter]), slots, start)
        rows.append((cells, rhythm, strokes))
        start += Fraction(meters[meter], 8)
    if keys and dice.randrange(3) == 0:
        cells = " | ".join(dice.choice((".", *keys)) for _ in rows)
        lines.append(f"  key {cells}" + (" |" if len(rows) == 1 else ""))
    for word, at in (("progression", 0), ("rhythm", 1), ("picking" if made.picking else "strum", 2)):
        lines.append(f"  {word} " + " | ".join(row[at] for row in rows))
    return lines, made.struck
