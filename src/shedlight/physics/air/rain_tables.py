"""The rain's tables: fall speeds and drop sizes as measured, and the rain of the wet tests."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative
from shedlight.sources import Citation
from shedlight.units import si


@dataclass(frozen=True)
class FallSpeed:
    """Measured fall speed of drops of one size."""

    diameter: float  # [m]
    speed: float  # [m/s]
    citation: Citation


@dataclass(frozen=True)
class DropClass:
    """Share of a rain's water on the ground that drops of one class bring, as measured."""

    rate: float  # [m/s]
    diameter: float  # middle of the class [m]
    share: float  # [1]
    citation: Citation


@dataclass(frozen=True)
class WetTest:
    """Artificial rain of one test procedure; some lay down no horizontal component."""

    procedure: str
    vertical: float  # [m/s]
    horizontal: float | None  # [m/s]
    resistivity: float  # of the water at 20 °C [Ωm]
    duration: float  # [s]
    what: str
    citation: Citation


@tables.cached
def fall_speeds() -> tuple[FallSpeed, ...]:
    """Fall speeds, smallest drop first, read once."""
    return tuple(
        FallSpeed(
            si(float(row["diameter_mm"]), "mm"), float(row["speed_m_per_s"]), tables.citation(row)
        )
        for row in tables.read("air/fall_speeds")
    )


@tables.cached
def drop_classes() -> tuple[DropClass, ...]:
    """Measured drop sizes, weakest rain and smallest drop first, read once."""
    return tuple(
        DropClass(
            si(float(row["rate_mm_per_h"]), "mm/h"),
            si(float(row["diameter_mm"]), "mm"),
            si(float(row["share_percent"]), "%"),
            tables.citation(row),
        )
        for row in tables.read("air/drop_sizes")
    )


@tables.cached
def wet_tests() -> tuple[WetTest, ...]:
    """The wet tests, the standard one first, read once."""
    return tuple(
        WetTest(
            row["procedure"],
            si(float(row["vertical_mm_per_min"]), "mm/min"),
            _rate(row["horizontal_mm_per_min"]),
            float(row["resistivity_ohm_m"]),
            float(row["seconds"]),
            row["what"],
            tables.citation(row),
        )
        for row in tables.read("air/wet_tests")
    )


def wet_test(procedure: str = "standard") -> WetTest:
    """The rain of a test procedure.

    Args:
        procedure: As the table writes it.

    Raises:
        InputError: no such procedure.
    """
    for row in wet_tests():
        if row.procedure == procedure:
            return row
    known = ", ".join(row.procedure for row in wet_tests())
    raise InputError(f"procedure: given {procedure!r}; expected one of {known}")


def _rate(text: str) -> float | None:
    if not text:
        return None
    not_negative(horizontal=float(text))
    return si(float(text), "mm/min")
