"""Cells of a marks row."""

from __future__ import annotations

from functools import lru_cache

from tabforge.model.techniques import Mark, parse_mark


@lru_cache(maxsize=4096)
def column_marks(text: str) -> tuple[tuple[Mark, ...], bool]:
    """A cell of a marks row: its own marks, and whether it carries earlier ones on."""
    parts = text.split("+")
    carries = parts[0] == "-"
    marks = (parse_mark(part) for part in (parts[1:] if carries else parts))
    return tuple(mark for mark in marks if mark is not None), carries
