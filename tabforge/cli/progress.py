"""A line that shows how far long work has come. It is shown on a terminal only, and only once the work proves long."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from typing import IO, Final

from tabforge.cli.screen import tell

PATIENCE: Final = 0.7
"""Seconds before the line appears."""

INTERVAL: Final = 0.1
"""Seconds between two drawings."""

_BAR: Final = 30


class Progress:
    """The line for ``total`` pieces of work. Use it as a context manager; say things through ``tell`` while it is there."""

    def __init__(
        self,
        total: int,
        *,
        quiet: bool = False,
        stream: IO[str] | None = None,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        self._stream = stream or sys.stderr
        self._total = total
        self._clock = clock
        self._live = not quiet and total > 1 and self._stream.isatty()
        self._next = clock() + PATIENCE
        self._drawn = False

    def __enter__(self) -> Progress:
        return self

    def __exit__(self, *_: object) -> None:
        self._clear()

    def _clear(self) -> None:
        if self._drawn:
            self._stream.write("\r\x1b[K")  # ECMA-48: erase to the end of the line
            self._stream.flush()
            self._drawn = False

    def at(self, done: int, name: str) -> None:
        """So many pieces are done and the named one is begun."""
        if not self._live or self._clock() < self._next:
            return
        self._next = self._clock() + INTERVAL
        filled = _BAR * done // self._total
        bar = "#" * filled + "." * (_BAR - filled)
        self._stream.write(f"\r\x1b[K{bar}  {done} of {self._total}  {name[-40:]}")
        self._stream.flush()
        self._drawn = True

    def tell(self, text: str) -> None:
        """Say something above the line."""
        self._clear()
        tell(text)
