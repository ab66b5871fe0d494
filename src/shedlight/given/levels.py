"""Standard insulation levels for a highest voltage, in-between voltages rounded up."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.sources import Citation


@dataclass(frozen=True)
class Level:
    """One row of the standard levels [V]: impulse peak, power frequency rms, both to earth."""

    highest_voltage: float
    lightning_impulse: float
    power_frequency_wet: float
    usual: bool
    citation: Citation


@dataclass(frozen=True)
class DryLevel:
    """The bushing's own one-minute dry power-frequency level [V rms to earth]."""

    highest_voltage: float
    power_frequency_dry: float
    citation: Citation
    note: str


@tables.cached
def standard_levels() -> tuple[Level, ...]:
    """Every listed level, lowest voltage first."""
    return tuple(
        Level(
            1e3 * float(row["highest_voltage_kv"]),
            1e3 * float(row["lightning_impulse_kv"]),
            1e3 * float(row["power_frequency_wet_kv"]),
            row["usual"] == "yes",
            tables.citation(row),
        )
        for row in tables.read("given/levels")
    )


@tables.cached
def dry_levels() -> tuple[DryLevel, ...]:
    """The dry level of each listed highest voltage."""
    return tuple(
        DryLevel(
            1e3 * float(row["highest_voltage_kv"]),
            1e3 * float(row["power_frequency_dry_kv"]),
            tables.citation(row),
            row["note"],
        )
        for row in tables.read("given/dry_levels")
    )


def listed_voltage(highest_voltage: float) -> float:
    """The listed highest voltage that serves a given one: the same, or the next higher [V]."""
    listed = sorted({level.highest_voltage for level in standard_levels()})
    return next((value for value in listed if value >= highest_voltage * (1 - 1e-9)), listed[-1])


def usual_level(highest_voltage: float) -> Level:
    """The usual level for a highest voltage; in-between voltages take the next higher row."""
    wanted = listed_voltage(highest_voltage)
    return next(
        level for level in standard_levels() if level.usual and level.highest_voltage == wanted
    )


def dry_level(highest_voltage: float) -> DryLevel:
    """The dry power-frequency row for a highest voltage; in-between takes the next higher."""
    wanted = listed_voltage(highest_voltage)
    return next(level for level in dry_levels() if level.highest_voltage == wanted)


def levels_at(highest_voltage: float) -> tuple[Level, ...]:
    """All levels listed for a highest voltage (rounded up to the next listed one)."""
    wanted = listed_voltage(highest_voltage)
    return tuple(level for level in standard_levels() if level.highest_voltage == wanted)


def rounding_remark(highest_voltage: float) -> str:
    """What to say aloud when the highest voltage is not a listed one; empty if it is."""
    wanted = listed_voltage(highest_voltage)
    if abs(wanted - highest_voltage) <= 1e-6 * highest_voltage:
        return ""
    return (
        f"{highest_voltage / 1e3:g} kV is not a listed highest voltage: the levels of "
        f"{wanted / 1e3:g} kV, the next higher, are used. If {highest_voltage / 1e3:g} kV is the "
        "nominal voltage of the network, give the highest voltage for equipment instead."
    )
