"""What is to be done, and what came of it. Both go from process to process."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict, dataclass, field
from typing import TYPE_CHECKING, Any

from tabforge.syntax.altered import AS_WRITTEN, Changes

if TYPE_CHECKING:
    from collections.abc import Mapping

JSON = "application/json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A task, a key of ``tasks.table.TASKS``, on a study: its name, its bytes, what is changed of it.

    ``options`` are the task's own, JSON.
    """

    task: str
    name: str = ""
    data: bytes = b""
    changes: Changes = AS_WRITTEN
    options: Mapping[str, Any] = field(default_factory=dict)

    def key(self) -> str:
        """The same for the same work, and for no other."""
        said = json.dumps([self.task, self.name, asdict(self.changes), dict(self.options)], sort_keys=True)
        return hashlib.sha256(said.encode() + b"\0" + self.data).hexdigest()


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What came of a job: a body with its media type. ``suffix``: the end of its file's name, with the dot, where it is a file.

    ``problem`` is the name of a kind of problem instead, ``detail`` its sentence; then the body is the study's findings, JSON, or empty.
    ``spent``: milliseconds of each part of the work.
    """

    body: bytes = b""
    media: str = JSON
    suffix: str = ""
    problem: str = ""
    detail: str = ""
    spent: Mapping[str, float] = field(default_factory=dict)


class CannotError(Exception):
    """What is asked for cannot be made of this study; its text says why, for a person."""
