"""The application: the paths, the guards before them, and what lives as long as it runs."""

from __future__ import annotations

import asyncio
import contextlib
from collections.abc import AsyncIterator

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware

from tabforge.service.api import exports, program, studies, watched
from tabforge.service.bodies import invalid
from tabforge.service.crew import Crew
from tabforge.service.describing import describe
from tabforge.service.desk import Desk
from tabforge.service.events import Events
from tabforge.service.files import Page, page_files
from tabforge.service.folder import Folder
from tabforge.service.guards.crossing import Own
from tabforge.service.guards.headers import Headed
from tabforge.service.guards.limiting import Limited
from tabforge.service.guards.logs import Logged
from tabforge.service.guards.tokens import Keys, Opened
from tabforge.service.installed import version
from tabforge.service.logbook import Log
from tabforge.service.problems import answer_to
from tabforge.service.settings import PREFIX, Config
from tabforge.service.state import Service
from tabforge.service.watching import watch

_LAST_LINES_SECONDS = 1.0


def create_app(config: Config) -> FastAPI:
    """An application for a configuration. Raises OSError if its folder is not there."""
    crew = Crew(config)
    events = Events(config.max_listeners, config.ping_seconds)
    folder = Folder(config.folder) if config.folder is not None else None
    log = Log()
    service = Service(config, Keys(config), crew, Desk(crew), events, folder, log)

    @contextlib.asynccontextmanager
    async def living(_: FastAPI) -> AsyncIterator[None]:
        await crew.start()
        watching = None
        if folder is not None:
            events.update(await asyncio.to_thread(folder.scan, {}))
            watching = asyncio.create_task(watch(folder, events, lambda text: log.write("trouble", message=text)))
        try:
            yield
        finally:
            events.close()
            if watching is not None:
                watching.cancel()
                with contextlib.suppress(asyncio.CancelledError):
                    await watching
            await asyncio.to_thread(crew.stop)
            await asyncio.to_thread(log.end, _LAST_LINES_SECONDS)

    guards = [
        Middleware(Logged, log=log, quiet=config.quiet),
        Middleware(Headed),
        Middleware(Own, config=config),
        Middleware(Opened, keys=service.keys),
        Middleware(Limited, config=config),
    ]
    app = FastAPI(
        title="tabforge", version=version(), description=(__doc__ or ""), lifespan=living, middleware=guards, docs_url=None, redoc_url=None,
        openapi_url=f"{PREFIX}/openapi.json", redirect_slashes=False,
    )  # fmt: skip
    app.state.service = service
    app.add_exception_handler(HTTPException, _refused)
    app.add_exception_handler(RequestValidationError, _invalid)
    for each in (studies, exports, watched, program):
        app.include_router(each.router, prefix=PREFIX)
    app.router.default = Page(page_files())
    app.openapi = lambda: describe(app)  # type: ignore[method-assign]  # the framework's documented way to say more
    return app


async def _refused(_: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    return answer_to(error)


async def _invalid(_: Request, error: Exception) -> Response:
    assert isinstance(error, RequestValidationError)
    return answer_to(invalid(error.errors()))
