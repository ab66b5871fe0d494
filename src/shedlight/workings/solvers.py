"""What is solved by finite elements, in processes beside the rest; each is ended when it is stuck.

The field and what follows from it, the stress of the section and the field of heat stand apart
from one another, so that they share the processor's cores; what they find is what they would find
in place. Where no process can be forked, or one fails, the work is done in place and an error is
told as itself.
"""

import copy
import os
from collections.abc import Iterator
from functools import partial
from importlib import import_module
from typing import TYPE_CHECKING, Any

from shedlight.workings.apart import Apart, LostError, OverdueError, can_part

if TYPE_CHECKING:
    from shedlight.workings import Workings

LONGEST = 180.0  # a watch within the field's process has cancelled it before, where it can [s]
# Rooms solved by each process, in order, and the room that has to be ready before it starts.
PROCESSES = {
    ("field", "discharges"): "voltages",
    ("section_untied",): "oil",
    ("heat_field",): "heat",
}
SOLVED = {room for rooms in PROCESSES for room in rooms}
# No other room waits for these: they let what the others need go first.
_LAST = ("discharges", "section_untied")
_BEHIND = 10  # steps of niceness
_WHAT = {
    "field": "field, mesh",
    "discharges": "field lines",
    "section_untied": "section of the porcelain, mesh",
    "heat_field": "field of heat, mesh",
}
# Opened once, before the processes part.
_LIBRARIES = (
    "ngsolve",
    "netgen.geom2d",
    "shedlight.workings.discharge",
    "shedlight.workings.section_stress",
    "shedlight.workings.heat.section",
)


class Solvers:
    """The processes of one record of workings."""

    def __init__(self, work: "Workings") -> None:
        """Keep whose they are.

        Args:
            work: The record.
        """
        self._work = work
        self._running: dict[str, Apart] = {}
        self._waiting = dict(PROCESSES)
        self._opened = False

    def start(self) -> None:
        """Start what has waited for a room that has been worked out by now."""
        done = vars(self._work)
        ready = [rooms for rooms, needed in self._waiting.items() if needed in done]
        if not ready or not can_part():
            return
        self._open()
        for rooms in ready:
            del self._waiting[rooms]
            process = Apart(partial(self._found, rooms), LONGEST)
            self._running.update(dict.fromkeys(rooms, process))

    def take(self, room: str) -> Any:
        """What a room comes to, waited for; or in words that it took too long.

        Args:
            room: Its name.
        """
        process = self._running.pop(room, None)
        if process is None:
            return getattr(self._twin(), room)
        try:
            return process.take()
        except LostError:
            self._forget(process)
            return getattr(self._twin(), room)
        except OverdueError:
            self._forget(process)
            return self._stuck(room)

    def _forget(self, process: Apart) -> None:
        """What an ended process would still have found is worked out in place."""
        self._running = {
            room: other for room, other in self._running.items() if other is not process
        }

    def _open(self) -> None:
        if not self._opened:
            for name in _LIBRARIES:
                import_module(name)
            self._opened = True

    def _found(self, rooms: tuple[str, ...]) -> Iterator[Any]:
        twin = self._twin()
        for room in rooms:
            if room in _LAST:
                os.nice(_BEHIND)
            yield getattr(twin, room)

    def _twin(self) -> "Workings":
        """The same record, with what it holds so far, that works everything out in place."""
        twin = copy.copy(self._work)
        twin.solvers = None
        return twin

    def _stuck(self, room: str) -> str:
        pieces = (
            (edge.name, piece)
            for edge in self._work.section.edges.values()
            for piece in edge.curve.pieces
        )
        name, piece = min(pieces, key=lambda item: item[1].length or 1.0)
        at = piece.start
        return (
            f"{_WHAT[room]}, finest at {name}, r {1e3 * at.r:.4g}, z {1e3 * at.z:.4g} mm: "
            f"cancelled: took longer than {LONGEST:g} s. Simplify the shape or its finest parts"
        )
