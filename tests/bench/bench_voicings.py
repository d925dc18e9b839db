"""What the grips of sixteen chords cost in a process that has none of them yet, in milliseconds of the processor.

The whole of ``choose_grips`` for each style, and again, all remembered; the best of three processes each.
"""

from __future__ import annotations

import subprocess
import sys
from time import process_time

from tabforge.fretboard.players import PLAYERS
from tabforge.fretboard.voicings import VOICING_KINDS, VoicingKind, VoicingStyle, choose_grips
from tabforge.theory.chords import parse_chord
from tests.fretboard.necks import GUITAR

CHORDS = "Cmaj7 Am7 Dm7 G7 Em7 A7 Fmaj7 Bm7b5 E7 D7 C6 Fm6 Bb7 Ebmaj7 Ab7 G9"
"""Sixteen different ones, all of four notes or more, so that every style but triads has work with each."""


def timed(kind: VoicingKind) -> tuple[float, float]:
    """Milliseconds for the first time and for the second."""
    symbols = [symbol for name in CHORDS.split() if (symbol := parse_chord(name))]
    style, player = VoicingStyle(kind=kind), PLAYERS["usual"]
    times = []
    for _ in range(2):
        start = process_time()
        choose_grips(GUITAR, symbols, style, player)
        times.append(1000 * (process_time() - start))
    return times[0], times[1]


def main() -> None:
    """A process of its own for each style."""
    if len(sys.argv) > 1:
        kind = next(kind for kind in VOICING_KINDS if kind == sys.argv[1])
        print(*timed(kind))
        return
    print(f"{'style':8}{'first':>8}{'again':>8}  ms for sixteen chords")
    for kind in VOICING_KINDS:
        runs = [subprocess.run([sys.executable, "-m", __spec__.name, kind], capture_output=True, text=True, check=True) for _ in range(3)]
        first, again = min(tuple(map(float, run.stdout.split())) for run in runs)
        print(f"{kind:8}{first:8.1f}{again:8.1f}")


if __name__ == "__main__":
    main()
