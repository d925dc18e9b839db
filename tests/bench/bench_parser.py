"""What reading a text costs, in microseconds a token, places included.

The baseline of the same run is the least that finds words with their places: a list of ``(text, start)`` from ``re.finditer(r"\\S+")``.
``spans`` also asks the origins for the place of every token, as a compiler does. Tokens are words between spaces, comments and bar
lines among them, so that both sides are divided by the same number. Run it: ``python -m tests.bench.bench_parser``.
"""

from __future__ import annotations

import gc
import math
import random
import re
import sys
import time
import tracemalloc
from collections.abc import Callable

from tabforge.source import Source
from tabforge.syntax.grammar import ROWS
from tabforge.syntax.origins import Origins
from tabforge.syntax.parse import parse

ROUNDS = 5
_DEGREES = ("1", "2", "3", "#4", "5", "_7", "^1", "1+5", "4@5", "r", "=")


def sample(notes: int, seed: int = 11) -> str:
    """A study of about that many notes. Nearly every bar differs from every other; every row but fingers and words is there."""
    draw = random.Random(seed)
    lines = ["title    Bench", "scale    Bb2 lydian", "tempo    96", ""]
    written = 0
    while written < notes:
        lines.append('riff "Passage"  // a comment')
        for _ in range(8):
            rows: dict[str, list[str]] = {"rhythm": [], "degrees": [], "marks": [], "picks": []}
            for _ in range(4):
                rhythm = draw.choice(("e e e e e e e e", "q e e q e e", "3(e e e) q e e q", "s s s s q h", "e. s e e h"))
                count = len(rhythm.split())
                rows["rhythm"].append(rhythm)
                rows["degrees"].append(" ".join(draw.choice(_DEGREES) for _ in range(count)))
                rows["marks"].append(" ".join(draw.choice((".", ".", "pm", "-", "h", "ac+pm", "b1/2")) for _ in range(count)))
                rows["picks"].append(" ".join(draw.choice("du.") for _ in range(count)))
                written += count
            lines += [f"  {word:<9}{' | '.join(bars)}" for word, bars in rows.items()]
            lines.append("")
    return "\n".join(lines)


def baseline(text: str) -> list[tuple[str, int]]:
    """Words with their places, and nothing else."""
    return [(found[0], found.start()) for found in re.finditer(r"\S+", text)]


def every_place(origins: Origins, study: object) -> int:
    """Ask for the place of every token of every bar; how many there are."""
    count = 0
    assert isinstance(study, dict)
    for block, content in enumerate(study["blocks"]):
        for system, rows in enumerate(content.get("systems", ())):
            for word in ROWS:
                for bar in range(len(rows.get(word, ()))):
                    count += len(origins.starts(("blocks", block, "systems", system, word, bar)))
    return count


def best(action: Callable[[], object]) -> float:
    """Seconds of processor time of the fastest of a few rounds, without garbage collection."""
    fastest = math.inf
    for _ in range(ROUNDS):
        gc.collect()
        gc.disable()
        begun = time.process_time()
        kept = action()
        fastest = min(fastest, time.process_time() - begun)
        gc.enable()
        del kept
    return fastest


def measure(notes: int) -> tuple[float, float, float, float]:
    """Microseconds a token of the baseline, of parsing and of parsing with every place asked for; bytes a token that stay allocated."""
    text = sample(notes)
    source = Source("bench.riff", text)
    tokens = len(text.split())

    def with_places() -> object:
        study, origins, found = parse(source)
        assert not found
        return every_place(origins, study)

    base, alone, full = (best(action) / tokens * 1e6 for action in (lambda: baseline(text), lambda: parse(source), with_places))
    tracemalloc.start()
    kept = parse(source)
    peak = tracemalloc.get_traced_memory()[1] / tokens
    tracemalloc.stop()
    del kept
    return base, alone, full, peak


def main(sizes: list[int]) -> None:
    """Print a line for each size, and how the time grows from the first to the last."""
    print("  notes  baseline  parse  +spans  ratio  bytes/token at the peak")
    figures = [measure(size) for size in sizes]
    for size, (base, alone, full, peak) in zip(sizes, figures, strict=True):
        print(f"{size:>7}  {base:>8.3f}  {alone:.3f}  {full:>6.3f}  {full / base:>5.2f}  {peak:.0f}")
    if len(sizes) > 1:
        growth = 1 + math.log(figures[-1][2] / figures[0][2]) / math.log(sizes[-1] / sizes[0])
        print(f"growth exponent {growth:.3f}")


if __name__ == "__main__":
    main([int(each) for each in sys.argv[1:]] or [1_000, 10_000, 100_000])
