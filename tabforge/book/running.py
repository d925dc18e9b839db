"""Orders carried out by workers, whoever they are: results as they come, told in the order of the book, and workers that die replaced."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Generator, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from tabforge.book.working import Task, Worked, work

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future

TRIES: Final = 2
"""How often an exercise is tried whose worker dies."""

MOST_HIRED: Final = 6
"""How often workers are hired again before one of them has made anything: then it is not the exercises that kill them."""

LOOKS: Final = 2.0
"""Seconds without a result after which somebody looks whether there will be any."""

LOST: Final = (
    "  The process that made this exercise died, and again when it was tried once more. Memory may be short, or the study too large.\n"
)


class NobodyWorksError(Exception):
    """Workers die whatever they are given; its text says so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crew:
    """Workers. ``hire`` gives an executor, and another one when the first is broken; ``width`` is how many tasks it is given at a time.

    ``deaths`` are exceptions that say that the worker of this one task has died, and the others live on. ``look`` is called now and then
    while nothing comes, and raises if nothing will.
    """

    hire: Callable[[], Executor]
    width: int = 1
    deaths: tuple[type[BaseException], ...] = ()
    look: Callable[[], None] = lambda: None


def here() -> Executor:
    """An executor that does everything at once in this very thread."""
    from concurrent.futures import Executor, Future  # noqa: PLC0415  # slow to load, and a build without changes needs none

    class Here(Executor):
        def submit(self, fn, /, *args, **kwargs):  # type: ignore[no-untyped-def]  # as the class above has it
            future: Future[object] = Future()
            try:
                future.set_result(fn(*args, **kwargs))
            except Exception as error:
                future.set_exception(error)
            return future

    return Here()


def carry_out(
    tasks: Sequence[Task], crew: Crew, came: Callable[[int, Worked], None]
) -> Generator[tuple[int, Worked], None, None]:
    """Have tasks worked on, and give each task's place in the sequence and what became of it, in that order whoever finished first.

    ``came`` is called in this thread as soon as a result is there, in any order. An exception of ``work``, or of ``came``, ends it all;
    then, and when the caller stops listening, what has not begun is not begun any more. Raises NobodyWorksError if no worker lives long
    enough to make anything.
    """
    return _Run(tasks, crew, came).results()


@dataclass(slots=True)
class _Run:
    tasks: Sequence[Task]
    crew: Crew
    came: Callable[[int, Worked], None]
    executor: Executor | None = None
    flying: dict[Future[Worked], int] = field(default_factory=dict)
    waiting: deque[int] = field(default_factory=deque)
    suspects: deque[int] = field(default_factory=deque)
    deaths: dict[int, int] = field(default_factory=dict)
    finished: dict[int, Worked] = field(default_factory=dict)
    hired: int = 0

    def results(self) -> Generator[tuple[int, Worked], None, None]:
        self.waiting.extend(range(len(self.tasks)))
        told = 0
        try:
            while told < len(self.tasks):
                self._submit()
                self._collect()
                while told in self.finished:
                    yield told, self.finished.pop(told)
                    told += 1
        finally:
            self._dismiss()

    def _submit(self) -> None:
        """Give out work. Who is suspected to kill workers works alone, so that it is known who did it."""
        from concurrent.futures import BrokenExecutor  # noqa: PLC0415

        if self.executor is None:
            self.hired += 1
            if self.hired > MOST_HIRED:
                raise NobodyWorksError(f"The processes that make exercises died {MOST_HIRED} times before any was made.")
            self.executor = self.crew.hire()
        source, width = (self.suspects, 1) if self.suspects else (self.waiting, self.crew.width)
        if self.suspects and self.flying:
            return
        while source and len(self.flying) < width:
            try:
                future = self.executor.submit(work, self.tasks[source[0]])
            except BrokenExecutor:
                if not self.flying:  # it has not even begun
                    self._dismiss()
                    self._died(source.popleft())
                return
            self.flying[future] = source.popleft()

    def _collect(self) -> None:
        from concurrent.futures import FIRST_COMPLETED, BrokenExecutor, CancelledError, wait  # noqa: PLC0415

        if not self.flying:
            return
        done, _ = wait(self.flying, timeout=LOOKS, return_when=FIRST_COMPLETED)
        if not done:
            self.crew.look()
        broken, fallen = False, []
        for future in sorted(done, key=self.flying.__getitem__):
            number = self.flying.pop(future)
            try:
                worked = future.result()
            except (BrokenExecutor, CancelledError):
                broken = True
                fallen.append(number)
            except self.crew.deaths:
                fallen.append(number)
            else:
                self.hired = 0
                self._finish(number, worked)
        if broken:
            fallen += self._abandoned()
            self._dismiss()
        for number in sorted(fallen):
            self._died(number)

    def _abandoned(self) -> list[int]:
        """Whoever was at work when the executor broke; those who had just finished have."""
        fallen = []
        for future, number in self.flying.items():
            if future.done() and not future.cancelled() and future.exception() is None:
                self._finish(number, future.result())
            else:
                fallen.append(number)
        self.flying.clear()
        return fallen

    def _died(self, number: int) -> None:
        self.deaths[number] = self.deaths.get(number, 0) + 1
        if self.deaths[number] < TRIES:
            self.suspects.append(number)
        else:
            self._finish(number, Worked(entry=b"", report=LOST, failed=True))

    def _finish(self, number: int, worked: Worked) -> None:
        self.came(number, worked)
        self.finished[number] = Worked(entry=b"", report=worked.report, failed=worked.failed)  # its bytes are the caller's

    def _dismiss(self) -> None:
        if self.executor is not None:
            self.executor.shutdown(wait=not self.flying, cancel_futures=True)  # nobody may be left there to wait for
            self.executor = None
