"""The version of the installed program, from its package's metadata."""

from __future__ import annotations

from functools import cache
from importlib.metadata import PackageNotFoundError
from importlib.metadata import version as told


@cache
def version() -> str:
    """The version, or ``unknown`` when run from a folder that was never installed."""
    try:
        return told("tabforge")
    except PackageNotFoundError:
        return "unknown"
