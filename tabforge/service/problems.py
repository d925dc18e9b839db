"""How the service refuses: problem details for every error (RFC 9457), whoever finds it."""

from __future__ import annotations

import json
from collections.abc import Mapping
from http import HTTPStatus
from typing import Any, Final, NamedTuple

from starlette.exceptions import HTTPException
from starlette.responses import Response

MEDIA: Final = "application/problem+json"


class Kind(NamedTuple):
    """A kind of problem: what its ``type`` ends with, its status, its title."""

    name: str
    status: int
    title: str


MALFORMED: Final = Kind("malformed", 400, "The request cannot be read")
NO_TOKEN: Final = Kind("token-wanted", 401, "This service wants its token")
CROSS_SITE: Final = Kind("cross-site", 403, "Requests from other sites are refused")
NOT_FOUND: Final = Kind("not-found", 404, "There is nothing here")
WRONG_METHOD: Final = Kind("wrong-method", 405, "This is not done with this method")
NOT_ACCEPTABLE: Final = Kind("not-acceptable", 406, "No format that is made here is accepted")
TOO_SLOW: Final = Kind("slow-body", 408, "The request came too slowly")
UNCHANGED: Final = Kind("unchanged", 412, "What would be made is what is there already")
TOO_LARGE: Final = Kind("too-large", 413, "The request is too large")
TOO_MUCH_WORK: Final = Kind("too-much-work", 413, "This study asks for more work than is done for one request")
WRONG_TYPE: Final = Kind("wrong-content-type", 415, "The request must be JSON")
INVALID: Final = Kind("invalid", 422, "The request does not say what it must")
STUDY_ERRORS: Final = Kind("study-errors", 422, "The study has errors")
CANNOT: Final = Kind("cannot", 422, "This cannot be made of it")
TOO_BUSY: Final = Kind("too-busy", 503, "Too many requests at once")
FAULT: Final = Kind("fault", 500, "tabforge itself is at fault")

KINDS: Final = (
    MALFORMED, NO_TOKEN, CROSS_SITE, NOT_FOUND, WRONG_METHOD, NOT_ACCEPTABLE, TOO_SLOW, UNCHANGED, TOO_LARGE, TOO_MUCH_WORK, WRONG_TYPE,
    INVALID, STUDY_ERRORS, CANNOT, TOO_BUSY, FAULT,
)  # fmt: skip
"""All of them."""

_BY_STATUS: Final = {404: NOT_FOUND, 405: WRONG_METHOD}


class Problem(HTTPException):
    """A request that is refused. ``more`` are further members of the answer."""

    def __init__(self, kind: Kind, detail: str, headers: Mapping[str, str] | None = None, **more: Any) -> None:
        super().__init__(kind.status, detail, dict(headers) if headers else None)
        self.kind = kind
        self.more = more


def urn(kind: Kind) -> str:
    """A kind's ``type``: a name, not an address; ``about:blank`` is for what has no meaning beyond its status (RFC 9457, 4.2.1)."""
    return f"urn:tabforge:problem:{kind.name}"


def answer(kind: Kind, detail: str, headers: Mapping[str, str] | None = None, **more: Any) -> Response:
    """A problem as it is sent."""
    told = {"type": urn(kind), "title": kind.title, "status": kind.status, "detail": detail, **more}
    return Response(json.dumps(told), kind.status, headers, MEDIA)


def answer_to(error: HTTPException) -> Response:
    """The same of what the framework or one of our own parts has raised."""
    if isinstance(error, Problem):
        return answer(error.kind, error.detail, error.headers, **error.more)
    kind = _BY_STATUS.get(error.status_code)
    if kind is not None:
        return answer(kind, _DETAILS[kind.name], error.headers)
    title = HTTPStatus(error.status_code).phrase
    told = {"type": "about:blank", "title": title, "status": error.status_code}
    return Response(json.dumps(told), error.status_code, error.headers, MEDIA)


_DETAILS: Final = {
    NOT_FOUND.name: "No such path. The description at /api/v1/openapi.json lists them all.",
    WRONG_METHOD.name: "The header Allow tells the methods of this path.",
}
