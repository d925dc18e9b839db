"""Work that kills its worker, as running out of memory would.

A task's study says how: ``always``, or ``once PATH``, a file to remember by.
"""

from __future__ import annotations

import os
import signal
import time
from pathlib import Path

from tabforge.book.working import Task, Worked, work

__all__ = ["die", "slowly"]


def die(task: Task) -> Worked:
    """Work, or be killed."""
    how, _, path = task.data.decode().partition(" ")
    if how == "always" or (how == "once" and not Path(path).exists()):
        if path:
            Path(path).touch()
        os.kill(os.getpid(), signal.SIGKILL)
    return Worked(entry=task.data, report=f"{task.exercise.file} made\n", failed=False)


def slowly(task: Task) -> Worked:
    """Work, so slowly that there is time to kill whoever does it."""
    time.sleep(0.15)
    return work(task)
