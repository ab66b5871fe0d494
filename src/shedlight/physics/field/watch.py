"""A limit on time: work that is stuck is cancelled, from within its own process.

A process of its own could be killed at any moment, but it would have to be started (half a second
of imports), and a field lives on objects of the library that cannot be sent back. So the work is
bounded beforehand, in cells, elements, unknowns and rounds, and a watch raises an exception in
the working thread once its time is up: between any two steps of Python, however deep.
"""

import ctypes
import threading
from collections.abc import Callable
from typing import TypeVar

from shedlight.physics.domain import positive
from shedlight.physics.field.domain import FieldError

T = TypeVar("T")


class _TimeIsUpError(BaseException):
    """Raised in the working thread; not an Exception, so that nothing on the way swallows it."""


def within_time(seconds: float, place: str, act: Callable[[], T]) -> T:
    """Do something, and cancel it when it takes longer than a time.

    Args:
        seconds: Time granted [s].
        place: What the failure names as its place.
        act: What is to be done.

    Raises:
        FieldError: the time was up.

    Source: Bookkeeping — basis: exact.
    """
    positive(seconds=seconds)
    worker, lock, over = threading.get_ident(), threading.Lock(), threading.Event()

    def cancel() -> None:
        with lock:
            if not over.is_set():
                _raise_in(worker, _TimeIsUpError)

    watch = threading.Timer(seconds, cancel)
    watch.daemon = True
    try:
        try:
            watch.start()
            return act()
        finally:
            with lock:
                over.set()
            _raise_in(worker, None)  # what was raised but has not arrived comes too late
            watch.cancel()
    except _TimeIsUpError:
        reason = (
            f"cancelled: took longer than {seconds:g} s. Simplify the shape or its finest parts"
        )
        raise FieldError(place, reason) from None


def _raise_in(thread: int, what: type[BaseException] | None) -> None:
    """Have an exception raised in a thread at its next step; None takes back what is on its way."""
    raised = ctypes.py_object(what) if what else None
    ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread), raised)
