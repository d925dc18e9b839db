"""Writing to the terminal: what was asked for to standard output, all else to standard error."""

from __future__ import annotations

import os
import sys
from typing import IO, NoReturn

import typer

from tabforge.cli.exits import Exits


def reason(error: OSError) -> str:
    """Why a file could not be dealt with, in the system's words."""
    return (error.strerror or str(error) or type(error).__name__).rstrip(".").lower()


def coloured(stream: IO[str]) -> bool:
    """Whether a stream may be given colour: a terminal that is not a dumb one, unless NO_COLOR is set (no-color.org)."""
    return stream.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"


def _gone(stream: IO[str]) -> NoReturn:
    """The reader of a pipe has gone away: nothing more can be said to it, not even at exit."""
    silence = os.open(os.devnull, os.O_WRONLY)
    try:
        os.dup2(silence, stream.fileno())
    finally:
        os.close(silence)
    raise typer.Exit(Exits.FILES)


def _write(text: str, stream: IO[str]) -> None:
    encoding = getattr(stream, "encoding", None) or "utf-8"
    try:
        stream.write(text.encode(encoding, "backslashreplace").decode(encoding))
        stream.flush()
    except BrokenPipeError:
        _gone(stream)
    except OSError as error:
        if stream is sys.stderr:
            raise typer.Exit(Exits.FILES) from error
        fail(f"Standard output cannot be written: {reason(error)}.", Exits.FILES)


def say(text: str) -> None:
    """Print what was asked for, with a line break."""
    _write(text + "\n", sys.stdout)


def pour(data: bytes) -> None:
    """Print the bytes of a file to standard output as they are."""
    try:
        sys.stdout.flush()
        sys.stdout.buffer.write(data)
        sys.stdout.buffer.flush()
    except BrokenPipeError:
        _gone(sys.stdout)
    except OSError as error:
        fail(f"Standard output cannot be written: {reason(error)}.", Exits.FILES)


def tell(text: str) -> None:
    """Tell how it goes, with a line break: a finding, a summary, a mistake."""
    _write(text + "\n", sys.stderr)


def fail(text: str, code: Exits) -> NoReturn:
    """Say why the command ends here, and end it."""
    tell(text)
    raise typer.Exit(code)


def fault() -> NoReturn:
    """An exception that nobody expected: show where it came from, and whose fault it is."""
    import traceback  # noqa: PLC0415

    tell(traceback.format_exc() + "This is a fault of tabforge's own, not of your study. Please report it with the lines above.")
    sys.exit(Exits.FAULT)
