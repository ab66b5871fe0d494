"""The finite-element library, opened at first use: loading it takes half a second.

It has no type hints, so it comes as :data:`typing.Any`; only this room talks to it.
"""

from importlib import import_module
from typing import Any


class _Opened:
    """Stands for a module that is loaded when something of it is first asked for."""

    def __init__(self, name: str) -> None:
        self._name = name

    def __getattr__(self, attribute: str) -> Any:
        found = getattr(import_module(self._name), attribute)
        setattr(self, attribute, found)  # asked for some thousand times
        return found


ng: Any = _Opened("ngsolve")
netgen: Any = _Opened("netgen.meshing")
