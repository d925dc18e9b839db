"""The version of the installed program; its one home is the package's metadata."""

from __future__ import annotations


def version() -> str:
    """The version, or ``unknown`` when run from a folder that was never installed."""
    from importlib.metadata import PackageNotFoundError, version  # noqa: PLC0415  # the standard library's own, but not cheap

    try:
        return version("tabforge")
    except PackageNotFoundError:
        return "unknown"
