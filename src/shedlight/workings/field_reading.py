"""Potential, field and material at any place of the section, in service."""

import math
from dataclasses import dataclass

import numpy as np
import shapely

from shedlight.errors import RequestError
from shedlight.physics.field.readings import OUTSIDE, read_at
from shedlight.trace import Label, Number
from shedlight.workings import Workings
from shedlight.workings.field import LIVE, METAL, fillings_of, problem_of, solved
from shedlight.workings.field_numbers import SOLVED, Hangs, at_one_volt, derived, stress

_STRENGTH = Label("Field strength, rms", "E", "kV/mm")


@dataclass(frozen=True)
class PlaceReading:
    """What a place of the section sees: potential [V rms], field [V/m rms], from where to where.

    Attributes:
        radius: Of the place [m].
        height: Over the top of the cover [m].
        region: Named region it lies in.
        material: What fills that region.
        potential: Against earth, rms.
        field: Largest in a period, rms.
        direction: Of the field from outwards (0) to upwards (90) [degree]; none inside metal.
    """

    radius: float
    height: float
    region: str
    material: str
    potential: Number
    field: Number
    direction: float | None


def reading_at(work: Workings, radius: float, height: float) -> PlaceReading:
    """Potential, field and material at a place.

    Args:
        work: What was computed for an installation.
        radius: Of the place [m].
        height: Over the top of the cover [m].

    Raises:
        RequestError: a place beyond the open space that was solved.
        FieldError: the field cannot be found.
    """
    case, voltage = work.installation, work.voltages.phase
    solution = solved(problem_of(work.section, fillings_of(case), case.duty.frequency))
    read = read_at(solution, np.array([radius]), np.array([height]))
    region = read.regions[0]
    if region == OUTSIDE:
        return _in_metal(work, radius, height)
    hangs = Hangs(fillings_of(case))
    where = f"at r = {1e3 * radius:.4g} mm, z = {1e3 * height:.4g} mm"
    share = at_one_volt(abs(read.potential[0]), "Share of the voltage", "s", "%", hangs, where)
    label = Label("Potential against earth, rms", "phi", "kV")
    potential = derived(float(share * voltage), label, "s U", SOLVED, where, (share, voltage))
    strength = stress(float(read.strength[0]), "Field strength, rms", hangs, voltage, where)
    along = np.real(read.field[0] / read.potential[0]) if read.potential[0] else np.zeros(2)
    direction = math.degrees(math.atan2(along[1], along[0]))
    material = next(item.material for item in hangs.fillings if item.region == region)
    return PlaceReading(radius, height, region, material, potential, strength, direction)


def _in_metal(work: Workings, radius: float, height: float) -> PlaceReading:
    place, voltage = shapely.Point(radius, height), work.voltages.phase
    drawn = {region.name for region in work.section.regions}
    for name, electrode in METAL.items():
        if radius >= 0 and name in drawn and work.section.polygon(name).covers(place):
            label = Label("Potential against earth, rms", "phi", "kV")
            value = float(voltage) if electrode == LIVE else 0.0
            potential = derived(value, label, '"that of the metal"', SOLVED, "", (voltage,))
            none = derived(0.0, _STRENGTH, '"none in metal"', SOLVED, "", ())
            return PlaceReading(radius, height, name, "metal", potential, none, None)
    raise RequestError(
        f"place: given r = {1e3 * radius:.4g} mm, z = {1e3 * height:.4g} mm; expected r of at "
        "least 0, within the open space that was solved and not inside distant metal"
    )
