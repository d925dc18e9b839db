"""The success path is fast: that is what it is for."""

from __future__ import annotations

import random
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

from jsonschema import Draft202012Validator
from referencing import Registry

from tabforge import schema
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


def test_several_times_as_fast_as_the_library_on_ten_thousand_notes() -> None:
    """Most of what is left is the regular expressions, which both must run: the ratio was 9 when this was written."""
    ours = Compiled(schema.load("study")).check
    library = Draft202012Validator(schema.load("study"), registry=Registry())
    notes = document()
    assert ours(notes)
    fast, slow = best(lambda: ours(notes)), best(lambda: library.is_valid(notes), 1)
    assert slow / fast > 4, f"{fast / BARS / CELLS * 1e6:.2f} µs a note, the library {slow / BARS / CELLS * 1e6:.2f}"


def test_a_right_document_imports_no_library() -> None:
    program = (
        "import sys; from tabforge import schema; "
        "assert schema.guard({'study': 1, 'blocks': []}, None) == (); "
        "assert not {'jsonschema', 'referencing', 'difflib'} & set(sys.modules); "
        "assert not [name for name in sys.modules if name.startswith('tabforge.schema.about')]"
    )
    subprocess.run([sys.executable, "-c", program], check=True, timeout=60)
