"""The engraving program of this process: one, made when it is first wanted, used again and again."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from tabforge.pages import Engraver


@cache
def engraver() -> Engraver:
    """The process's own: a process works on one job at a time. Raises MissingEngraverError."""
    from tabforge.pages import Engraver  # noqa: PLC0415  # needs the extra, and is slow to load

    return Engraver()
