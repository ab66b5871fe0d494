"""Results kept for the next time they are asked for, within a bound on what they weigh.

Meshes and factorisations weigh from one to a thousand megabytes: a number of them bounds nothing.
"""

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from functools import update_wrapper
from typing import Any, Generic, ParamSpec, TypeVar

_MANY = 8  # small results, of which no more are kept than so many
P = ParamSpec("P")
T = TypeVar("T")


class Kept(Generic[P, T]):
    """A function whose last results are kept; those asked for longest ago go first."""

    def __init__(
        self,
        function: Callable[P, T],
        weigh: Callable[[Any], float],
        most: float,
        *,
        newest: bool,
    ) -> None:
        """Keep the function and the bounds."""
        self._function, self._weigh, self._most, self._newest = function, weigh, most, newest
        self._found: OrderedDict[Hashable, tuple[T, float]] = OrderedDict()
        self._lock = threading.RLock()
        self.misses = 0
        update_wrapper(self, function)

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> T:
        """The result for some arguments, kept or found anew."""
        key = (args, tuple(sorted(kwargs.items())))
        with self._lock:
            if key in self._found:
                self._found.move_to_end(key)
                return self._found[key][0]
        found = self._function(*args, **kwargs)
        with self._lock:
            self.misses += 1
            self._found[key] = found, max(self._weigh(found), self._most / _MANY)
            self._let_go()
        return found

    @property
    def weight(self) -> float:
        """What all that is kept weighs."""
        return sum(weight for _, weight in self._found.values())

    def __len__(self) -> int:
        """How many results are kept."""
        return len(self._found)

    def cache_clear(self) -> None:
        """Let go of everything."""
        with self._lock:
            self._found.clear()
            self.misses = 0

    def _let_go(self) -> None:
        least = 1 if self._newest else 0
        while self.weight > self._most and len(self._found) > least:
            self._found.popitem(last=False)


def kept(
    weigh: Callable[[Any], float], most: float, *, newest: bool = True
) -> Callable[[Callable[P, T]], Kept[P, T]]:
    """Keep the last results of a function as long as they do not weigh too much together.

    Args:
        weigh: What a result weighs [any unit].
        most: What all that is kept may weigh [the same unit].
        newest: Whether the newest result is kept however much it weighs.

    Source: Bookkeeping — basis: exact.
    """
    return lambda function: Kept(function, weigh, most, newest=newest)
