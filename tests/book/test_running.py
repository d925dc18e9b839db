"""Workers: whose result is told when, and what becomes of the work of those that die."""

from __future__ import annotations

import threading
from collections.abc import Callable
from concurrent.futures import Executor, ProcessPoolExecutor, ThreadPoolExecutor
from dataclasses import replace
from multiprocessing import get_context
from pathlib import Path

import pytest

from tabforge.book import running
from tabforge.book.fingerprints import fingerprint
from tabforge.book.installation import StrangerError, tool
from tabforge.book.making import Making
from tabforge.book.model import Exercise, StudyOptions
from tabforge.book.packing import unpack
from tabforge.book.running import LOST, MOST_HIRED, Crew, NobodyWorksError, carry_out, here
from tabforge.book.working import Task, Worked, work
from tests.book import dying

STUDY = b'title Quay\nscale C3 major\n\nriff "Step"\n  rhythm   q q q q\n  degrees  1 2 3 4\n'


def task(data: bytes, number: int = 0) -> Task:
    exercise = Exercise(id="", number="", chapter=0, file=f"{number}.riff", options=StudyOptions())
    made = fingerprint(exercise, data, Making(), tool())
    return Task(exercise=exercise, data=data, making=Making(), tool=made.tool, packages=made.packages)


@pytest.fixture
def hired() -> list[Executor]:
    return []


@pytest.fixture
def crew(hired: list[Executor]) -> Callable[[int, int], Crew]:
    """Processes, at most so many tasks given out at a time; ``hired`` tells how often they had to be hired."""

    def make(processes: int, width: int) -> Crew:
        def hire() -> Executor:
            hired.append(ProcessPoolExecutor(processes, mp_context=get_context("spawn")))
            return hired[-1]

        return Crew(hire=hire, width=width)

    return make


def test_results_are_told_in_order_and_kept_as_they_come(monkeypatch: pytest.MonkeyPatch) -> None:
    """The first task ends last: it waits for all others."""
    others = threading.Semaphore(0)

    def wait(given: Task) -> Worked:
        if given.exercise.file == "0.riff":
            for _ in range(5):
                assert others.acquire(timeout=20)
        return Worked(entry=given.data, report=given.exercise.file, failed=False)

    monkeypatch.setattr(running, "work", wait)
    came: list[int] = []

    def note(number: int, _: Worked) -> None:
        came.append(number)
        others.release()

    crew = Crew(hire=lambda: ThreadPoolExecutor(2), width=6)
    told = list(carry_out([task(b"x", number) for number in range(6)], crew, note))
    assert [number for number, _ in told] == list(range(6))
    assert [each.report for _, each in told] == [f"{number}.riff" for number in range(6)]
    assert came[-1] == 0
    assert sorted(came) == list(range(6))


def test_a_worker_that_dies_once_costs_nothing(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, crew: Callable[[int, int], Crew], hired: list[Executor]
) -> None:
    monkeypatch.setattr(running, "work", dying.die)
    texts = [b"well", b"well", b"once " + bytes(tmp_path / "seen"), b"well", b"well", b"well"]
    kept: dict[int, bytes] = {}
    told = list(carry_out([task(each) for each in texts], crew(2, 3), lambda number, each: kept.update({number: each.entry})))
    assert [number for number, _ in told] == list(range(6))
    assert not any(each.failed for _, each in told)
    assert [kept[number] for number in range(6)] == texts
    assert len(hired) == 2


def test_an_exercise_whose_worker_dies_twice_is_given_up_and_the_others_are_made(
    monkeypatch: pytest.MonkeyPatch, crew: Callable[[int, int], Crew]
) -> None:
    monkeypatch.setattr(running, "work", dying.die)
    texts = [b"well", b"always", b"well", b"well", b"always", b"well"]
    told = dict(carry_out([task(each) for each in texts], crew(2, 4), lambda *_: None))
    assert [number for number, each in told.items() if each.failed] == [1, 4]
    assert told[1].report == LOST
    assert told[5].report == "0.riff made\n"


def test_workers_that_die_whatever_they_do_are_not_hired_for_ever(
    monkeypatch: pytest.MonkeyPatch, crew: Callable[[int, int], Crew], hired: list[Executor]
) -> None:
    monkeypatch.setattr(running, "work", dying.die)
    with pytest.raises(NobodyWorksError, match="died 6 times before any was made"):
        list(carry_out([task(b"always")] * 50, crew(1, 2), lambda *_: None))
    assert len(hired) == MOST_HIRED


def test_a_fault_in_the_work_ends_it_all(monkeypatch: pytest.MonkeyPatch) -> None:
    def fault(_: Task) -> Worked:
        raise ZeroDivisionError

    monkeypatch.setattr(running, "work", fault)
    for crew in (Crew(hire=here), Crew(hire=lambda: ThreadPoolExecutor(1), width=2)):
        with pytest.raises(ZeroDivisionError):
            list(carry_out([task(b"x")] * 3, crew, lambda *_: None))


def test_whoever_stops_listening_stops_the_work(monkeypatch: pytest.MonkeyPatch) -> None:
    begun = []

    def note(given: Task) -> Worked:
        begun.append(given)
        return Worked(entry=b"", report="", failed=False)

    monkeypatch.setattr(running, "work", note)
    results = carry_out([task(b"x")] * 9, Crew(hire=here), lambda *_: None)
    assert next(iter(results))[0] == 0
    results.close()
    assert len(begun) == 1


def test_a_worker_with_another_program_refuses() -> None:
    given = task(STUDY)
    made = unpack(work(given).entry)
    assert made is not None
    assert made.title == "Quay"
    with pytest.raises(StrangerError, match="another tabforge"):
        work(replace(given, tool="other"))
    with pytest.raises(StrangerError, match=r"has verovio \S+ instead of 0\.1\. Install the same"):
        work(replace(given, packages=("verovio 0.1",)))
    with pytest.raises(StrangerError, match="has no lute-strings"):
        work(replace(given, packages=("lute-strings 3",)))


def test_an_engraver_is_kept_for_each_thread() -> None:
    from tabforge.book.working import _engraver

    assert _engraver(1) is _engraver(1)
    assert _engraver(1) is not _engraver(2)
