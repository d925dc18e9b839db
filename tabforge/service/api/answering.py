"""From what was posted to a job, and from its answer to a response."""

from __future__ import annotations

import asyncio
import hashlib
import json
import re
from typing import Any, Final
from urllib.parse import quote

from starlette.requests import Request
from starlette.responses import Response

from tabforge.readers import reader_for
from tabforge.service.inputs import StudyInput
from tabforge.service.problems import KINDS, NOT_FOUND, UNCHANGED, Problem
from tabforge.service.state import Service
from tabforge.service.tasks.job import Answer, Job
from tabforge.syntax.altered import AS_WRITTEN

_USUAL_NAME: Final = "study"
_KINDS: Final = {kind.name: kind for kind in KINDS}
_UNFIT: Final = re.compile(r"[^\w .()-]+")


async def job_of(service: Service, task: str, asked: StudyInput, **options: Any) -> Job:
    """The job on a posted study. Raises Problem for a study that is not in the folder."""
    changes = asked.settings.changes() if asked.settings else AS_WRITTEN
    if asked.study is not None:
        name, data = await watched(service, asked.study)
        name = asked.name or name
    elif asked.text is not None:
        name, data = asked.name or _USUAL_NAME, asked.text.encode("utf-8", "surrogatepass")
    else:
        name = asked.name or _USUAL_NAME
        name += ".json" if reader_for(name) == "riff" else ""
        data = json.dumps(asked.document, ensure_ascii=False).encode("utf-8", "surrogatepass")
    said = {option: value for option, value in options.items() if value is not None}
    return Job(task=task, name=name, data=data, changes=changes, options=said)


async def watched(service: Service, known: str) -> tuple[str, bytes]:
    """Name and bytes of a study of the folder. Raises Problem."""
    study = service.events.studies.get(known)
    data = await asyncio.to_thread(service.folder.read, study) if study is not None and service.folder is not None else None
    if study is None or data is None:
        raise Problem(NOT_FOUND, "There is no study of this id: GET /studies lists those there are.")
    return study.name, data


async def done(request: Request, service: Service, job: Job) -> Response:
    """Have a job done and answer with it. Raises Problem. When the client leaves before it is done, it is given up."""
    doing = asyncio.create_task(service.desk.answer(job))
    leaving = asyncio.create_task(_left(request))
    try:
        await asyncio.wait((doing, leaving), return_when=asyncio.FIRST_COMPLETED)
        if not doing.done():
            return Response(status_code=499)  # nobody reads it; the log has it
        answer, kept = doing.result()
    finally:
        doing.cancel()
        leaving.cancel()
    return response(request, job, answer, kept)


async def _left(request: Request) -> None:
    while (await request.receive())["type"] != "http.disconnect":
        pass


def response(request: Request, job: Job, answer: Answer, kept: bool) -> Response:
    """An answer as it is sent. Raises Problem for what could not be done."""
    if answer.problem:
        raise Problem(_KINDS[answer.problem], answer.detail, **(json.loads(answer.body) if answer.body else {}))
    tag = etag(answer.body)
    headers = {"ETag": tag, "Cache-Control": "private, no-cache"}
    if answer.spent:
        headers["Server-Timing"] = "kept" if kept else ", ".join(f"{part};dur={spent:g}" for part, spent in answer.spent.items())
    if answer.suffix:
        headers["Content-Disposition"] = _as_file(job.name, answer.suffix)
        headers["Vary"] = "Accept"
    if matches(request.headers.get("if-none-match"), tag):
        if request.method == "GET":
            return Response(status_code=304, headers=headers)
        raise Problem(UNCHANGED, "Its ETag is one of those in If-None-Match.", {"ETag": tag})  # RFC 9110, section 13.1.2: so for POST
    return Response(answer.body, 200, headers, answer.media)


def etag(body: bytes) -> str:
    """A strong validator (RFC 9110, section 8.8.3): the same bytes, the same tag."""
    return f'"{hashlib.sha256(body).hexdigest()[:32]}"'


def matches(given: str | None, tag: str) -> bool:
    """Whether If-None-Match names a tag; weak ones count as well (RFC 9110, section 13.1.2)."""
    return given is not None and (given.strip() == "*" or tag in (each.strip().removeprefix("W/") for each in given.split(",")))


def _as_file(name: str, suffix: str) -> str:
    """The header by which a browser knows what to call the file (RFC 6266, RFC 8187)."""
    stem = re.sub(r"\.(?:riff|json)$", "", name.rsplit("/", 1)[-1], flags=re.I)
    fit = (_UNFIT.sub("-", stem).strip(" .-") or _USUAL_NAME) + suffix
    plain = fit.encode("ascii", "replace").decode().replace("?", "-")
    return f"attachment; filename=\"{plain}\"; filename*=UTF-8''{quote(fit)}"
