"""Workers and the lanes that lead to them: one request running, one waiting per page.

A newer request of a lane takes the place of the one that waits. What runs too long, or is no
longer wanted, is ended with its process; a new worker starts at once.
"""

import asyncio
import json
import sys
from asyncio.subprocess import PIPE, Process
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from typing import Any

from shedlight.web.worker import MEANWHILE

Answer = dict[str, Any]
Tell = Callable[[Answer], None]

LONGEST_ANSWER = 64 * 1024 * 1024  # bytes in a line
MOST_LANES = 64
START_TIME = 60.0  # a cold machine opens the libraries [s]

SUPERSEDED: Answer = {"superseded": True}
STOPPED: Answer = {"stopped": "stopped before it was done"}
BUSY: Answer = {"fault": "too many pages are open at once; close some and try again"}
TOO_LONG: Answer = {"stopped": "this took too long and was ended; nothing was lost"}
DIED: Answer = {"fault": "the calculation ended without an answer; please report these values"}


class Worker:
    """One process that works out one request at a time."""

    def __init__(self, time_limit: float) -> None:
        """Keep the time that one request may take [s]."""
        self.time_limit = time_limit
        self._process: Process | None = None
        self._free = asyncio.Lock()

    async def start(self) -> None:
        """Have a process ready before the first request."""
        async with self._free:
            await self._ready()

    async def work(self, request: Answer, tell: Tell | None = None) -> Answer:
        """Work out one request, when those before it are done.

        Args:
            request: What the worker is asked, with the name of the `job`.
            tell: Is told what comes before the answer, from jobs that tell how far they are.
        """
        async with self._free:
            try:
                process = await self._ready()
                return await asyncio.wait_for(_asked(process, request, tell), self.time_limit)
            except TimeoutError:
                await self.end()
                return TOO_LONG
            except (BrokenPipeError, ConnectionError, EOFError):
                await self.end()
                return DIED
            except asyncio.CancelledError:
                await self.end()
                raise

    async def end(self) -> None:
        """End the process; the next request starts another."""
        process, self._process = self._process, None
        if process is None:
            return
        with suppress(ProcessLookupError):
            process.kill()
        assert process.stdin is not None
        process.stdin.close()
        await process.wait()
        # Lets the pipes close before the loop may end.
        await asyncio.sleep(0)

    async def _ready(self) -> Process:
        if self._process is None or self._process.returncode is not None:
            self._process = await asyncio.create_subprocess_exec(
                sys.executable,
                "-m",
                "shedlight.web.worker",
                stdin=PIPE,
                stdout=PIPE,
                limit=LONGEST_ANSWER,
            )
            await asyncio.wait_for(_line(self._process), START_TIME)
        return self._process


async def _asked(process: Process, request: Answer, tell: Tell | None) -> Answer:
    assert process.stdin is not None
    process.stdin.write(json.dumps(request).encode("utf-8") + b"\n")
    await process.stdin.drain()
    while MEANWHILE in (found := await _line(process)):
        if tell is not None:
            tell(found[MEANWHILE])
    return found


async def _line(process: Process) -> Answer:
    assert process.stdout is not None
    line = await process.stdout.readline()
    if not line:
        raise EOFError
    found: Answer = json.loads(line)
    return found


@dataclass
class _Lane:
    """What one page has asked of one worker; a waiting request is told whether it may run."""

    busy: bool = False
    users: int = 0
    running: asyncio.Task[Answer] | None = None
    waiting: asyncio.Future[bool] | None = None

    async def turn(self) -> bool:
        """Wait until the lane is free; False if a newer request came meanwhile."""
        if not self.busy:
            self.busy = True
            return True
        self.dismiss()
        own: asyncio.Future[bool] = asyncio.get_running_loop().create_future()
        self.waiting = own
        try:
            return await own
        finally:
            if self.waiting is own:
                self.waiting = None

    def dismiss(self) -> None:
        """Tell the one that waits that it is no longer wanted."""
        if self.waiting is not None and not self.waiting.done():
            self.waiting.set_result(False)

    def leave(self) -> None:
        """Let the next one run; the lane stays taken for it."""
        self.running = None
        self.busy = self.waiting is not None and not self.waiting.done()
        if self.busy and self.waiting is not None:
            self.waiting.set_result(True)


class Crew:
    """The workers of a server, and the lanes of its pages."""

    def __init__(self, time_limits: dict[str, float]) -> None:
        """One worker for each name, with the time that one of its requests may take [s]."""
        self._workers = {name: Worker(limit) for name, limit in time_limits.items()}
        self._lanes: dict[tuple[str, str], _Lane] = {}

    async def start(self, names: Iterable[str]) -> None:
        """Have workers ready before they are asked; the others start with their first request.

        Args:
            names: Which workers.
        """
        await asyncio.gather(*(self._workers[name].start() for name in names))

    async def end(self) -> None:
        """End every worker."""
        for page, name in list(self._lanes):
            self.stop(page, name)
        await asyncio.gather(*(worker.end() for worker in self._workers.values()))

    async def ask(
        self, page: str, worker: str, request: Answer, tell: Tell | None = None
    ) -> Answer:
        """Work out the newest request of a page.

        Args:
            page: Which page asks.
            worker: The name of the worker.
            request: What it is asked.
            tell: Is told what comes before the answer.
        """
        if (page, worker) not in self._lanes and len(self._lanes) >= MOST_LANES:
            return BUSY
        with self._lane(page, worker) as lane:
            if not await lane.turn():
                return SUPERSEDED
            lane.running = asyncio.ensure_future(self._workers[worker].work(request, tell))
            try:
                return await lane.running
            except asyncio.CancelledError:
                if lane.running.cancelled():
                    return STOPPED
                raise
            finally:
                lane.leave()

    def stop(self, page: str, worker: str) -> bool:
        """End what a page has running; whether anything was.

        Args:
            page: Which page.
            worker: The name of the worker.
        """
        lane = self._lanes.get((page, worker))
        if lane is None:
            return False
        lane.dismiss()
        running = lane.running
        return running is not None and bool(running.cancel())

    @contextmanager
    def _lane(self, page: str, worker: str) -> Iterator[_Lane]:
        lane = self._lanes.setdefault((page, worker), _Lane())
        lane.users += 1
        try:
            yield lane
        finally:
            lane.users -= 1
            if not lane.users:
                del self._lanes[page, worker]
