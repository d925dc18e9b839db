"""The paths that take a study and say something of it."""

from __future__ import annotations

from typing import Annotated, Any, Final

from fastapi import APIRouter, Depends, Request, Response

from tabforge.service.api.answering import done, job_of
from tabforge.service.bodies import body_of
from tabforge.service.describing import says, takes
from tabforge.service.inputs import BlockDiagram, BlocksInput, ChordDiagram, PlayInput, ScaleDiagram, StudyInput, ViewInput, Words
from tabforge.service.problems import CANNOT, STUDY_ERRORS
from tabforge.service.state import Served
from tabforge.service.tasks.job import Job

router = APIRouter(tags=["studies"], default_response_class=Response)

_PICTURES: Final[dict[str, Any]] = {"image/svg+xml": {"type": "string"}, "text/plain": {"type": "string"}}


@router.post("/check", openapi_extra=takes(StudyInput), responses=says("Check", "All that is to be said of it", work=True))
async def check(request: Request, service: Served, asked: Annotated[StudyInput, Depends(body_of(StudyInput))]) -> Response:
    """Check a study: every error and all advice."""
    return await done(request, service, await job_of(service, "check", asked))


@router.post(
    "/tidy",
    openapi_extra=takes(StudyInput),
    responses=says("Tidied", "The study in the canonical layout", STUDY_ERRORS, work=True),
)
async def tidy(request: Request, service: Served, asked: Annotated[StudyInput, Depends(body_of(StudyInput))]) -> Response:
    """Lay a study out; a document is laid out in the riff language. Its settings change nothing."""
    return await done(request, service, await job_of(service, "tidy", asked))


@router.post(
    "/explain",
    openapi_extra=takes(Words, BlocksInput),
    responses=says("Explanation", "What there is to say of it", STUDY_ERRORS, CANNOT, work=True),
)
async def explain(request: Request, service: Served, asked: Annotated[Any, Depends(body_of(Words | BlocksInput))]) -> Response:
    """Explain a scale, a chord, or what a study plays, block by block."""
    if isinstance(asked, Words):
        return await done(request, service, Job(task="explain", options={"words": asked.words}))
    return await done(request, service, await job_of(service, "explain", asked, blocks=asked.blocks))


@router.post(
    "/diagram",
    openapi_extra=takes(ScaleDiagram, ChordDiagram, BlockDiagram),
    responses=says(_PICTURES, "The diagrams", STUDY_ERRORS, CANNOT, work=True),
)
async def diagram(
    request: Request, service: Served, asked: Annotated[Any, Depends(body_of(ScaleDiagram | ChordDiagram | BlockDiagram))]
) -> Response:
    """Draw a scale, a chord's grips or a study's blocks on the neck."""
    if isinstance(asked, BlockDiagram):
        more = asked.model_dump(include={"blocks", "form", "labels", "bare"})
        return await done(request, service, await job_of(service, "diagram", asked, **more))
    return await done(request, service, Job(task="diagram", options=asked.model_dump(exclude_none=True)))


@router.post("/play", openapi_extra=takes(PlayInput), responses=says("Performance", "What is heard", STUDY_ERRORS, CANNOT, work=True))
async def play(request: Request, service: Served, asked: Annotated[PlayInput, Depends(body_of(PlayInput))]) -> Response:
    """What is heard of a study: sounds, clicks and bars, in seconds."""
    options = asked.play.model_dump(exclude_none=True) if asked.play else {}
    return await done(request, service, await job_of(service, "play", asked, **options))


@router.post("/view", openapi_extra=takes(ViewInput), responses=says("View", "All that the page shows", CANNOT, work=True))
async def view(request: Request, service: Served, asked: Annotated[ViewInput, Depends(body_of(ViewInput))]) -> Response:
    """All that the page shows of a study. One with errors is no problem here: it has its diagnostics, and no music."""
    options = asked.play.model_dump(exclude_none=True) if asked.play else None
    return await done(request, service, await job_of(service, "view", asked, play=options, width=asked.width))
