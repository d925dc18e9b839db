"""The paths that tell of the program: whether it runs, what it can do, its schemas."""

from __future__ import annotations

from typing import Any, Final

from fastapi import APIRouter, Request, Response

from tabforge.fretboard.instruments import INSTRUMENTS, tunings_of
from tabforge.schema import store
from tabforge.service.api.answering import etag, matches
from tabforge.service.describing import says
from tabforge.service.installed import version as installed_version
from tabforge.service.problems import NOT_FOUND, Problem
from tabforge.service.state import Served
from tabforge.service.tasks.exporting import FORMATS
from tabforge.theory.keys import tonic_of

router = APIRouter(tags=["program"])

_SCHEMA: Final[dict[str, Any]] = {"application/schema+json": {"type": "object"}}

KEYS: Final = tuple(str(root) for root in sorted((tonic_of(fifths) for fifths in range(-5, 7)), key=lambda root: root.semitone))
"""Roots to choose from, C upward: those of the major keys with the fewest signs."""


@router.get("/health", responses=says("Health", "It runs"))
async def health(service: Served) -> dict[str, Any]:
    """Whether the service runs, and how many requests wait. Needs no token."""
    return {"ok": True, "waiting": service.crew.waiting}


@router.get("/version", responses=says("Version", "The installed program"))
async def version() -> dict[str, Any]:
    """The program's version, and the formats it makes."""
    return {
        "name": "tabforge",
        "version": installed_version(),
        "formats": [
            {"name": each.name, "media": each.media, "suffix": each.suffix, "summary": each.summary, "installed": each.installed}
            for each in FORMATS.values()
        ],
    }


@router.get("/choices", responses=says("Choices", "What settings can be"))
async def choices() -> dict[str, Any]:
    """What the settings of a study can be: instruments with their tunings, keys."""
    return {
        "instruments": [
            {
                "name": each.name,
                "label": each.label,
                "tunings": [{"name": name, "strings": str(tuning).split()} for name, tuning in tunings_of(each).items()],
            }
            for each in INSTRUMENTS.values()
        ],
        "keys": list(KEYS),
        "hands": ["right", "left"],
    }


@router.get("/schemas", responses=says("Schemas", "The names of the schemas"))
async def schemas() -> dict[str, Any]:
    """The JSON Schemas there are."""
    return {"schemas": store.names()}


@router.get("/schemas/{name}", response_class=Response, responses=says(_SCHEMA, "The schema", NOT_FOUND, cached=True))
async def schema(request: Request, name: str) -> Response:
    """One of the JSON Schemas: of studies, books, reports, explanations."""
    if name not in store.names():
        raise Problem(NOT_FOUND, f"There is no such schema. There are: {', '.join(store.names())}.")
    body = store.text(name).encode()
    headers = {"ETag": etag(body), "Cache-Control": "no-cache"}
    if matches(request.headers.get("if-none-match"), headers["ETag"]):
        return Response(status_code=304, headers=headers)
    return Response(body, 200, headers, "application/schema+json")


@router.post("/session", status_code=204, response_class=Response, responses=says(None, "The cookie is given", status=204))
async def session(service: Served) -> Response:
    """Exchange the token for a cookie, so that the page can listen for events. Without a token there is nothing to exchange."""
    headers = {"Set-Cookie": service.keys.header()} if service.keys.token is not None else {}
    return Response(status_code=204, headers=headers)
