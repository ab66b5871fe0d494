"""Limits on the shape of sheds: the old crisp ones and the newer graded ones."""

from dataclasses import dataclass
from enum import StrEnum

from shedlight import tables
from shedlight.errors import InputError
from shedlight.sources import Citation
from shedlight.units import si

EDITIONS = ("IEC 815", "IEC 60815-2")  # keys of the bibliography


class Deviation(StrEnum):
    """How far a profile parameter departs from its limit."""

    NONE = "none"
    MINOR = "minor"
    MAJOR = "major"
    UNGRADED = "ungraded"  # outside, but the edition as held tells no grades


@dataclass(frozen=True)
class Window:
    """From lowest to highest, bounds included; an open side has no bound."""

    lowest: float | None
    highest: float | None

    def holds(self, value: float) -> bool:
        """Whether a value lies inside."""
        above = self.lowest is None or value >= self.lowest
        return above and (self.highest is None or value <= self.highest)


@dataclass(frozen=True)
class ProfileLimit:
    """Where a profile parameter should lie, and when the limit applies.

    ``parameter`` is one of: clearance [m], pitch over overhang, creepage over clearance,
    overhang difference [m], shed angle [rad], creepage factor, profile factor.
    """

    edition: str
    parameter: str
    unit: str  # to show
    sheds: str  # "any", "plain", "ribbed" or "alternating"
    overhang_to: float | None  # [m] applies up to this overhang
    length_to: float | None  # [m] applies up to this length of insulator
    letters: str  # classes to which it applies
    no_deviation: Window
    minor: Window | None  # no deviation or a minor one; none where the edition knows no grades
    what: str
    citation: Citation

    def deviation(self, value: float) -> Deviation:
        """The grade of a measured value [SI]."""
        if self.no_deviation.holds(value):
            return Deviation.NONE
        if self.minor is None:
            return Deviation.UNGRADED
        return Deviation.MINOR if self.minor.holds(value) else Deviation.MAJOR


def _bound(text: str, unit: str) -> float | None:
    return si(float(text), unit) if text else None


@tables.cached
def profile_limits(edition: str) -> tuple[ProfileLimit, ...]:
    """All limits of one edition, special cases before general ones.

    Args:
        edition: One of :data:`EDITIONS`.

    Raises:
        InputError: no limits are held for this edition.
    """
    if edition not in EDITIONS:
        raise InputError(f"edition: given {edition!r}; expected one of {', '.join(EDITIONS)}")
    found = []
    for row in tables.read("surface/profile_limits"):
        if row["source"] != edition:
            continue
        unit = row["unit"]
        wide = Window(_bound(row["minor_low"], unit), _bound(row["minor_high"], unit))
        found.append(
            ProfileLimit(
                edition,
                row["parameter"],
                unit,
                row["sheds"],
                _bound(row["overhang_to_mm"], "mm"),
                _bound(row["length_to_mm"], "mm"),
                row["letters"],
                Window(_bound(row["no_low"], unit), _bound(row["no_high"], unit)),
                wide if row["minor_low"] or row["minor_high"] else None,
                row["what"],
                tables.citation(row),
            )
        )
    return tuple(found)


def applicable_limits(
    edition: str,
    letter: str,
    overhang: float,
    insulator_length: float,
    *,
    ribbed: bool = False,
    alternating: bool = False,
) -> tuple[ProfileLimit, ...]:
    """The limits that apply to one porcelain, at most one per parameter.

    Args:
        edition: One of :data:`EDITIONS`.
        letter: Site severity class, "a" to "e".
        overhang: Largest shed overhang [m].
        insulator_length: Insulating length in air [m].
        ribbed: Whether the sheds have ribs underneath.
        alternating: Whether large and small sheds alternate.

    Raises:
        InputError: no limits are held for this edition.

    Source: IEC 815:1986 and IEC TS 60815-2:2008 — basis: memory, per row.
    """
    kinds = {"any", "ribbed" if ribbed else "plain"} | ({"alternating"} if alternating else set())
    first: dict[str, ProfileLimit] = {}
    for limit in profile_limits(edition):
        applies = (
            limit.sheds in kinds
            and letter in limit.letters
            and (limit.overhang_to is None or overhang <= limit.overhang_to)
            and (limit.length_to is None or insulator_length <= limit.length_to)
        )
        if applies:
            first.setdefault(limit.parameter, limit)
    return tuple(first.values())
