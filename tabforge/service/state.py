"""What the parts of a running service share."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Annotated

from fastapi import Depends
from starlette.requests import Request

from tabforge.service.crew import Crew
from tabforge.service.desk import Desk
from tabforge.service.events import Events
from tabforge.service.folder import Folder
from tabforge.service.guards.tokens import Keys
from tabforge.service.logbook import Log
from tabforge.service.settings import Config


@dataclass(frozen=True, slots=True)
class Service:
    """One service."""

    config: Config
    keys: Keys
    crew: Crew
    desk: Desk
    events: Events
    folder: Folder | None
    log: Log


def service_of(request: Request) -> Service:
    """The service that a request came to."""
    service: Service = request.app.state.service
    return service


Served = Annotated[Service, Depends(service_of)]
"""A parameter of a path's function."""
