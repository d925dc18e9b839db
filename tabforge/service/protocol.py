"""HTTP/1.1 as the server speaks it, with two things of our own: a connection must say what it wants in time, and what is no HTTP is told so
in problem details.
"""

from __future__ import annotations

import asyncio
from typing import Any

import h11
from uvicorn.protocols.http.h11_impl import H11Protocol

from tabforge.service.problems import MALFORMED, answer


def protocol_for(seconds: float) -> type[asyncio.Protocol]:
    """The protocol; a connection has so many seconds for the head of its first request."""

    class Timed(H11Protocol):
        """One connection."""

        _waiting: asyncio.TimerHandle | None = None

        def connection_made(self, transport: Any) -> None:
            """A client has come."""
            super().connection_made(transport)
            self._waiting = self.loop.call_later(seconds, self._late)

        def connection_lost(self, exc: Exception | None) -> None:
            """It has gone."""
            if self._waiting is not None:
                self._waiting.cancel()
            super().connection_lost(exc)

        def _late(self) -> None:
            if self.cycle is None and not self.transport.is_closing():
                self.transport.close()

        def send_400_response(self, msg: str) -> None:
            """Tell a client that it does not speak HTTP."""
            told = answer(MALFORMED, "This is not HTTP/1.1, or its head is too large.")
            reason = b"Bad Request"
            headers = [(b"content-type", told.headers["content-type"].encode()), (b"content-length", str(len(told.body)).encode()), (b"connection", b"close")]
            for event in (h11.Response(status_code=400, headers=headers, reason=reason), h11.Data(data=bytes(told.body)), h11.EndOfMessage()):
                self.transport.write(self.conn.send(event))
            self.transport.close()

    return Timed
