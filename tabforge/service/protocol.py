"""HTTP/1.1 as the server speaks it, with two things of our own: a connection must say what it wants in time, and what is no HTTP is told so
in problem details.
"""

from __future__ import annotations

import asyncio
from typing import Any

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from tabforge.service.guards.headers import HEADERS
from tabforge.service.problems import MALFORMED, answer


def protocol_for(seconds: float) -> type[asyncio.Protocol]:
    """The protocol; a connection has so many seconds for the head of each request."""

    class Timed(H11Protocol):
        """One connection."""

        _waiting: asyncio.TimerHandle | None = None

        def connection_made(self, transport: Any) -> None:
            """A client has come."""
            super().connection_made(transport)
            self._wait()

        def connection_lost(self, exc: Exception | None) -> None:
            """It has gone."""
            if self._waiting is not None:
                self._waiting.cancel()
            super().connection_lost(exc)

        def on_response_complete(self) -> None:
            """It may ask again."""
            super().on_response_complete()
            self._wait()

        def _wait(self) -> None:
            if self._waiting is not None:
                self._waiting.cancel()
            self._waiting = self.loop.call_later(seconds, self._late)

        def _late(self) -> None:
            cycle: Any = self.cycle
            if (cycle is None or cycle.response_complete) and not self.transport.is_closing():
                self.transport.close()

        def send_400_response(self, msg: str) -> None:
            """Tell a client that it does not speak HTTP."""
            told = answer(MALFORMED, "This is not HTTP/1.1, or its head is too large.", {**HEADERS, "Connection": "close"})
            response = h11.Response(status_code=400, headers=told.raw_headers, reason=b"Bad Request")
            for event in (response, h11.Data(data=bytes(told.body)), h11.EndOfMessage()):
                self.transport.write(self.conn.send(event) or b"")
            self.transport.close()

    return Timed
