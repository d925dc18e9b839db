"""What is logged: a line for each request. No bodies, queries or headers are in it."""

from __future__ import annotations

import logging
import time
import traceback
from itertools import count
from typing import Any

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from tabforge.service.crew import FaultError
from tabforge.service.logbook import Log
from tabforge.service.problems import FAULT, answer


class JsonHandler(logging.Handler):
    """What the server's own logger says, as such lines."""

    def __init__(self, log: Log, level: int) -> None:
        super().__init__(level)
        self._log = log

    def emit(self, record: logging.LogRecord) -> None:
        """Write a record."""
        more = {"traceback": "".join(traceback.format_exception(*record.exc_info))} if record.exc_info else {}
        self._log.write("server", level=record.levelname.lower(), message=record.getMessage(), **more)


class Logged:
    """Writes a line about each request when it is done. An exception that reaches it is a fault: it is logged, and told as one."""

    def __init__(self, app: ASGIApp, log: Log, quiet: bool) -> None:
        self._app = app
        self._log = log
        self._quiet = quiet
        self._numbers = count(1)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        began = time.perf_counter()
        asked = {"request": next(self._numbers), "method": scope["method"], "path": scope["path"][:200]}
        told: dict[str, Any] = {**asked, "status": None, "bytes": 0}

        async def sending(message: Message) -> None:
            if message["type"] == "http.response.start":
                told["status"] = message["status"]
            elif message["type"] == "http.response.body":
                told["bytes"] += len(message.get("body", b""))
            await send(message)

        try:
            await self._app(scope, receive, sending)
        except Exception as error:
            text = str(error) if isinstance(error, FaultError) else traceback.format_exc()
            self._log.write("fault", **told, traceback=text)
            if told["status"] is None:
                detail = "This is no fault of your study's. The service's log tells more: please report it."
                await answer(FAULT, detail)(scope, receive, sending)
        finally:
            if not self._quiet:
                self._log.write("request", **told, milliseconds=round((time.perf_counter() - began) * 1e3, 1))
