"""Work that takes too long or too much, waits too long, or is no longer wanted; and what is wanted again."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable
from typing import TypeVar

import pytest

from tabforge.service.crew import Crew, FaultError
from tabforge.service.desk import Desk
from tabforge.service.problems import CANNOT, Problem
from tabforge.service.settings import Config
from tabforge.service.tasks.job import Answer, Job
from tests.service.conftest import SMALL

T = TypeVar("T")

RIFF = "riff\n  rhythm e e e e e e e e\n  degrees 1 2 3 4 5 6 7 8 | %*998\n"


def heavy(riffs: int = 1) -> str:
    """A thousand bars in each riff: some seconds of engraving."""
    return "scale A2 minor\n" + RIFF * riffs



def with_crew(config: Config, use: Callable[[Crew], Awaitable[T]]) -> T:
    async def run() -> T:
        crew = Crew(config)
        await crew.start()
        try:
            return await use(crew)
        finally:
            await asyncio.to_thread(crew.stop)

    return asyncio.run(run())


def check(text: str = SMALL) -> Job:
    return Job(task="check", name="x", data=text.encode())


def view(text: str) -> Job:
    return Job(task="view", name="x", data=text.encode())


def test_work_that_takes_too_long_is_ended_and_the_next_is_done() -> None:
    async def use(crew: Crew) -> Answer:
        await crew.do(check())  # it is there
        crew._workers[0]._seconds = 0.5
        with pytest.raises(Problem) as refused:
            await crew.do(view(heavy()))
        assert (refused.value.status_code, refused.value.kind.name) == (413, "too-much-work")
        crew._workers[0]._seconds = 30
        return await crew.do(check())

    assert b'"ok":true' in with_crew(Config(workers=1), use).body


def test_those_that_wait_are_not_too_many_and_do_not_wait_too_long() -> None:
    async def use(crew: Crew) -> list[object]:
        await crew.do(check())
        first = asyncio.create_task(crew.do(view(heavy())))
        await asyncio.sleep(0.2)
        waiting = [asyncio.create_task(crew.do(check())) for _ in range(3)]
        done = await asyncio.gather(*waiting, return_exceptions=True)
        first.cancel()
        return list(done)

    done = with_crew(Config(workers=1, max_waiting=2, wait_seconds=0.3), use)
    assert all(isinstance(each, Problem) and each.kind.name == "too-busy" for each in done)
    assert [each.headers for each in done if isinstance(each, Problem)].count({"Retry-After": "2"}) == 1  # the third


def test_a_bug_is_told_as_one_and_the_process_lives_on() -> None:
    async def use(crew: Crew) -> Answer:
        with pytest.raises(FaultError, match="KeyError"):
            await crew.do(Job(task="no such task"))
        return await crew.do(check())

    assert b'"ok":true' in with_crew(Config(workers=1), use).body


def test_a_process_that_dies_is_started_anew() -> None:
    async def use(crew: Crew) -> Answer:
        await crew.do(check())
        process = crew._workers[0]._process
        assert process is not None
        process.kill()
        process.join()
        return await crew.do(check())

    assert b'"ok":true' in with_crew(Config(workers=1), use).body


def test_work_that_nobody_waits_for_any_more_is_not_begun_or_ended() -> None:
    async def use(crew: Crew) -> float:
        await crew.do(check())
        loop = asyncio.get_running_loop()
        running, waiting = asyncio.create_task(crew.do(view(heavy(8)))), asyncio.create_task(crew.do(view(heavy(9))))
        await asyncio.sleep(0.3)
        began = loop.time()
        running.cancel()
        waiting.cancel()
        await asyncio.gather(running, waiting, return_exceptions=True)
        await crew.do(check())
        return loop.time() - began

    assert with_crew(Config(workers=1), use) < 15  # the two would take a minute


class Counting(Crew):
    """Does nothing, and counts."""

    def __init__(self) -> None:
        super().__init__(Config(workers=1))
        self.done: list[str] = []
        self.cancelled = 0

    async def do(self, job: Job) -> Answer:
        self.done.append(job.name)
        try:
            await asyncio.sleep(0.05)
        except asyncio.CancelledError:
            self.cancelled += 1
            raise
        if job.name == "bad":
            raise Problem(CANNOT, "no")
        return Answer(body=job.name.encode() * 10)





def test_what_is_wanted_by_many_is_done_once_and_kept() -> None:
    async def run() -> None:
        crew = Counting()
        desk = Desk(crew, most=100)
        answers = await asyncio.gather(*(desk.answer(Job(task="check", name="a")) for _ in range(20)))
        assert crew.done == ["a"] and not any(kept for _, kept in answers)
        assert (await desk.answer(Job(task="check", name="a")))[1]
        assert not (await desk.answer(Job(task="check", name="a", options={"x": 1})))[1]
        for number in range(20):
            await desk.answer(Job(task="check", name=str(number)))
        assert not (await desk.answer(Job(task="check", name="a")))[1], "the oldest are forgotten"
        assert desk._bytes == sum(len(each.body) for each in desk._kept.values()) <= 100
        for _ in range(2):
            with pytest.raises(Problem):
                await desk.answer(Job(task="check", name="bad"))
        assert crew.done.count("bad") == 2, "a refusal is not kept"
        assert not desk._begun and not desk._wanted

    asyncio.run(run())


def test_work_goes_on_as_long_as_one_waits_for_it() -> None:
    async def run() -> None:
        crew = Counting()
        desk = Desk(crew)
        one, two = (asyncio.create_task(desk.answer(Job(task="check", name="a"))) for _ in range(2))
        await asyncio.sleep(0.01)
        one.cancel()
        assert (await two)[0].body and not crew.cancelled
        alone = asyncio.create_task(desk.answer(Job(task="check", name="b")))
        await asyncio.sleep(0.01)
        alone.cancel()
        await asyncio.gather(alone, return_exceptions=True)
        await asyncio.sleep(0.01)
        assert crew.cancelled == 1 and not desk._begun and not desk._wanted

    asyncio.run(run())
