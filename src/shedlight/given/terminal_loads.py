"""Standard bending loads of the outer terminal, by highest voltage and rated current."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.sources import Citation


@dataclass(frozen=True)
class TerminalLoad:
    """One row: the least test load at right angles to the axis, at the middle of the terminal."""

    highest_voltage: float  # up to which the row serves, rms between phases [V]
    rated_current: float  # up to which the row serves, rms [A]
    normal: float  # [N]
    heavy: float  # [N]
    citation: Citation


@tables.cached
def standard_loads() -> tuple[TerminalLoad, ...]:
    """Every row, lowest voltage and current first."""
    return tuple(
        TerminalLoad(
            1e3 * float(row["highest_voltage_kv"]),
            float(row["rated_current_a"]),
            float(row["normal_n"]),
            float(row["heavy_n"]),
            tables.citation(row),
        )
        for row in tables.read("given/terminal_loads")
    )


def standard_load(highest_voltage: float, rated_current: float) -> TerminalLoad:
    """The row that serves a voltage and a current: the next higher of each, at most the last.

    Args:
        highest_voltage: Highest voltage for equipment, rms between phases [V].
        rated_current: Rated current, rms [A].
    """
    loads = standard_loads()
    voltages = sorted({row.highest_voltage for row in loads})
    at = next((v for v in voltages if v >= highest_voltage * (1 - 1e-9)), voltages[-1])
    rows = [row for row in loads if row.highest_voltage == at]
    return next((row for row in rows if row.rated_current >= rated_current), rows[-1])
