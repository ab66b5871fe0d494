"""Say what is being done while it takes time; silent where nobody watches."""

from collections.abc import Iterator
from contextlib import contextmanager

from rich.console import Console


@contextmanager
def working(what: str) -> Iterator[None]:
    """Show a spinner with `what` on the error stream of a terminal until done."""
    with Console(stderr=True).status(f"{what} …"):
        yield
