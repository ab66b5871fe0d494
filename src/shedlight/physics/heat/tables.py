"""The room's tables: short-time constants of metals, temperature limits of connections."""

from dataclasses import dataclass

from shedlight import tables
from shedlight.errors import InputError
from shedlight.sources import Citation
from shedlight.units import si


@dataclass(frozen=True)
class ShortTime:
    """Short-time constants of one metal."""

    metal: str
    coefficient: float  # a of IEC 60137 [K m⁴/(A² s)]
    adiabatic: float  # K of IEC 60949 [A √s/m²]
    beta: float  # [K]
    citation: Citation


@tables.cached
def short_time_metals() -> tuple[ShortTime, ...]:
    """Short-time constants by metal."""
    return tuple(
        ShortTime(
            row["metal"],
            si(float(row["coefficient"]), "Kcm⁴/kA²s"),
            si(float(row["adiabatic"]), "A√s/mm²"),
            float(row["beta"]),
            tables.citation(row),
        )
        for row in tables.read("heat/short_time")
    )


def short_time_metal(metal: str) -> ShortTime:
    """Short-time constants of a metal.

    Args:
        metal: ``copper`` or ``aluminium``.

    Raises:
        InputError: another metal.
    """
    for row in short_time_metals():
        if row.metal == metal:
            return row
    known = ", ".join(row.metal for row in short_time_metals())
    raise InputError(f"metal: given {metal!r}; expected one of {known}")


@dataclass(frozen=True)
class TemperatureLimit:
    """How hot one kind of part may become, in itself and over an ambient of 40 °C.

    Both hold at once. ``rise`` is None where the source gives no rise.
    """

    part: str  # bolted connection, terminal for external conductor, ...
    finish: str  # bare, silver or nickel, tin, or a thermal class
    medium: str  # air, oil, any
    temperature: float  # [K]
    rise: float | None  # [K]
    citation: Citation


@tables.cached
def temperature_limits() -> tuple[TemperatureLimit, ...]:
    """Temperature limits of conductors, connections, insulation and gaskets."""
    return tuple(
        TemperatureLimit(
            row["part"],
            row["finish"],
            row["medium"],
            si(float(row["celsius"]), "°C"),
            float(row["rise_kelvin"]) if row["rise_kelvin"] else None,
            tables.citation(row),
        )
        for row in tables.read("heat/temperature_limits")
    )


def temperature_limit(part: str, finish: str, medium: str) -> TemperatureLimit:
    """The limit of one part.

    Args:
        part: Kind of part, as in ``temperature_limits.csv``.
        finish: Surface or thermal class.
        medium: What surrounds it.

    Raises:
        InputError: no such row; the message lists the rows there are.
    """
    for row in temperature_limits():
        if (row.part, row.finish, row.medium) == (part, finish, medium):
            return row
    known = "; ".join(f"{row.part}, {row.finish}, {row.medium}" for row in temperature_limits())
    raise InputError(
        f"part, finish, medium: given {part!r}, {finish!r}, {medium!r}; expected one of {known}"
    )
