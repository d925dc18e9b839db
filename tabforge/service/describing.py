"""The OpenAPI document (3.1): what paths take and answer, with the schemas of studies, reports and explanations as they stand."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from fastapi.openapi.utils import get_openapi
from pydantic.json_schema import models_json_schema

from tabforge.schema import store
from tabforge.service.inputs import BlockDiagram, BlocksInput, ChordDiagram, PlayInput, ScaleDiagram, StudyInput, ViewInput, Words
from tabforge.service.problems import (
    CROSS_SITE,
    INVALID,
    MALFORMED,
    MEDIA,
    NO_TOKEN,
    NOT_FOUND,
    TOO_BUSY,
    TOO_LARGE,
    TOO_MUCH_WORK,
    TOO_SLOW,
    UNCHANGED,
    WRONG_TYPE,
    Kind,
)  # fmt: skip
from tabforge.service.shapes import ANSWERS, PLACE

if TYPE_CHECKING:
    from fastapi import FastAPI

_REF: Final = "#/components/schemas/"
_PROBLEM: Final = {"$ref": f"{_REF}ProblemDetails"}
_FILES: Final = {"study": "Study", "report": "Report", "explanation": "Explanation"}
"""A schema file → what it is called here; a definition in it is called ``file.definition``."""

_INPUTS: Final = (StudyInput, PlayInput, ViewInput, BlocksInput, Words, ScaleDiagram, ChordDiagram, BlockDiagram)
_EVERYWHERE: Final = (NO_TOKEN, CROSS_SITE, MALFORMED)
_POSTED: Final = (NOT_FOUND, TOO_SLOW, TOO_LARGE, WRONG_TYPE, INVALID)
_WORKED: Final = (TOO_BUSY, TOO_MUCH_WORK)


def takes(*models: type, path: dict[str, list[str]] | None = None) -> dict[str, Any]:
    """What a path takes: a body that is one of some models; and what its parameters may be."""
    refs = [{"$ref": _REF + model.__name__} for model in models]
    schema = refs[0] if len(refs) == 1 else {"anyOf": refs}
    body = {"required": True, "content": {"application/json": {"schema": schema}}}
    return {"requestBody": body, **({"x-path": path} if path else {})}


def says(
    answer: str | dict[str, Any] | None,
    about: str,
    *kinds: Kind,
    work: bool = False,
    cached: bool = False,
    busy: bool = False,
    status: int = 200,
) -> dict[int | str, dict[str, Any]]:
    """What a path answers: a model's name, or schemas by media type; and the kinds of problem it may have.

    ``work``: a job is done for it. ``cached``: it answers 304 to If-None-Match. ``busy``: it may have no room.
    """
    content = {"application/json": {"schema": {"$ref": _REF + answer}}} if isinstance(answer, str) else answer
    if isinstance(content, dict) and not isinstance(answer, str):
        content = {media: {"schema": schema} if schema else {} for media, schema in content.items()}
    good: dict[str, Any] = {"description": about}
    if content is not None:
        good["content"] = content
    told: dict[int | str, dict[str, Any]] = {status: good}
    if cached:
        told[304] = {"description": "It is as If-None-Match says"}
    all_kinds = [*_EVERYWHERE, *(_WORKED if work else ()), *((TOO_BUSY,) if busy else ()), *kinds]
    if work and not cached:
        all_kinds += [*_POSTED, UNCHANGED]
    by_status: dict[int, list[str]] = {}
    for kind in all_kinds:
        titles = by_status.setdefault(kind.status, [])
        if kind.title not in titles:
            titles.append(kind.title)
    for code, titles in sorted(by_status.items()):
        told[code] = {"description": "; or ".join(titles), "content": {MEDIA: {"schema": _PROBLEM}}}
    return told


def describe(app: FastAPI) -> dict[str, Any]:
    """The document of an application; made once."""
    if app.openapi_schema is None:
        made = get_openapi(title=app.title, version=app.version, summary=_SUMMARY, description=_ABOUT, routes=app.routes)
        made["servers"] = [{"url": "/"}]
        components = made.setdefault("components", {})
        components["schemas"] = {**_models(), **_schema_files()}
        components["securitySchemes"] = {"token": {"type": "http", "scheme": "bearer"}, "cookie": _COOKIE}
        if app.state.service.keys.token is not None:
            made["security"] = [{"token": []}, {"cookie": []}]
        for path in made["paths"].values():
            for operation in path.values():
                _tell_parameters(operation)
        app.openapi_schema = made
    return app.openapi_schema


_SUMMARY: Final = "Studies of a fretted instrument: checked, explained, engraved, exported"
_ABOUT: Final = "A study is posted as text in the riff language, as a document, or as the id of one in the watched folder."
_COOKIE: Final = {"type": "apiKey", "in": "cookie", "name": "tabforge"}


def _tell_parameters(operation: dict[str, Any]) -> None:
    """What the parameters of a path may be; without the framework's own answer to what is invalid."""
    allowed = operation.pop("x-path", {})
    invalid = operation["responses"].get("422", {}).get("content", {})
    if "application/json" in invalid:
        del operation["responses"]["422"]
    for parameter in operation.get("parameters", ()):
        if parameter["name"] in allowed:
            parameter["schema"] = {"type": "string", "enum": allowed[parameter["name"]]}


def _models() -> dict[str, Any]:
    modes: list[Any] = [(model, "validation") for model in (*_INPUTS, *ANSWERS)]
    _, made = models_json_schema(modes, ref_template=_REF + "{model}")
    found: dict[str, Any] = _placed(made["$defs"])
    return found


def _placed(value: Any) -> Any:
    if isinstance(value, dict):
        return {"$ref": _REF + value[PLACE]} if PLACE in value else {word: _placed(inside) for word, inside in value.items()}
    return [_placed(each) for each in value] if isinstance(value, list) else value


def _schema_files() -> dict[str, Any]:
    """The schema files as components: their definitions beside them, every reference turned."""
    found: dict[str, Any] = {}
    for name, title in _FILES.items():
        schema = _turned(store.load(name), name)
        for definition, inside in schema.pop("$defs", {}).items():
            found[f"{name}.{definition}"] = inside
        for word in ("$schema", "$id"):
            schema.pop(word, None)
        found[title] = schema
    return found


def _turned(value: Any, name: str) -> Any:
    if isinstance(value, dict):
        if isinstance(value.get("$ref"), str):
            value = {**value, "$ref": _ref(value["$ref"], name)}
        return {word: inside if word == "$ref" else _turned(inside, name) for word, inside in value.items()}
    return [_turned(each, name) for each in value] if isinstance(value, list) else value


def _ref(given: str, name: str) -> str:
    return _REF + f"{name}." + given.removeprefix("#/$defs/") if given.startswith("#/$defs/") else given
