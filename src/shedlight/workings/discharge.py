"""What the solved field means for discharges: streamers in air, creep and gaps in oil."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.curves import Point
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.lines import FieldLine, cumulative_means, field_lines, inception_scale
from shedlight.physics.field.profiles import Profile
from shedlight.physics.field.summary import CLEAR, distance_to_corners
from shedlight.physics.oil.curves import default_gap_curve, gap_curve
from shedlight.physics.oil.strength import creep_strength, gap_strength
from shedlight.sources import Citation, cite
from shedlight.trace import Input, Kind, Label, Number, Step, calculate
from shedlight.workings.field import Field, field_of, fillings_of, problem_of, solved
from shedlight.workings.numbers import from_table, on_outline
from shedlight.workings.voltages import Voltages

CANDIDATES = 5
SHORTEST_CREEP, LONGEST_CREEP = 5e-3, 0.2
SHORTEST_GAP, LONGEST_GAP = 1e-3, 50e-3
CREEP_EXPONENT = 0.46  # of the creep curve; finds the stretch nearest to it
_STREAMER = cite("Petcharaks", "streamer criterion, integral of alpha = 9.15")
_FIELD = cite("first principles", "electro-quasi-static field, solved by finite elements", "exact")


@dataclass(frozen=True, eq=False)
class Streamer:
    """Where a streamer would first start beside one metal part, and at what voltage [V rms]."""

    start: Point
    line: FieldLine
    inception: Number


@dataclass(frozen=True)
class Stretch:
    """The stretch of a way in oil that comes nearest to its curve [V/m rms], at the dry test."""

    length: Number
    mean: Number
    strength: Number


@dataclass(frozen=True, eq=False)
class Discharges:
    """The field solution and what follows from it."""

    field: Field
    cap: Streamer
    clamps: Streamer
    creep: Stretch
    gap: Stretch
    oil_mean: Number
    porcelain_largest: Number


def discharges_of(
    installation: Installation, section: Section, voltages: Voltages
) -> Discharges | str:
    """Everything that follows from the field; or in words why there is no field.

    Args:
        installation: What was described.
        section: Its section.
        voltages: Its voltages.
    """
    try:
        field = field_of(installation, section)
        problem = problem_of(section, fillings_of(installation), installation.duty.frequency)
        solution = solved(problem)
        return Discharges(
            field=field,
            cap=_streamer(field, solution, "cap", voltages),
            clamps=_streamer(field, solution, "clamps", voltages),
            creep=_creep(field, voltages),
            gap=_gap(field, solution, voltages, installation.bushing.oil_end.shield_covered),
            oil_mean=_oil_mean(field, section, voltages),
            porcelain_largest=_bore_peak(field, section, voltages),
        )
    except (FieldError, InputError) as error:
        return str(error)


def _streamer(field: Field, solution: Solution, edge: str, voltages: Voltages) -> Streamer:
    """The lowest inception voltage over the most stressed places of an edge in air."""
    seen = field.surface(edge, "air")
    starts = _most_stressed(seen, solution)
    found = []
    for line in field_lines(solution, starts, "air"):
        scale = inception_scale(line.lengths, line.strength, float(voltages.density))
        found.append((scale / np.sqrt(2), line))
    peak, line = min(found, key=lambda item: item[0])
    label = Label("Streamer inception voltage, rms", "U_i", "kV")
    start = Point(float(line.points[0][0]), float(line.points[0][1]))
    where = f"at r = {1e3 * start.r:.1f} mm, z = {1e3 * start.z:.1f} mm on the edge {edge!r}"
    largest = _solved(float(line.strength[0]), "Field there at 1 V", "E_1", "1/m", field)
    inception = _derived(
        float(peak),
        label,
        "min U: integral alpha(U E_1) dif s = 9.15",
        _STREAMER,
        where,
        (largest, voltages.density),
    )
    return Streamer(start, line, inception)


def _most_stressed(seen: Profile, solution: Solution) -> NDArray[np.float64]:
    """The most stressed places of an edge, clear of corners where the field has no bound."""
    clear = distance_to_corners(solution, seen.points) >= CLEAR
    if not clear.any():
        raise FieldError(seen.edge, "every place lies at a corner where the field has no bound")
    points, strength = seen.points[clear], seen.strength[clear]
    return np.asarray(points[np.argsort(-strength)[:CANDIDATES]])


def _solved(value: float, name: str, symbol: str, unit: str, field: Field) -> Number:
    origins = tuple(filling.permittivity for filling in field.fillings)
    note = "read from the field solution at 1 V"
    return _derived(value, Label(name, symbol, unit), '"field solution"', _FIELD, note, origins)


def _derived(
    value: float,
    label: Label,
    typeset: str,
    citation: Citation,
    note: str,
    origins: tuple[Number, ...],
) -> Number:
    used = tuple(Input(n.step.label, float(n), (n.step,)) for n in origins)
    return Number(value, Step(Kind.FORMULA, label, value, citation, typeset, used, note))


def _worst(
    lengths: NDArray[np.float64],
    stress: NDArray[np.float64],
    low: float,
    high: float,
    exponent: float,
) -> tuple[float, float]:
    """Length and mean of the stretch that comes nearest to a curve falling as d^-exponent."""
    sizes, means = cumulative_means(lengths, stress)
    held = (sizes >= low) & (sizes <= high)
    if not held.any():
        raise InputError(f"lengths: given a way of {sizes.max():g} m; expected at least {low:g} m")
    sizes, means = sizes[held], means[held]
    worst = int(np.argmax(means * sizes**exponent))
    return float(sizes[worst]), float(means[worst])


def _creep(field: Field, voltages: Voltages) -> Stretch:
    """Cumulated mean stress along the porcelain in oil at the dry test, against the creep curve."""
    seen = field.surface("oil side", "tank oil")
    size, mean = _worst(
        seen.lengths, np.abs(seen.tangential), SHORTEST_CREEP, LONGEST_CREEP, CREEP_EXPONENT
    )
    length = on_outline(size, "Stretch of the surface", "d", "mm", "nearest to the creep curve")
    return Stretch(
        length,
        _stress(mean, "Mean field along the stretch, rms", field, voltages),
        calculate(creep_strength, length),
    )


def _gap(field: Field, solution: Solution, voltages: Voltages, covered: bool) -> Stretch:
    """Mean stress along the worst field line from the shield at the dry test, against its curve."""
    seen = field.surface("shield", "tank oil")
    starts = _most_stressed(seen, solution)
    row = gap_curve("gas-saturated", "covered") if covered else default_gap_curve()
    found = [
        _worst(line.lengths, line.strength, SHORTEST_GAP, LONGEST_GAP, row.exponent)
        for line in field_lines(solution, starts, "tank oil")
        if line.lengths[-1] > SHORTEST_GAP
    ]
    if not found:
        raise FieldError("shield", "no field line leaves it")
    size, mean = max(found, key=lambda item: item[1] * item[0] ** row.exponent)
    which = f"{row.oil} oil, {row.electrodes} electrodes"
    length = on_outline(size, "Stretch of the field line", "d", "mm", "nearest to the gap curve")
    a = from_table(row.coefficient, "Coefficient of the curve", "A", "kV/mm", row.citation, which)
    n = from_table(row.exponent, "Exponent of the curve", "n", "1", row.citation, which)
    return Stretch(
        length,
        _stress(mean, "Mean field along the stretch, rms", field, voltages),
        calculate(gap_strength, length, a, n),
    )


def _stress(per_volt: float, name: str, field: Field, voltages: Voltages) -> Number:
    """A field at 1 V scaled to the dry test."""
    one = _solved(per_volt, f"{name}, at 1 V", "E_1", "1/m", field)
    value = per_volt * float(voltages.dry)
    label = Label(name, "E", "kV/mm")
    return _derived(value, label, "E_1 U", _FIELD, "at the dry test", (one, voltages.dry))


def _nearest(profile: Profile, height: float) -> int:
    return int(np.argmin(np.abs(profile.points[:, 1] - height)))


def _oil_mean(field: Field, section: Section, voltages: Voltages) -> Number:
    """Mean field across the oil space in the middle of the hole at the dry test."""
    bore = field.surface("bore", "oil")
    share = 1 - abs(bore.potential[_nearest(bore, section.heights.cover_underside / 2)])
    width = section.radii.bore - section.radii.conductor
    return _stress(float(share) / width, "Mean field across the oil in the hole", field, voltages)


def _bore_peak(field: Field, section: Section, voltages: Voltages) -> Number:
    """Field of the porcelain at the bore in the middle of the hole at the dry test."""
    bore = field.surface("bore", "porcelain")
    place = _nearest(bore, section.heights.cover_underside / 2)
    value = float(bore.strength[place])
    return _stress(value, "Field in the porcelain at the bore, in the hole", field, voltages)
