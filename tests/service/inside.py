"""A service in a thread of this process, with limits that a test can wait for."""

from __future__ import annotations

import asyncio
import threading
from types import TracebackType
from typing import Self

import uvicorn

from tabforge.service.app import create_app
from tabforge.service.protocol import protocol_for
from tabforge.service.server import listen
from tabforge.service.settings import Config
from tabforge.service.state import Service


class Inside:
    """It runs from entering to leaving."""

    def __init__(self, config: Config) -> None:
        app = create_app(config)
        self.service: Service = app.state.service
        self._socket = listen(Config(port=0))
        self.port: int = self._socket.getsockname()[1]
        self.address = f"http://127.0.0.1:{self.port}"
        how = uvicorn.Config(app, http=protocol_for(config.head_seconds), log_config=None, timeout_graceful_shutdown=1)
        self._server = uvicorn.Server(how)
        self._thread = threading.Thread(target=lambda: asyncio.run(self._server.serve([self._socket])))

    def __enter__(self) -> Self:
        self._thread.start()
        while not self._server.started:
            assert self._thread.is_alive()
            threading.Event().wait(0.01)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self._server.should_exit = True
        self._thread.join(10)
        assert not self._thread.is_alive()
