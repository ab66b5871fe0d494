"""Following long work: every piece as a line of its own, as soon as it is there."""

import asyncio
import json
from collections.abc import AsyncIterator
from contextlib import suppress
from typing import Any

from shedlight.web.crew import Crew

Answer = dict[str, Any]


async def followed(crew: Crew, page: str, worker: str, request: Answer) -> AsyncIterator[bytes]:
    """The pieces of an answer as JSON lines, the answer last; left early, the work is ended.

    Args:
        crew: The workers.
        page: Which page asks.
        worker: The name of the worker.
        request: What it is asked.
    """
    pieces: asyncio.Queue[Answer] = asyncio.Queue()
    work = asyncio.ensure_future(crew.ask(page, worker, request, pieces.put_nowait))
    work.add_done_callback(lambda _: pieces.put_nowait({}))
    try:
        while piece := await pieces.get():
            yield _line(piece)
        yield _line(work.result())
    finally:
        if not work.done():
            work.cancel()
            with suppress(asyncio.CancelledError):
                await work


def _line(piece: Answer) -> bytes:
    return json.dumps(piece, ensure_ascii=True, allow_nan=False).encode("ascii") + b"\n"
