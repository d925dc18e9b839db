"""Name to function: the tasks, and how one is done."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from importlib import import_module
from typing import Final

from tabforge.service.settings import MAX_ANSWER_BYTES
from tabforge.service.tasks.job import Answer, CannotError, Job
from tabforge.service.tasks.studies import StudyError, findings, written

_TOO_LARGE: Final = f"Its answer would have more than {MAX_ANSWER_BYTES // 1024**2} MiB. Take fewer bars or repeats, or a smaller format."

TASKS: Final[dict[str, str]] = {
    "check": "checking",
    "tidy": "checking",
    "export": "exporting",
    "explain": "explaining",
    "diagram": "drawing",
    "play": "playing",
    "view": "viewing",
}
"""A task's name, which is its function's → the module that has it."""


def do(job: Job) -> Answer:
    """Do a job. What its user has done wrong comes back as an answer that names a kind of problem; an exception is a bug."""
    function: Callable[[Job], Answer] = getattr(import_module(f"tabforge.service.tasks.{TASKS[job.task]}"), job.task)
    try:
        answer = function(job)
        return answer if len(answer.body) <= MAX_ANSWER_BYTES else Answer(problem="too-much-work", detail=_TOO_LARGE)
    except StudyError as error:
        return Answer(body=written(findings(error.outcome)), problem="study-errors", detail="Its diagnostics say where and why.")
    except CannotError as error:
        return Answer(problem="cannot", detail=str(error))
    except MemoryError:
        return Answer(problem="too-much-work", detail="It needs more memory than is given to one request. Take fewer bars or repeats.")


def warm() -> None:
    """Load what every job needs, and do one: the first request should not pay for it."""
    with suppress(Exception):  # whatever is wrong will be told to the first who asks
        do(Job(task="view", name="warm", data=b"scale C3 major\nriff\n  rhythm q q q q\n  degrees 1 2 3 4\n"))
