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
from shedlight.physics.field.domain import CancelledError

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
        CancelledError: the time was up.

    Source: Bookkeeping — basis: exact.
    """
    positive(seconds=seconds)
    worker, lock = threading.get_ident(), threading.Lock()
    over, fired = threading.Event(), threading.Event()

    def cancel() -> None:
        with lock:
            if not over.is_set():
                fired.set()
                _raise_in(worker)

    watch = threading.Timer(seconds, cancel)
    watch.daemon = True
    try:
        try:
            watch.start()
            found = act()
        finally:
            with lock:
                over.set()
            watch.cancel()
            if fired.is_set():
                _let_arrive()
        if not fired.is_set():
            return found
    except _TimeIsUpError:
        pass
    reason = f"cancelled: took longer than {seconds:g} s. Simplify the shape or its finest parts"
    raise CancelledError(place, reason)


def _let_arrive() -> None:
    """Take a few steps: what was raised but has not arrived must not come later, elsewhere.

    It could be taken back instead, but in CPython 3.11 that leaves the interpreter waiting for it
    for ever: everything after it is slower, and nothing after it ends under a profiler.
    """
    for _ in range(100):
        pass


def _raise_in(thread: int) -> None:
    """Have an exception raised in a thread at its next step."""
    raised = ctypes.py_object(_TimeIsUpError)
    ctypes.pythonapi.PyThreadState_SetAsyncExc(ctypes.c_ulong(thread), raised)
