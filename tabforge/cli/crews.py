"""Who makes the exercises of a book: this process, or some processes of this machine."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Final

from tabforge.book.running import Crew, here

if TYPE_CHECKING:
    from concurrent.futures import Executor

WORTH: Final = 4
"""Exercises for each process, at least: starting one takes as long as making some exercises."""

_AHEAD: Final = 3
"""Tasks given out for each process, so that none waits for the next."""


def local(jobs: int | None, tasks: int) -> Crew:
    """Processes for so many tasks, no more than ``jobs``, or than there are processors."""
    processes = min(jobs or _processors(), tasks // WORTH)
    if processes < 2:
        return Crew(hire=here)

    def hire() -> Executor:
        from concurrent.futures import ProcessPoolExecutor  # noqa: PLC0415
        from multiprocessing import get_context  # noqa: PLC0415

        # Started afresh on every system: a copy of a process may hold locks of threads it has not.
        return ProcessPoolExecutor(processes, mp_context=get_context("spawn"), initializer=settle)

    return Crew(hire=hire, width=processes * _AHEAD)


def settle() -> None:
    """What a worker process does first: leave Ctrl-C to the one that hired it, and end when that one is gone, even if it was killed."""
    import signal  # noqa: PLC0415
    from multiprocessing import parent_process  # noqa: PLC0415
    from threading import Thread  # noqa: PLC0415

    signal.signal(signal.SIGINT, signal.SIG_IGN)
    parent = parent_process()

    def watch() -> None:
        if parent is not None:
            parent.join()
            os._exit(1)

    Thread(target=watch, daemon=True).start()


def _processors() -> int:
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on every system
        return os.cpu_count() or 1
