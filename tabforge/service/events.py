"""Server-sent events (HTML Living Standard, section 9.2): what happens in the watched folder, told to every page that listens."""

from __future__ import annotations

import asyncio
import contextlib
import json
from collections.abc import AsyncIterator, Iterable
from typing import Any, Final

from tabforge.service.folder import Watched
from tabforge.service.problems import TOO_BUSY, Problem

_MOST_UNREAD: Final = 100
"""Events that wait for a slow listener; with more it is told the whole listing instead."""


def event(name: str, data: Any) -> str:
    """One event as it is sent."""
    return f"event: {name}\ndata: {json.dumps(data)}\n\n"


class Events:
    """What is known of the folder, and who listens."""

    def __init__(self, most: int, ping: float) -> None:
        self._most = most
        self._ping = ping
        self._listeners: set[asyncio.Queue[str | None]] = set()
        self._closed = False
        self.studies: dict[str, Watched] = {}

    def listing(self) -> dict[str, Any]:
        """All studies, as GET /studies has them."""
        return {"studies": [each.told() for each in self.studies.values()]}

    def update(self, found: dict[str, Watched]) -> None:
        """Take over what a scan has found, and tell the differences."""
        before, self.studies = self.studies, found
        told = [event("gone", {"id": each.id, "name": each.name}) for each in before.values() if each.id not in found]
        for each in found.values():
            old = before.get(each.id)
            if old is None or old.revision != each.revision:
                told.append(event("study", each.told()))
        self._tell(told)

    def _tell(self, told: Iterable[str]) -> None:
        for text in told:
            for queue in self._listeners:
                if queue.qsize() >= _MOST_UNREAD:
                    while not queue.empty():
                        queue.get_nowait()
                    queue.put_nowait(event("studies", self.listing()))
                else:
                    queue.put_nowait(text)

    def close(self) -> None:
        """End all streams at once."""
        self._closed = True
        for queue in self._listeners:
            queue.put_nowait(None)

    def join(self) -> asyncio.Queue[str | None]:
        """A new listener's events; they begin with the listing. Raises Problem if there are too many."""
        if len(self._listeners) >= self._most:
            raise Problem(TOO_BUSY, "Enough pages listen already.", {"Retry-After": "30"})
        queue: asyncio.Queue[str | None] = asyncio.Queue()
        queue.put_nowait(None if self._closed else event("studies", self.listing()))
        self._listeners.add(queue)
        return queue

    async def stream(self, queue: asyncio.Queue[str | None]) -> AsyncIterator[str]:
        """A listener's events as text, with pings in between, until the service ends or the listener leaves."""
        try:
            yield "retry: 1000\n\n"
            while True:
                text: str | None = event("ping", {})
                with contextlib.suppress(TimeoutError):
                    text = await asyncio.wait_for(queue.get(), self._ping)
                if text is None:
                    return
                yield text
        finally:
            self._listeners.discard(queue)
