"""Work in a process of its own: beside what else is done, and ended when it takes too long.

The process is forked, so that it begins with everything that has been read and opened; what it
finds comes back through a pipe. It can be ended wherever it is stuck, inside the mesher too, which
no exception reaches. Where a fork is not safe (other threads run, as in the page and in a cluster's
workers, or the system is none of those on which it is), there is no such process: the caller does
the work in place.
"""

import ctypes
import gc
import os
import pickle
import select
import signal
import sys
import threading
import time
import warnings
import weakref
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import Any, NoReturn

_LENGTH = 8  # bytes in which the length of an answer is told
_CHUNK = 1 << 20
_ON_ITS_WAY = 20.0  # an answer that has begun to arrive is whole by then [s]
_KILL_WITH_PARENT = 1  # PR_SET_PDEATHSIG


class LostError(Exception):
    """The process ended without the answer: it failed, or was ended from outside."""


class OverdueError(Exception):
    """The process took too long and was ended."""


def let_wait(thread: threading.Thread) -> None:
    """Say of a thread that it only waits: it holds nothing that a forked process would miss.

    Args:
        thread: One that takes no part in the work.
    """
    _waiting.add(thread)


_waiting: "weakref.WeakSet[threading.Thread]" = weakref.WeakSet()


def can_part() -> bool:
    """Whether a process can be forked safely: on Linux, from the only thread that works."""
    working = set(threading.enumerate()) - set(_waiting)
    return working == {threading.main_thread()} and sys.platform == "linux" and _is_main()


def _is_main() -> bool:
    return threading.current_thread() is threading.main_thread()


class Apart:
    """Something being done in a process of its own."""

    def __init__(self, act: Callable[[], Iterator[Any]], seconds: float) -> None:
        """Start it.

        Args:
            act: What is done; each thing it yields is sent back.
            seconds: After so long it is ended, wherever it is [s].
        """
        self.seconds = seconds
        self._until = time.monotonic() + seconds
        self._end, into = os.pipe()
        with warnings.catch_warnings():
            # Threads of the numeric libraries idle between calls; these put themselves right.
            warnings.simplefilter("ignore", DeprecationWarning)
            self._process = os.fork()
        if self._process == 0:
            _work(act, into)
        os.close(into)
        self.close = weakref.finalize(self, _ended, self._process, self._end)

    def take(self) -> Any:
        """The next thing it has found, waited for.

        Raises:
            LostError: it ended without finding it.
            OverdueError: it took too long and was ended.
        """
        try:
            length = int.from_bytes(self._read(_LENGTH, self._until), "big")
            # It is found and on its way, however late it is fetched.
            answer = self._read(length, time.monotonic() + _ON_ITS_WAY)
            return pickle.loads(answer)
        except BaseException:
            self.close()
            raise

    def _read(self, length: int, until: float) -> bytes:
        parts: list[bytes] = []
        while length:
            left = max(0.0, until - time.monotonic())
            if not select.select([self._end], [], [], left)[0]:  # what is there already counts
                raise OverdueError
            part = os.read(self._end, min(length, _CHUNK))
            if not part:
                raise LostError
            parts.append(part)
            length -= len(part)
        return b"".join(parts)


def _ended(process: int, end: int) -> None:
    """End a process if it still runs, and forget it."""
    os.close(end)
    with suppress(ProcessLookupError):
        os.kill(process, signal.SIGKILL)
    with suppress(ChildProcessError):
        os.waitpid(process, 0)


def _work(act: Callable[[], Iterator[Any]], into: int) -> NoReturn:
    """In the new process: send back what is found, and leave without a trace."""
    try:
        gc.disable()  # it is over before memory is short
        for number in (signal.SIGINT, signal.SIGTERM):
            signal.signal(number, signal.SIG_DFL)
        ctypes.CDLL(None).prctl(_KILL_WITH_PARENT, signal.SIGKILL, 0, 0, 0)
        for found in act():
            answer = pickle.dumps(found, pickle.HIGHEST_PROTOCOL)
            _write(into, len(answer).to_bytes(_LENGTH, "big") + answer)
    except BaseException:  # told by the silence; done in place it tells itself
        os._exit(1)
    os._exit(0)


def _write(into: int, answer: bytes) -> None:
    left = memoryview(answer)
    while left:
        left = left[os.write(into, left) :]
