"""Running a service until it is told to end."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import signal
import socket
from collections.abc import Callable, Iterator
from typing import Final

import uvicorn

from tabforge.service.app import create_app
from tabforge.service.guards.logs import JsonHandler
from tabforge.service.protocol import protocol_for
from tabforge.service.settings import Config
from tabforge.service.state import Service

_GRACE_SECONDS: Final = 3
"""Requests that are being answered have so long when the service ends; event streams end at once."""


class _Server(uvicorn.Server):
    """Ends by signals without raising them again: that is how a service is meant to end."""

    service: Service

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Take Ctrl-C and the system's wish to end while it runs."""
        loop = asyncio.get_running_loop()
        before = {each: signal.signal(each, lambda *_: loop.call_soon_threadsafe(self.end)) for each in (signal.SIGINT, signal.SIGTERM)}
        try:
            yield
        finally:
            for each, handler in before.items():
                signal.signal(each, handler)

    def end(self) -> None:
        """End it; asked twice, do not wait for anybody."""
        self.force_exit = self.should_exit
        self.should_exit = True
        self.service.events.close()


def listen(config: Config) -> socket.socket:
    """The socket that a service listens on. Raises OSError, also if another program has it."""
    family = socket.AF_INET6 if ":" in config.host else socket.AF_INET
    opened = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)  # named, or asyncio leaves its connections slow (TCP_NODELAY)
    try:
        opened.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        opened.bind((config.host.strip("[]"), config.port))
        opened.listen(128)
    except OSError:
        opened.close()
        raise
    return opened


def run(config: Config, opened: socket.socket, ready: Callable[[], None]) -> None:
    """Serve on a socket until Ctrl-C. ``ready`` is called when it can be reached. Raises OSError if the folder is not there."""
    app = create_app(config)
    logger = logging.getLogger("uvicorn.error")
    logger.handlers, logger.propagate = [JsonHandler(app.state.service.log, logging.WARNING)], False
    how = uvicorn.Config(
        app, http=protocol_for(config.head_seconds), ws="none", lifespan="on", log_config=None, access_log=False, server_header=False,
        proxy_headers=False, timeout_graceful_shutdown=_GRACE_SECONDS, backlog=128,
    )  # fmt: skip
    server = _Server(how)
    server.service = app.state.service

    async def serve() -> None:
        running = asyncio.create_task(server.serve([opened]))
        while not server.started and not running.done():
            await asyncio.sleep(0.01)
        if server.started:
            ready()
        await running

    asyncio.run(serve())
