"""How large one quantity is beside another of its kind, as a traced number."""

from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

_PLAIN = cite("first principles", "ratio of two quantities of one kind", "exact")


@formula(
    ("Share of the whole", "p", "%"),
    "a / b",
    {"part": ("Part", "a", "1"), "whole": ("Whole", "b", "1")},
    _PLAIN,
)
def share(part: float, whole: float) -> float:
    """What share one quantity is of another.

    p = a / b

    Args:
        part: The part, in the same unit as the whole [1].
        whole: The whole [1].

    Returns:
        Share [1].

    Raises:
        InputError: part below zero, or whole not above zero.

    Source: plain ratio — basis: exact.
    Valid for: two quantities of one kind.
    """
    not_negative(part=part)
    positive(whole=whole)
    return part / whole


@formula(
    ("Times as large", "k", "1"),
    "a / b",
    {"large": ("The one", "a", "1"), "small": ("The other", "b", "1")},
    _PLAIN,
)
def times(large: float, small: float) -> float:
    """How many times one quantity holds another.

    k = a / b

    Args:
        large: The one, in the same unit as the other [1].
        small: The other [1].

    Returns:
        Ratio [1].

    Raises:
        InputError: the one below zero, or the other not above zero.

    Source: plain ratio — basis: exact.
    Valid for: two quantities of one kind.
    """
    not_negative(large=large)
    positive(small=small)
    return large / small
