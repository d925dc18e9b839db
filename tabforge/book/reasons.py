"""Why an exercise is made again, in words."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from tabforge.book.fingerprints import Fingerprint

NEW: Final = "it is new"
GONE: Final = "what was kept of it is gone or damaged"

_PARTS: Final = {
    "text": "its text changed",
    "options": "its options changed",
    "making": "the book's paper, font or formats changed",
    "tool": "tabforge changed",
}


def why(before: Fingerprint | None, now: Fingerprint) -> str:
    """Why an exercise that was made as ``before``, None if it never was, is made anew."""
    if before is None:
        return NEW
    return ", ".join(_differences(before, now)) or GONE


def _differences(before: Fingerprint, now: Fingerprint) -> Iterator[str]:
    for part, words in _PARTS.items():
        if getattr(before, part) != getattr(now, part):
            yield words
    had, has = (dict(each.split(" ", 1) for each in one.packages) for one in (before, now))
    for name in sorted({*had, *has}):
        if name not in had:
            yield f"{name} is needed"
        elif name in has and had[name] != has[name]:
            yield f"{name} changed from {had[name]} to {has[name]}"
