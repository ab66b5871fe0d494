"""Lanes and workers: newest wins, nothing piles up, what hangs is ended."""

import asyncio
from typing import Any

import pytest

from shedlight.web.crew import STOPPED, SUPERSEDED, TOO_LONG, Crew, Tell, Worker
from web.apart import run_apart

PAGE = "page-of-a-test"


class Slow(Worker):
    """A worker that answers when it is let."""

    def __init__(self) -> None:
        super().__init__(60.0)
        self.let = asyncio.Semaphore(0)
        self.begun: list[int] = []
        self.together = 0

    async def work(self, request: dict[str, Any], tell: Tell | None = None) -> dict[str, Any]:
        self.begun.append(request["number"])
        self.together += 1
        assert self.together == 1, "two requests of one page run at once"
        try:
            await self.let.acquire()
        finally:
            self.together -= 1
        return request


def crew_of(worker: Worker) -> Crew:
    crew = Crew({"quick": 1.0})
    crew._workers["quick"] = worker
    return crew


async def settled() -> None:
    for _ in range(10):
        await asyncio.sleep(0)


def test_one_runs_one_waits_and_the_newest_wins() -> None:
    async def story() -> None:
        worker = Slow()
        crew = crew_of(worker)
        asked = []
        for number in range(6):
            asked.append(asyncio.create_task(crew.ask(PAGE, "quick", {"number": number})))
            await settled()
        for _ in range(2):
            worker.let.release()
        answers = await asyncio.gather(*asked)
        assert worker.begun == [0, 5]
        assert answers == [{"number": 0}, *[SUPERSEDED] * 4, {"number": 5}]
        assert not crew._lanes

    run_apart(story())


def test_a_request_that_comes_as_one_ends_does_not_overtake() -> None:
    async def story() -> None:
        worker = Slow()
        crew = crew_of(worker)
        first = asyncio.create_task(crew.ask(PAGE, "quick", {"number": 0}))
        await settled()
        second = asyncio.create_task(crew.ask(PAGE, "quick", {"number": 1}))
        await settled()
        for _ in range(3):
            worker.let.release()
        third = asyncio.create_task(crew.ask(PAGE, "quick", {"number": 2}))
        answers = await asyncio.gather(first, second, third)
        assert worker.begun == sorted(worker.begun)
        assert answers[-1] == {"number": 2}

    run_apart(story())


def test_stopping_ends_what_runs_and_what_waits() -> None:
    async def story() -> None:
        crew = crew_of(Slow())
        running = asyncio.create_task(crew.ask(PAGE, "quick", {"number": 0}))
        await settled()
        waiting = asyncio.create_task(crew.ask(PAGE, "quick", {"number": 1}))
        await settled()
        assert crew.stop(PAGE, "quick")
        assert await running == STOPPED
        assert await waiting == SUPERSEDED
        assert not crew.stop(PAGE, "quick")

    run_apart(story())


def test_what_hangs_is_ended_and_the_next_one_is_answered(
    capfd: pytest.CaptureFixture[str],
) -> None:
    async def story() -> None:
        worker = Worker(60.0)
        await worker.start()
        first = worker._process
        worker.time_limit = 0.0
        assert await worker.work({"job": "form", "values": {}}) == TOO_LONG
        assert first is not None
        assert first.returncode is not None
        worker.time_limit = 60.0
        answer = await worker.work({"job": "form", "values": {}})
        assert "form" in answer["parts"]
        # A request that makes the worker itself fail is told, and does not stop the next one.
        assert "fault" in await worker.work({"job": "no such job"})
        assert "form" in (await worker.work({"job": "form", "values": {}}))["parts"]
        await worker.end()

    run_apart(story())
    assert "no such job" in capfd.readouterr().err
