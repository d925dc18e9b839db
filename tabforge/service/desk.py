"""Where jobs are handed in: what has been done lately is not done again, and what is being done is not begun twice."""

from __future__ import annotations

import asyncio
from collections import OrderedDict
from typing import TYPE_CHECKING

from tabforge.service.settings import MAX_KEPT_BYTES

if TYPE_CHECKING:
    from tabforge.service.crew import Crew
    from tabforge.service.tasks.job import Answer, Job


class Desk:
    """Answers by their jobs' keys, those that were wanted last; at most ``most`` bytes of them."""

    def __init__(self, crew: Crew, most: int = MAX_KEPT_BYTES) -> None:
        self._crew = crew
        self._most = most
        self._kept: OrderedDict[str, Answer] = OrderedDict()
        self._bytes = 0
        self._begun: dict[str, asyncio.Task[Answer]] = {}
        self._wanted: dict[str, int] = {}

    async def answer(self, job: Job) -> tuple[Answer, bool]:
        """The answer to a job, and whether it was there already. Raises what the crew does.

        If all who wait for a job are cancelled, so is the job, as far as it can be.
        """
        key = job.key()
        kept = self._kept.get(key)
        if kept is not None:
            self._kept.move_to_end(key)
            return kept, True
        task = self._begun.get(key)
        if task is None:
            task = self._begun[key] = asyncio.create_task(self._crew.do(job))
            task.add_done_callback(lambda done: self._done(key, done))
        self._wanted[key] = self._wanted.get(key, 0) + 1
        try:
            return await asyncio.shield(task), False
        finally:
            self._wanted[key] -= 1
            if not self._wanted[key]:
                del self._wanted[key]
                if self._begun.get(key) is task and not task.done():
                    del self._begun[key]
                    task.cancel()

    def _done(self, key: str, task: asyncio.Task[Answer]) -> None:
        if self._begun.get(key) is task:
            del self._begun[key]
        if task.cancelled() or task.exception() is not None:
            return
        answer = task.result()
        if len(answer.body) > self._most // 4 or key in self._kept:
            return
        self._kept[key] = answer
        self._bytes += len(answer.body)
        while self._bytes > self._most:
            self._bytes -= len(self._kept.popitem(last=False)[1].body)
