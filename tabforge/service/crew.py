"""Processes that do the work: as many jobs at once as there are processes, and none for longer than it may last.

A thread cannot be ended, a process can. Each one keeps its engraving program and all it has imported; one that has been ended, or has
died, is started anew.
"""

from __future__ import annotations

import asyncio
import contextlib
import os
import time
from concurrent.futures import ThreadPoolExecutor
from multiprocessing import get_context
from typing import TYPE_CHECKING, Any, Final

from tabforge.service.problems import TOO_BUSY, TOO_MUCH_WORK, Problem
from tabforge.service.settings import WORK_BYTES, Config
from tabforge.service.tasks.job import Answer, Job

if TYPE_CHECKING:
    from multiprocessing.connection import Connection
    from multiprocessing.context import SpawnProcess

_POLL: Final = 0.5
_ABANDONED: Final = 1.0
"""Seconds that work goes on for which nobody waits any more: its answer is kept, and is often wanted again."""


class FaultError(Exception):
    """A bug in a task; its text is the other process's traceback."""


def work(pipe: Connection) -> None:
    """What a process does: job in, answer out, until the pipe is closed. Ctrl-C is left to the one that hired it."""
    import signal  # noqa: PLC0415
    import traceback  # noqa: PLC0415

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _limit_memory()
    from tabforge.service.tasks.table import do, warm  # noqa: PLC0415

    warm()
    while True:
        try:
            job = pipe.recv()
        except (EOFError, OSError):
            return
        try:
            pipe.send(do(job))
        except Exception:
            pipe.send(traceback.format_exc())


def _limit_memory() -> None:
    try:
        import resource  # noqa: PLC0415  # not on every system
    except ImportError:
        return
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(resource.RLIMIT_AS, (WORK_BYTES, WORK_BYTES))


class Worker:
    """One process. Its methods block; they are called in a thread."""

    def __init__(self, seconds: float) -> None:
        self._seconds = seconds
        self._process: SpawnProcess | None = None
        self._pipe: Connection | None = None
        self.abandoned = False

    def start(self) -> None:
        """Start the process, if it is not there. It is started afresh: a copy of this one would have its sockets."""
        if self._process is None or not self._process.is_alive():
            self.stop()
            context = get_context("spawn")
            self._pipe, other = context.Pipe()
            self._process = context.Process(target=work, args=(other,), daemon=True)
            self._process.start()
            other.close()

    def do(self, job: Job) -> Answer:
        """Have a job done. Raises Problem if it takes too long, FaultError for a bug."""
        self.start()
        assert self._pipe is not None  # it has just been started
        try:
            self._pipe.send(job)
            if not self._came(time.monotonic() + self._seconds):
                self.stop()
                raise Problem(TOO_MUCH_WORK, f"It was not done after {self._seconds:g} seconds. Take fewer bars or repeats.")
            answer: Any = self._pipe.recv()
        except (EOFError, OSError) as error:
            self.stop()
            raise Problem(TOO_MUCH_WORK, "It needs more memory than is given to one request. Take fewer bars or repeats.") from error
        if isinstance(answer, str):
            raise FaultError(answer)
        assert isinstance(answer, Answer)
        return answer

    def _came(self, until: float) -> bool:
        assert self._pipe is not None
        given_up = None
        while (left := until - time.monotonic()) > 0:
            if self._pipe.poll(min(_POLL, left)):
                return True
            if self.abandoned:
                given_up = given_up or time.monotonic()
                if time.monotonic() - given_up > _ABANDONED:
                    return False
        return False

    def stop(self) -> None:
        """End the process at once."""
        if self._pipe is not None:
            self._pipe.close()
            self._pipe = None
        if self._process is not None:
            self._process.kill()
            self._process.join()
            self._process = None


class Crew:
    """The processes of a service. Jobs wait their turn, but not too many, and not for too long."""

    def __init__(self, config: Config) -> None:
        self._config = config
        self._workers = [Worker(config.work_seconds) for _ in range(max(1, config.workers))]
        self._free: asyncio.Queue[Worker] = asyncio.Queue()
        self._threads = ThreadPoolExecutor(len(self._workers), "worker")
        self.waiting = 0

    async def start(self) -> None:
        """Start all processes; they get ready while the first requests come."""
        for worker in self._workers:
            await asyncio.get_running_loop().run_in_executor(self._threads, worker.start)
            self._free.put_nowait(worker)

    def stop(self) -> None:
        """End all of them at once."""
        for worker in self._workers:
            worker.stop()
        self._threads.shutdown(wait=False, cancel_futures=True)

    async def do(self, job: Job) -> Answer:
        """Have a job done by the next free process. Raises Problem, FaultError.

        If the caller is cancelled while it waits, the job is not begun.
        """
        worker = await self._next()
        done = asyncio.get_running_loop().run_in_executor(self._threads, worker.do, job)
        done.add_done_callback(lambda _: self._back(worker))
        try:
            return await asyncio.shield(done)
        except asyncio.CancelledError:
            worker.abandoned = True
            raise

    def _back(self, worker: Worker) -> None:
        worker.abandoned = False
        self._free.put_nowait(worker)

    async def _next(self) -> Worker:
        if self.waiting >= self._config.max_waiting:
            raise Problem(TOO_BUSY, "All processes are at work, and enough requests wait already.", {"Retry-After": "2"})
        self.waiting += 1
        try:
            return await asyncio.wait_for(self._free.get(), self._config.wait_seconds)
        except TimeoutError as error:
            raise Problem(TOO_BUSY, "All processes have been at work all the time.", {"Retry-After": "5"}) from error
        finally:
            self.waiting -= 1


def usual_workers() -> int:
    """As many as there are processors, but at least two, so that a short job need not wait for a long one."""
    return max(2, min(8, os.cpu_count() or 1))
