"""Checking a study and laying it out."""

from __future__ import annotations

from tabforge.pipeline import tidied
from tabforge.service.tasks.job import Answer, Job
from tabforge.service.tasks.studies import StudyError, findings, outcome_of, written


def check(job: Job) -> Answer:
    """Everything there is to say of it."""
    return Answer(body=written(findings(outcome_of(job))))


def tidy(job: Job) -> Answer:
    """It in the canonical layout; a document is laid out in the riff language. Settings are not looked at: the text stays what it says."""
    text, outcome = tidied(job.name, job.data)
    if text is None:
        raise StudyError(outcome)
    return Answer(body=written({"text": text, **findings(outcome), "ok": True}))
