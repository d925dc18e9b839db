"""Numbers of a JSON text as a study takes them."""

from __future__ import annotations

import re
from typing import Final

NUMBER: Final = re.compile(r"-?(?:0|[1-9][0-9]*)(?:\.[0-9]+)?(?:[eE][-+]?[0-9]+)?")
"""RFC 8259, section 6."""

_LARGEST: Final = 2**53 - 1
"""Whole numbers up to here are the same to every reader of JSON (RFC 8259, section 6)."""

_LONGEST: Final = 400
"""Characters of a number; no number that is held exactly needs more."""


def number(text: str) -> int | float | None:
    """The number a JSON text names; a whole one is an int however it is written. None if it cannot be held."""
    if len(text) > _LONGEST:
        return None
    value = float(text) if any(sign in text for sign in ".eE") else int(text)
    if not -_LARGEST <= value <= _LARGEST:
        return None
    return int(value) if value == int(value) else value
