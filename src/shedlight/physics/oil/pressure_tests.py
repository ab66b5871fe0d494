"""Pressure and leak tests: what standards ask for, what a gauge shows though nothing leaks."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import Citation, cite
from shedlight.trace import formula


@dataclass(frozen=True)
class PressureTest:
    """One test of tightness; either a gauge pressure or one above the highest in service."""

    test: str
    above_service: float | None  # [Pa]
    gauge: float | None  # [Pa]
    duration: float  # [s]
    temperature: float  # [K]
    medium: str
    citation: Citation

    def pressure(self, service: float) -> float:
        """Gauge pressure of the test [Pa], for the highest gauge pressure in service [Pa]."""
        if self.above_service is None:
            return self.gauge or 0.0
        return service + self.above_service


@tables.cached
def pressure_tests() -> tuple[PressureTest, ...]:
    """Every test held."""
    return tuple(
        PressureTest(
            row["test"],
            float(row["above_service_kpa"]) * 1e3 if row["above_service_kpa"] else None,
            float(row["gauge_kpa"]) * 1e3 if row["gauge_kpa"] else None,
            float(row["hours"]) * 3600,
            float(row["celsius"]) + 273.15,
            row["medium"],
            tables.citation(row),
        )
        for row in tables.read("oil/pressure_tests")
    )


def pressure_test(test: str) -> PressureTest:
    """One test of tightness.

    Args:
        test: Such as ``routine oil``.

    Raises:
        InputError: no such test is held.
    """
    for row in pressure_tests():
        if row.test == test:
            return row
    known = ", ".join(row.test for row in pressure_tests())
    raise InputError(f"test: given {test!r}; expected one of {known}")


@formula(
    ("Change of the pressure by temperature alone", "Delta p", "kPa"),
    "p (T_1 / T_0 - 1)",
    {
        "absolute_pressure": ("Pressure at the start, absolute", "p", "kPa"),
        "start": ("Temperature at the start", "T_0", "°C"),
        "end": ("Temperature at the end", "T_1", "°C"),
    },
    cite("first principles", "ideal gas at constant volume", "exact"),
    note="Absolute temperatures.",
)
def gas_test_drift(absolute_pressure: float, start: float, end: float) -> float:
    """What a gauge shows in a gas test though nothing leaks, because the gas cooled or warmed.

    Delta p = p (T_1/T_0 - 1)

    Args:
        absolute_pressure: At the start, absolute [Pa].
        start: Gas temperature at the start [K].
        end: Gas temperature at the end [K].

    Returns:
        Change of pressure; negative on cooling [Pa].

    Raises:
        InputError: an argument not above zero.

    Source: ideal gas law — basis: exact.
    Valid for: a stiff vessel filled with gas.
    """
    positive(absolute_pressure=absolute_pressure, start=start, end=end)
    return absolute_pressure * (end / start - 1)


@formula(
    ("Rise of pressure of oil locked in", "Delta p", "MPa"),
    "(beta - beta_v) / (kappa + kappa_v) Delta T",
    {
        "expansion": ("Volume expansion of the oil", "beta", "1/K"),
        "vessel_expansion": ("Volume expansion of the vessel", "beta_v", "µ/K"),
        "compressibility": ("Compressibility of the oil", "kappa", "1/GPa"),
        "vessel_give": ("Give of the vessel", "kappa_v", "1/GPa"),
        "warming": ("Warming", "Delta T", "K"),
    },
    cite("first principles", "expansion held by compressibility", "exact"),
    note="Why a full vessel shut off from its conservator may burst in the sun.",
)
def locked_oil_pressure(
    expansion: float,
    vessel_expansion: float,
    compressibility: float,
    vessel_give: float,
    warming: float,
) -> float:
    """Pressure that oil without any gas builds up when shut in and warmed.

    Delta p = (beta - beta_v) Delta T/(kappa + kappa_v)

    Args:
        expansion: Volume expansion of the oil [1/K].
        vessel_expansion: Volume expansion of the vessel [1/K].
        compressibility: Of the oil, about 0.7e-9 [1/Pa].
        vessel_give: Growth of the vessel's volume per pressure [1/Pa].
        warming: Warming [K].

    Returns:
        Rise of pressure [Pa].

    Raises:
        InputError: an argument negative, compressibility not above zero.

    Source: expansion held by compressibility — basis: exact.
    Valid for: a vessel full of oil, gaskets that do not give.
    """
    not_negative(
        expansion=expansion,
        vessel_expansion=vessel_expansion,
        vessel_give=vessel_give,
        warming=warming,
    )
    positive(compressibility=compressibility)
    return (expansion - vessel_expansion) * warming / (compressibility + vessel_give)
