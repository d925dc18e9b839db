"""A request's body as the object it must be. Read strictly: nothing of it is taken for something else, however it is made."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, Sequence
from typing import Any, Final, NoReturn, TypeVar

from pydantic import TypeAdapter, ValidationError
from starlette.requests import Request

from tabforge.limits import MAX_JSON_DEPTH
from tabforge.readers.json_scan import depth
from tabforge.service.problems import INVALID, MALFORMED, WRONG_TYPE, Problem

T = TypeVar("T")

_DEEPEST: Final = MAX_JSON_DEPTH + 2
"""A document may be as deep as a file's, and lies within the request's own object."""

_MOST_TOLD: Final = 20


def body_of(kind: Any) -> Callable[[Request], Awaitable[Any]]:
    """A dependency that reads a body of this kind, a model or several of which it is one."""
    adapter: TypeAdapter[Any] = TypeAdapter(kind)

    async def read(request: Request) -> Any:
        _see_type(request.headers.get("content-type", ""))
        value = parsed(await request.body())
        try:
            return adapter.validate_python(value)
        except ValidationError as error:
            told = _told(error, value)
            raise Problem(INVALID, f"{told[0]['pointer'] or 'The body'}: {told[0]['detail']}.", errors=told) from error

    return read


def _see_type(given: str) -> None:
    media, _, parameters = given.partition(";")
    charset = next((each.split("=", 1)[1] for each in parameters.split(";") if each.strip().lower().startswith("charset=")), "utf-8")
    if media.strip().lower() != "application/json" or charset.strip().strip('"').lower() not in ("utf-8", "utf8"):
        raise Problem(WRONG_TYPE, "Send application/json in UTF-8.", {"Accept-Post": "application/json"})


def parsed(body: bytes) -> Any:
    """JSON (RFC 8259), without the same name twice in an object, NaN and Infinity. Raises Problem."""
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        _malformed(f"The byte at {error.start} is not UTF-8.")
    if depth(text) > _DEEPEST:
        _malformed(f"There are more than {_DEEPEST} arrays and objects inside one another.")
    try:
        return json.loads(text, object_pairs_hook=_members, parse_constant=_no_constant)
    except json.JSONDecodeError as error:
        _malformed(f"This is not JSON: line {error.lineno}, column {error.colno}: {error.msg}.")
    except RecursionError:
        _malformed("There are too many arrays and objects inside one another.")
    except ValueError as error:  # a number of thousands of digits
        _malformed(f"This is not JSON that can be read: {error}.")


def _malformed(detail: str) -> NoReturn:
    raise Problem(MALFORMED, detail)


def _members(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    made = dict(pairs)
    if len(made) < len(pairs):
        names = [name for name, _ in pairs]
        twice = next(name for name in names if names.count(name) > 1)
        _malformed(f"The name {twice[:60]!r} stands twice in one object.")
    return made


def _no_constant(text: str) -> NoReturn:
    _malformed(f"{text} is no number of JSON.")


def _told(error: ValidationError, value: Any) -> list[dict[str, str]]:
    """What is wrong and where in the value, without what was sent."""
    found = error.errors(include_url=False, include_context=False, include_input=False)[:_MOST_TOLD]
    told = [(_steps(each["loc"], value, each["type"] == "missing"), each["msg"].removeprefix("Value error, ")) for each in found]
    told.sort(key=lambda each: -len(each[0]))  # of the ways it can be taken, the one that fits best fails last
    return [{"pointer": _pointer(steps), "detail": message} for steps, message in told]


def _steps(place: Sequence[Any], value: Any, missing: bool) -> list[Any]:
    """The steps that lead through the value itself: others name the models it was tried as."""
    steps = []
    for step in place:
        if (isinstance(value, dict) and step in value) or (isinstance(value, list) and isinstance(step, int) and step < len(value)):
            steps.append(step)
            value = value[step]
    return [*steps, place[-1]] if missing else steps


def _pointer(place: Sequence[Any]) -> str:
    return "".join("/" + str(step).replace("~", "~0").replace("/", "~1") for step in place)


def invalid(errors: Sequence[Any]) -> Problem:
    """The problem with what the framework itself has read of a path or a query."""
    told = [{"pointer": _pointer(each["loc"]), "detail": str(each["msg"])} for each in errors[:_MOST_TOLD]]
    return Problem(INVALID, f"{told[0]['pointer']}: {told[0]['detail']}." if told else "It cannot be read.", errors=told)
