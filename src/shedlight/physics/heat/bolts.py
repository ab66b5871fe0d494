"""Bolts of a contact: what a thread may bear, what several bolts press together."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula

_NEAR = 1e-6  # [m]


@dataclass(frozen=True)
class BoltClass:
    """Strength of one class of bolts."""

    name: str
    proof_stress: float  # [Pa]
    citation: Citation


@dataclass(frozen=True)
class Thread:
    """Stress area of one metric coarse thread."""

    diameter: float  # [m]
    stress_area: float  # [m²]
    citation: Citation


@tables.cached
def bolt_classes() -> tuple[BoltClass, ...]:
    """Every strength class held."""
    return tuple(
        BoltClass(row["bolt_class"], float(row["proof_stress_mpa"]) * 1e6, tables.citation(row))
        for row in tables.read("heat/bolts")
    )


@tables.cached
def threads() -> tuple[Thread, ...]:
    """Every thread held, smallest first."""
    return tuple(
        Thread(
            float(row["diameter_mm"]) * 1e-3,
            float(row["stress_area_mm2"]) * 1e-6,
            tables.citation(row),
        )
        for row in tables.read("heat/threads")
    )


def bolt_class(name: str) -> BoltClass:
    """The strength class with a name.

    Args:
        name: Such as "8.8" or "A2-70".

    Raises:
        InputError: no such class is held.

    Source: ISO 898-1, ISO 3506-1 — basis: memory, high confidence.
    """
    for row in bolt_classes():
        if row.name == name:
            return row
    known = ", ".join(row.name for row in bolt_classes())
    raise InputError(f"name: given {name!r}; expected one of {known}")


def thread_for(diameter: float) -> Thread | None:
    """The thread of a nominal diameter; None if no such coarse thread is held.

    Args:
        diameter: Nominal diameter [m].

    Source: ISO 898-1 — basis: memory, high confidence.
    """
    return next((row for row in threads() if abs(row.diameter - diameter) < _NEAR), None)


@formula(
    ("Most that a bolt should be tightened to", 'F_"max"', "kN"),
    'k sigma_"p" A_s',
    {
        "proof_stress": ("Proof stress of the bolt", 'sigma_"p"', "MPa"),
        "stress_area": ("Stress area of the thread", "A_s", "mm²"),
        "share": ("Share of the proof load used", "k", "1"),
    },
    cite("ISO 898-1", "proof load; share by practice", "memory", "medium"),
)
def tightening_limit(proof_stress: float, stress_area: float, share: float) -> float:
    """Clamp force that a bolt should not be tightened beyond.

    F_max = k σ_p A_s

    Args:
        proof_stress: Proof stress of the bolt [Pa].
        stress_area: Stress area of its thread [m²].
        share: Share of the proof load used, about 0.75 [1].

    Returns:
        Force [N].

    Raises:
        InputError: an argument not above zero.

    Source: ISO 898-1, share by practice — basis: memory, medium confidence.
    Valid for: metric coarse threads.
    """
    positive(proof_stress=proof_stress, stress_area=stress_area, share=share)
    return share * proof_stress * stress_area


@formula(
    ("Clamp force needed from each bolt", 'F_"min"', "kN"),
    "p A / n",
    {
        "pressure": ("Least contact pressure", "p", "MPa"),
        "face": ("Lapped face", "A", "mm²"),
        "bolts": ("Number of bolts", "n", "1"),
    },
    cite("first principles", "pressure over the face, shared by the bolts", "exact"),
)
def needed_clamp_force(pressure: float, face: float, bolts: float) -> float:
    """Clamp force that each bolt has to give for a mean contact pressure.

    F_min = p A/n

    Args:
        pressure: Mean contact pressure wanted [Pa].
        face: Lapped face [m²].
        bolts: Number of bolts [1].

    Returns:
        Force of each bolt [N].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: a stiff joint.
    """
    positive(pressure=pressure, face=face, bolts=bolts)
    return pressure * face / bolts


@formula(
    ("Clamp force of all bolts", "F", "kN"),
    "n F_1",
    {
        "bolts": ("Number of bolts", "n", "1"),
        "force": ("Clamp force of one bolt", "F_1", "kN"),
    },
    cite("first principles", "sum of equal forces", "exact"),
)
def total_clamp_force(bolts: float, force: float) -> float:
    """Clamp force of several equal bolts.

    F = n F_1

    Args:
        bolts: Number of bolts [1].
        force: Clamp force of one bolt [N].

    Returns:
        Force [N].

    Raises:
        InputError: an argument not above zero.

    Source: sum of equal forces — basis: exact.
    Valid for: even tightening.
    """
    positive(bolts=bolts, force=force)
    return bolts * force
