"""The paths that give a study as a file."""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Depends, Query, Request, Response
from pydantic import ValidationError

from tabforge.service.api.answering import done, job_of
from tabforge.service.bodies import body_of
from tabforge.service.describing import says, takes
from tabforge.service.inputs import ROOT, Settings, StudyInput
from tabforge.service.problems import CANNOT, INVALID, NOT_ACCEPTABLE, NOT_FOUND, STUDY_ERRORS, UNCHANGED, Problem
from tabforge.service.state import Served
from tabforge.service.tasks.exporting import FORMATS, Format

router = APIRouter(tags=["exports"], default_response_class=Response)

_FILES: Final[dict[str, Any]] = {each.media.partition(";")[0]: {} for each in FORMATS.values()}


@router.post(
    "/export",
    openapi_extra=takes(StudyInput),
    responses=says(_FILES, "The file, in the format the client likes best", NOT_ACCEPTABLE, UNCHANGED, STUDY_ERRORS, CANNOT, work=True),
)
async def export_accepted(request: Request, service: Served, asked: Annotated[StudyInput, Depends(body_of(StudyInput))]) -> Response:
    """A study as a file, in the format that the header Accept likes best; MusicXML if it likes all alike."""
    wanted = accepted(", ".join(request.headers.getlist("accept")))
    return await done(request, service, await job_of(service, "export", asked, format=wanted.name))


@router.post(
    "/export/{format}",
    openapi_extra=takes(StudyInput, path={"format": list(FORMATS)}),
    responses=says(_FILES, "The file", NOT_FOUND, UNCHANGED, STUDY_ERRORS, CANNOT, work=True),
)
async def export(request: Request, format: str, service: Served, asked: Annotated[StudyInput, Depends(body_of(StudyInput))]) -> Response:
    """A study as a file of a format."""
    return await done(request, service, await job_of(service, "export", asked, format=_format(format).name))


@router.get(
    "/studies/{id}/export/{format}",
    openapi_extra={"x-path": {"format": list(FORMATS)}},
    responses=says(_FILES, "The file", NOT_FOUND, STUDY_ERRORS, CANNOT, INVALID, work=True, cached=True),
    tags=["watched folder"],
)
async def export_watched(
    request: Request,
    id: str,
    format: str,
    service: Served,
    key: Annotated[str | None, Query(pattern=ROOT)] = None,
    instrument: str | None = None,
    tuning: str | None = None,
    tempo: Annotated[float | None, Query(ge=10, le=500, allow_inf_nan=False)] = None,
    hand: Annotated[str | None, Query(pattern="^(?:right|left)$")] = None,
    layout: str | None = None,
) -> Response:
    """A study of the watched folder as a file of a format, in other settings if need be: for a link."""
    said = {"key": key, "instrument": instrument, "tuning": tuning, "tempo": tempo, "hand": hand, "layout": layout}
    try:
        settings = Settings.model_validate({word: value for word, value in said.items() if value is not None})
    except ValidationError as error:
        first = error.errors(include_url=False, include_input=False, include_context=False)[0]
        raise Problem(INVALID, f"{first['loc'][0]}: {first['msg']}.") from error
    asked = StudyInput(study=id[:64], settings=settings)
    return await done(request, service, await job_of(service, "export", asked, format=_format(format).name))


def _format(name: str) -> Format:
    found = FORMATS.get(name)
    if found is None:
        raise Problem(NOT_FOUND, f"There is no such format. There are: {', '.join(FORMATS)}.")
    if not found.installed:
        raise Problem(NOT_FOUND, f"The format {name} needs an extra of the installation: pip install 'tabforge[{found.extra}]'.")
    return found


def accepted(header: str) -> Format:
    """The format that an Accept header likes best (RFC 9110, section 12.5.1), the earlier one of two liked alike. Raises Problem."""
    ranges = [_range(each) for each in header.split(",") if each.strip()] or [("*/*", 1.0)]
    best, liked = None, 0.0
    for each in FORMATS.values():
        if not each.installed:
            continue
        media = each.media.partition(";")[0]
        fitting = [(name.count("*"), -quality) for name, quality in ranges if name in (media, media.partition("/")[0] + "/*", "*/*")]
        if fitting and -min(fitting)[1] > liked:
            best, liked = each, -min(fitting)[1]
    if best is None:
        made = ", ".join(each.media.partition(";")[0] for each in FORMATS.values() if each.installed)
        raise Problem(NOT_ACCEPTABLE, f"There are: {made}.")
    return best


def _range(text: str) -> tuple[str, float]:
    name, *parameters = (each.strip() for each in text.split(";"))
    quality = 1.0
    for each in parameters:
        if each.lower().startswith("q="):
            try:
                quality = min(1.0, max(0.0, float(each[2:])))
            except ValueError:
                quality = 0.0
    return name.lower(), quality
