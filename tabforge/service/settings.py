"""What a service may be told, and its limits."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Final

PREFIX: Final = "/api/v1"
"""Before every path of the API."""

MAX_BODY_BYTES: Final = 2 * 1024 * 1024
"""Bytes of one request. A study of 1,000 bars is some 60 kB."""

BODY_SECONDS: Final = 10.0
"""A request's body must have come after so long."""

HEAD_SECONDS: Final = 10.0
"""A connection that has not said what it wants after so long is closed."""

WORK_SECONDS: Final = 20.0
"""The work for one request; what takes longer is ended."""

WORK_BYTES: Final = 2 * 1024 * 1024 * 1024
"""Memory that one process may ask for (address space, where the system can limit it)."""

MAX_ANSWER_BYTES: Final = 32 * 1024 * 1024
"""Bytes of one answer: six minutes of WAV, or some 80,000 notes of MusicXML."""

MAX_WAITING: Final = 100
"""Requests that may wait for a free process; those beyond are sent away."""

WAIT_SECONDS: Final = 30.0
"""So long at most."""

MAX_LISTENERS: Final = 100
"""Pages that may listen for events at once."""

PING_SECONDS: Final = 15.0
"""An event stream is never silent for longer, so that both ends notice when the other is gone."""

MAX_KEPT_BYTES: Final = 64 * 1024 * 1024
"""Answers that are kept, in case they are asked for again."""

MAX_STUDIES: Final = 2_000
"""Studies of a watched folder that are listed."""

MIN_TOKEN: Final = 16
"""Characters of a token: fewer can be tried out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Config:
    """A service. ``folder`` is watched, None for none. ``names`` are hosts it may be called by besides its own address.

    ``token``: what every request has to bring, None if none is needed. ``workers``: processes that work at once. ``quiet``: tell nothing
    but faults. The times and sizes are the module's, for tests to make smaller.
    """

    folder: Path | None = None
    host: str = "127.0.0.1"
    port: int = 8765
    token: str | None = None
    names: tuple[str, ...] = ()
    workers: int = 2
    quiet: bool = False
    body_seconds: float = BODY_SECONDS
    head_seconds: float = HEAD_SECONDS
    work_seconds: float = WORK_SECONDS
    wait_seconds: float = WAIT_SECONDS
    ping_seconds: float = PING_SECONDS
    max_body: int = MAX_BODY_BYTES
    max_waiting: int = MAX_WAITING
    max_listeners: int = MAX_LISTENERS
