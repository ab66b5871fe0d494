"""What contact metals bear, and how far the clamp force of bolts scatters: two tables."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.sources import Citation


@dataclass(frozen=True)
class ContactMetal:
    """Hardness and voltages of one contact metal."""

    metal: str
    hardness: tuple[float, float]  # annealed, hard [Pa]
    softening_voltage: float  # across the contact, at which the spot anneals [V]
    melting_voltage: float  # at which it melts [V]
    citation: Citation


@dataclass(frozen=True)
class ClampScatter:
    """How far clamp force lies from what was meant, by the way of tightening."""

    way: str
    scatter: float  # either way [1]
    citation: Citation


@tables.cached
def contact_metals() -> tuple[ContactMetal, ...]:
    """Every contact metal held."""
    return tuple(
        ContactMetal(
            row["metal"],
            (float(row["hardness_low_mpa"]) * 1e6, float(row["hardness_high_mpa"]) * 1e6),
            float(row["softening_v"]),
            float(row["melting_v"]),
            tables.citation(row),
        )
        for row in tables.read("heat/contact_metals")
    )


def contact_metal(metal: str) -> ContactMetal:
    """One contact metal.

    Args:
        metal: Such as ``copper`` or ``tin``; of a plated face, the plating.

    Raises:
        InputError: no such metal is held.
    """
    for row in contact_metals():
        if row.metal == metal:
            return row
    known = ", ".join(row.metal for row in contact_metals())
    raise InputError(f"metal: given {metal!r}; expected one of {known}")


@tables.cached
def clamp_scatters() -> tuple[ClampScatter, ...]:
    """Every way of tightening held."""
    return tuple(
        ClampScatter(row["way"], float(row["scatter"]), tables.citation(row))
        for row in tables.read("heat/clamp_scatter")
    )


def clamp_scatter(way: str) -> ClampScatter:
    """The scatter of one way of tightening.

    Args:
        way: Such as ``torque wrench``.

    Raises:
        InputError: no such way is held.
    """
    for row in clamp_scatters():
        if row.way == way:
            return row
    known = ", ".join(row.way for row in clamp_scatters())
    raise InputError(f"way: given {way!r}; expected one of {known}")
