"""The side of the build that runs in a worker: a thread, a process, or another machine."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from threading import get_ident
from typing import TYPE_CHECKING, Final

from tabforge.book.installation import must_be
from tabforge.book.making import Making, make
from tabforge.book.model import Exercise
from tabforge.book.packing import pack

if TYPE_CHECKING:
    from tabforge.pages import Engraver

_THREADS: Final = 64


@dataclass(frozen=True, slots=True, kw_only=True)
class Task:
    """An exercise to be made, and the program that must make it: ``tool`` and ``packages`` as its Fingerprint has them."""

    exercise: Exercise
    data: bytes
    making: Making
    tool: str
    packages: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked:
    """What became of it. ``entry`` is the packed Made, empty if there is none since nobody lived to make it; the rest is told without
    unpacking it.
    """

    entry: bytes
    report: str
    failed: bool


def work(task: Task) -> Worked:
    """Make an exercise. Raises StrangerError if another program was to make it, and MissingEngraverError as ``make`` does."""
    must_be(task.tool, task.packages)
    made = make(task.exercise, task.data, task.making, _engraver(get_ident()) if task.making.engraved else None)
    return Worked(entry=pack(made), report=made.report, failed=made.failed)


@lru_cache(maxsize=_THREADS)
def _engraver(_thread: int) -> Engraver:
    """The engraver of a thread: starting one costs as much as engraving some bars. It remembers nothing of what it has drawn."""
    from tabforge.pages import Engraver  # noqa: PLC0415  # needs the extra

    return Engraver()
