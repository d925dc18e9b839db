"""Structured logs: a JSON object in each line of standard error.

No request waits for the log: a thread writes it, and where nobody reads it, lines are lost and counted.
"""

from __future__ import annotations

import json
import os
import sys
import threading
import time
from collections import deque
from datetime import UTC, datetime
from typing import Any, Final

MOST_LINES: Final = 1_000
"""Lines that wait to be written."""

_RETRY_SECONDS: Final = 0.05


def _line(what: str, more: dict[str, Any]) -> str:
    when = datetime.now(UTC).isoformat(timespec="milliseconds")
    return json.dumps({"time": when, "event": what, **more}) + "\n"


class Log:
    """Lines on their way to standard error."""

    def __init__(self) -> None:
        self._lines: deque[str] = deque()
        self._lost = 0
        self._wake = threading.Condition()
        self._writer: threading.Thread | None = None
        self._ended = False

    def write(self, what: str, **more: Any) -> None:
        """Have a line written; never waits."""
        with self._wake:
            if len(self._lines) >= MOST_LINES:
                self._lost += 1
                return
            self._tell_lost()
            self._lines.append(_line(what, more))
            if self._writer is None:  # a daemon: one that cannot write must not keep the program from ending
                self._writer = threading.Thread(target=self._run, name="log", daemon=True)
                self._writer.start()
            self._wake.notify()

    def end(self, seconds: float) -> None:
        """Wait until all is written, but no longer than this."""
        with self._wake:
            self._ended = True
            self._tell_lost()
            self._wake.notify()
            writer = self._writer
        if writer is not None:
            writer.join(seconds)

    def _tell_lost(self) -> None:
        if self._lost:
            self._lines.append(_line("lost", {"lines": self._lost}))
            self._lost = 0

    def _run(self) -> None:
        while True:
            with self._wake:
                while not self._lines:
                    if self._ended:
                        self._writer = None
                        return
                    self._wake.wait()
                text = "".join(self._lines)
                self._lines.clear()
            _put(text)


def _put(text: str) -> None:
    """Write to standard error, past its buffer: a lock that is held there would not let the program end."""
    try:
        number = sys.stderr.fileno()
    except (OSError, ValueError, AttributeError):  # it is no file of the system
        sys.stderr.write(text)
        return
    left = text.encode()
    while left:
        try:
            left = left[os.write(number, left) :]
        except BlockingIOError:
            time.sleep(_RETRY_SECONDS)
        except OSError:  # nobody will ever read it
            return
