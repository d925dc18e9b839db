"""The guard beside the library, and finding all places of a JSON text, in one run.

    python -m tests.bench.bench_guard

Prints microseconds a note of a document of ten thousand, with the ratio to jsonschema's own validator, and how the time to find
every place of a JSON text grows with its size.
"""

from __future__ import annotations

import json
import math
import random
import time
from collections.abc import Callable
from typing import Any

from jsonschema import Draft202012Validator
from referencing import Registry

from tabforge import schema
from tabforge.readers.json_origins import JsonOrigins
from tabforge.schema.compiled import Compiled

BARS = 1250
CELLS = 8
ROWS = {
    "rhythm": ("e", "q", "s", "e.", "q+e", "g"),
    "degrees": ("1", "2", "b3", "#4", "_5", "^6", "8@4", "1+3+5", "r", "="),
    "marks": ("h", ".", "p", "pm", "-", "ac+v", "b1/2"),
    "picks": ("d", "u", "p", "i+m", "."),
}


def document() -> Any:
    """Ten thousand notes in bars of eight, hardly two of them alike."""
    chance = random.Random(7)
    rows = {word: [" ".join(chance.choices(cells, k=CELLS)) for _ in range(BARS)] for word, cells in ROWS.items()}
    return {"study": 1, "blocks": [{"kind": "riff", "systems": [rows]}]}


def best(run: Callable[[], object], times: int = 3) -> float:
    """The shortest of some runs, in seconds: what the machine does when nothing else does."""
    taken = []
    for _ in range(times):
        begun = time.perf_counter()
        run()
        taken.append(time.perf_counter() - begun)
    return min(taken)


def places(bars: int) -> float:
    """Seconds to find the cells of every bar of a JSON text."""
    text = json.dumps({"blocks": [{"systems": [{"degrees": ["1 2 3 4"] * bars}]}]})

    def find() -> None:
        origins = JsonOrigins(text)
        for bar in range(bars):
            origins.starts(("blocks", 0, "systems", 0, "degrees", bar))

    return best(find)


def main() -> None:
    ours = Compiled(schema.load("study")).check
    library = Draft202012Validator(schema.load("study"), registry=Registry())
    notes = document()
    fast, slow = best(lambda: ours(notes)), best(lambda: library.is_valid(notes), 1)
    note = 1e6 / BARS / CELLS
    print(f"guard {fast * note:.2f} µs a note, jsonschema {slow * note:.2f}: {slow / fast:.1f} times")
    few, many = places(1_000), places(20_000)
    print(f"places {many / 20_000 * 1e6:.2f} µs a bar of 20,000; growth exponent {math.log(many / few) / math.log(20):.2f}")


if __name__ == "__main__":
    main()
