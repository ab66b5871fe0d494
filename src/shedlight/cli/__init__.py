"""Floor 7: the command line, as thin as possible; it computes nothing."""

from shedlight.cli.entry import main

__all__ = ["main"]
