"""What a command's exit code tells the program that ran it. The help prints this table."""

from __future__ import annotations

from enum import IntEnum
from typing import Final


class Exits(IntEnum):
    """Exit codes. FAULT is the usual number for a fault of the program itself (BSD's sysexits), INTERRUPTED that of shells."""

    FINE = 0
    ERRORS = 1
    USAGE = 2
    DIFFERS = 3
    FILES = 4
    FAULT = 70
    INTERRUPTED = 130


MEANINGS: Final[dict[Exits, str]] = {
    Exits.FINE: "all is well (there may be advice)",
    Exits.ERRORS: "a study has errors",
    Exits.USAGE: "the command line is wrong, or would write one file twice",
    Exits.DIFFERS: "--check: a file is not as it would be written",
    Exits.FILES: "a file or folder cannot be found, read or written",
    Exits.FAULT: "tabforge itself is at fault",
    Exits.INTERRUPTED: "stopped by Ctrl-C",
}

_RANK: Final = (Exits.FINE, Exits.DIFFERS, Exits.ERRORS, Exits.FILES)


def worst(*codes: Exits) -> Exits:
    """The code to end with when several things happened: files before errors before differences."""
    return max(codes, key=_RANK.index, default=Exits.FINE)


def table() -> str:
    """The codes as the help shows them."""
    rows = "\n".join(f"  {int(code):>3}  {meaning}" for code, meaning in MEANINGS.items())
    return f"\b\nExit codes:\n{rows}"
