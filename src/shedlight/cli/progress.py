"""Say what is being done while it takes time; silent where nobody watches."""

import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn

from shedlight.workings.apart import let_wait


@contextmanager
def working(what: str) -> Iterator[None]:
    """Show a spinner with `what` on the error stream of a terminal until done."""
    before = set(threading.enumerate())
    with Console(stderr=True).status(f"{what} …"):
        for spinner in set(threading.enumerate()) - before:
            let_wait(spinner)
        yield


@contextmanager
def counting(what: str) -> Iterator[Callable[[int, int], None]]:
    """Show a bar with what is left on the error stream of a terminal; a line elsewhere.

    Args:
        what: What is being done.
    """
    console = Console(stderr=True)
    columns = (TextColumn(what), BarColumn(), MofNCompleteColumn(), TimeRemainingColumn())
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task(what, total=None)

        def told(done: int, count: int) -> None:
            bar.update(task, completed=done, total=count)

        yield told
