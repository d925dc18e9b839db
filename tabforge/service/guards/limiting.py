"""Bodies that are too large or come too slowly."""

from __future__ import annotations

import asyncio
from typing import Final

from starlette.datastructures import Headers
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from tabforge.service.problems import MALFORMED, TOO_LARGE, TOO_SLOW, Problem, answer_to
from tabforge.service.settings import Config

_CLOSE: Final = {"Connection": "close"}


class Limited:
    """Raises Problem from ``receive`` for a body beyond the limits; what says beforehand that it is too large is not even read."""

    def __init__(self, app: ASGIApp, config: Config) -> None:
        self._app = app
        self._most = config.max_body
        self._seconds = config.body_seconds

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        length = Headers(scope=scope).get("content-length")
        if length is not None:
            wrong = self._too_large() if length.isdecimal() and int(length[:20]) > self._most else None
            wrong = wrong or (None if length.isdecimal() else Problem(MALFORMED, "The header Content-Length is no number."))
            if wrong is not None:
                await answer_to(wrong)(scope, receive, send)
                return
        until = asyncio.get_running_loop().time() + self._seconds
        got, whole = 0, False

        async def receiving() -> Message:
            nonlocal got, whole
            if whole:
                return await receive()
            try:
                async with asyncio.timeout_at(until):
                    message = await receive()
            except TimeoutError as error:
                raise Problem(TOO_SLOW, f"The whole body must have come after {self._seconds:g} seconds.", _CLOSE) from error
            if message["type"] == "http.request":
                got += len(message.get("body", b""))
                whole = not message.get("more_body", False)
            if got > self._most:
                raise self._too_large()
            return message

        await self._app(scope, receiving, send)

    def _too_large(self) -> Problem:
        return Problem(TOO_LARGE, f"A request has {self._most:,} bytes at most.", _CLOSE)
