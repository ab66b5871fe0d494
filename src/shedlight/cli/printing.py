"""Printing to a reader who may leave early, on a terminal that may not know every letter."""

import io
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress


@contextmanager
def for_reader() -> Iterator[None]:
    """Print in the block; once the reader of a pipe has left, the rest is not missed.

    The exit status stays what the command found: a pipe cut short is no verdict.
    """
    try:
        yield
        sys.stdout.flush()
    except BrokenPipeError:
        to_nowhere()
    except SystemExit:  # how rich leaves when the reader has gone
        to_nowhere()


def spell_what_can_be_spelt() -> None:
    """Letters that the output's encoding lacks become question marks instead of a fault."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="replace")


def to_nowhere() -> None:
    """Let go of a reader who has left: what is still in the buffer is not missed either."""
    with suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
