"""Running a coroutine while a browser is driven: its driver keeps the main thread's loop."""

import asyncio
from collections.abc import Coroutine
from concurrent.futures import ThreadPoolExecutor
from typing import Any, TypeVar

T = TypeVar("T")


def run_apart(story: Coroutine[Any, Any, T]) -> T:
    """What a coroutine gives, run to its end in a thread of its own."""
    with ThreadPoolExecutor(1) as apart:
        return apart.submit(asyncio.run, story).result()
