"""A job's study, read and compiled, and its findings as other programs are told them."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from tabforge.diagnostics.render_json import report
from tabforge.pipeline import Outcome, study_from
from tabforge.service.tasks.job import CannotError, Job

if TYPE_CHECKING:
    from collections.abc import Sequence

    from tabforge.model.score import Score, Section


class StudyError(Exception):
    """The study has errors."""

    def __init__(self, outcome: Outcome) -> None:
        super().__init__(outcome.source.name)
        self.outcome = outcome


def outcome_of(job: Job) -> Outcome:
    """A job's study."""
    return study_from(job.name, job.data, job.changes)


def score_of(job: Job) -> Score:
    """A job's score. Raises StudyError."""
    outcome = outcome_of(job)
    if outcome.score is None:
        raise StudyError(outcome)
    return outcome.score


def findings(outcome: Outcome) -> dict[str, Any]:
    """What was found: ``diagnostics`` are those of ``schemas/report.schema.json``, ``unshown`` how many more there are."""
    (file,) = report([(outcome.source, outcome.diagnostics, outcome.unshown)], "")["files"]
    counts = {"errors": file["errors"], "advice": file["advice"], "unshown": outcome.unshown}
    return {"ok": not outcome.failed, **counts, "diagnostics": file["findings"]}


def written(told: Any) -> bytes:
    """JSON as it is sent. ASCII, so that a lone surrogate of the input survives."""
    return json.dumps(told, separators=(",", ":")).encode()


def chosen(score: Score, names: Sequence[str]) -> tuple[int, ...]:
    """The numbers of the sections of these titles, or of these numbers from 1, in order; all of them for none. Raises CannotError."""
    playing = [number for number, section in enumerate(score.sections) if section.bars]
    if not names:
        return tuple(playing)
    found: list[int] = []
    for name in names:
        own = [number for number in playing if _is(score.sections[number], name)]
        if not own and name.isdecimal() and 1 <= int(name) <= len(playing):
            own = [playing[int(name) - 1]]
        if not own:
            titles = ", ".join(score.sections[number].title or str(place) for place, number in enumerate(playing, 1))
            raise CannotError(f"This study has no block “{name}”. There are: {titles}.")
        found += own
    return tuple(sorted(set(found)))


def _is(section: Section, name: str) -> bool:
    return section.title.casefold() == name.casefold() and bool(name)
