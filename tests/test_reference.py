"""The language reference agrees with the vocabulary: its tables are made from it, and its text leaves no word out.

``pytest tests/test_reference.py --regen`` writes the tables anew.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from tabforge import limits
from tabforge.compile.grips import KINDS
from tabforge.fretboard.instruments import INSTRUMENTS, tunings_of
from tabforge.fretboard.voicing_styles import VOICING_KINDS
from tabforge.model.techniques import TECHNIQUES
from tabforge.model.values import VALUES
from tabforge.syntax.grammar import BLOCKS, ROWS, SETTINGS
from tabforge.theory.scale_table import SCALES

REFERENCE = Path(__file__).parents[1] / "tabforge" / "handbook" / "language.md"
MARKED = re.compile(r"(<!-- table: (\w+) -->\n)(.*?)(<!-- end -->)", re.DOTALL)


def _table(head: tuple[str, ...], rows: list[tuple[str, ...]]) -> str:
    lines = [head, tuple("---" for _ in head), *rows]
    return "".join("| " + " | ".join(cell.replace("|", "\\|") for cell in line) + " |\n" for line in lines)


def techniques() -> str:
    rows = [
        (f"`{each.form}`", each.name, each.meaning, each.amount.value if "#" in each.form else "", f"`{each.sign}`") for each in TECHNIQUES
    ]
    return _table(("mark", "technique", "what it asks for", "# counts", "in ASCII tab"), rows)


def scales() -> str:
    rows = [(kind.names[0], " ".join(kind.labels), ", ".join(kind.names[1:])) for kind in SCALES]
    return _table(("scale", "degrees", "also called"), rows)


def tunings() -> str:
    rows = [
        (instrument.name if index == 0 else "", name, str(tuning))
        for instrument in INSTRUMENTS.values()
        for index, (name, tuning) in enumerate(tunings_of(instrument).items())
    ]
    return _table(("instrument", "tuning", "open strings, low to high"), rows)


def voicings() -> str:
    return _table(("voicing", "its grips"), [(f"`{written}`", VOICING_KINDS[kind]) for written, kind in KINDS.items()])


TABLES: dict[str, Callable[[], str]] = {"voicings": voicings, "techniques": techniques, "scales": scales, "tunings": tunings}


def test_the_tables_are_made_from_the_vocabulary(request: pytest.FixtureRequest) -> None:
    text = REFERENCE.read_text(encoding="utf-8")
    made = MARKED.sub(lambda found: found[1] + TABLES[found[2]]() + found[4], text)
    if request.config.getoption("--regen"):
        REFERENCE.write_text(made, encoding="utf-8")
    assert {found[2] for found in MARKED.finditer(text)} == set(TABLES)
    assert made == text or request.config.getoption("--regen")


@pytest.mark.parametrize("word", [*SETTINGS, *ROWS, *BLOCKS, *(value.letter for value in VALUES)])
def test_every_word_is_told(word: str) -> None:
    text = REFERENCE.read_text(encoding="utf-8")
    assert re.search(rf"`[^`\n]*(?<![\w-]){re.escape(word)}(?![\w-])[^`\n]*`", text), word


def test_the_limits_are_those_that_are_enforced() -> None:
    told = REFERENCE.read_text(encoding="utf-8").split("## Limits", 1)[1]
    assert f"{limits.MAX_SOURCE_BYTES // 2**20} MiB" in told
    assert f"{limits.MAX_EVENTS:,}" in told
    assert f"repeat count of {limits.MAX_REPEAT}" in told
    assert limits.MAX_TUPLET_DEPTH == 3
    assert "three deep" in told
