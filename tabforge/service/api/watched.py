"""The paths of the watched folder."""

from __future__ import annotations

import asyncio
import json

from fastapi import APIRouter, Request, Response
from starlette.responses import StreamingResponse

from tabforge.readers import decode
from tabforge.service.api.answering import etag, matches, watched
from tabforge.service.describing import says
from tabforge.service.problems import NOT_FOUND
from tabforge.service.state import Served

router = APIRouter(tags=["watched folder"], default_response_class=Response)


def _told(request: Request, told: object) -> Response:
    body = json.dumps(told).encode()
    headers = {"ETag": etag(body), "Cache-Control": "private, no-cache"}
    if matches(request.headers.get("if-none-match"), headers["ETag"]):
        return Response(status_code=304, headers=headers)
    return Response(body, 200, headers, "application/json")


@router.get("/studies", responses=says("Listing", "The studies of the watched folder, by name", cached=True))
async def studies(request: Request, service: Served) -> Response:
    """The studies of the watched folder; none if no folder is watched."""
    return _told(request, {**service.events.listing(), "watching": service.folder is not None})


@router.get("/studies/{id}", responses=says("WatchedStudy", "The study as it is now", NOT_FOUND, cached=True))
async def study(request: Request, id: str, service: Served) -> Response:
    """A study of the watched folder as it is now, with its text."""
    _, data = await watched(service, id)
    known = service.events.studies[id]
    source, _ = await asyncio.to_thread(decode, known.name, data)
    return _told(request, {**known.told(), "text": source.text})


@router.get("/events", responses=says({"text/event-stream": {"type": "string"}}, "Events, until one end leaves", busy=True))
async def events(service: Served) -> Response:
    """What happens in the watched folder, as server-sent events.

    First `studies`, the whole listing. Then `study` when one has come or changed, `gone` when one has gone, and `ping`.
    """
    return StreamingResponse(service.events.stream(service.events.join()), media_type="text/event-stream")
