"""What the field is in every region, along every surface and on the conductor, in service."""

from dataclasses import dataclass

import numpy as np

from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.profiles import Profile
from shedlight.physics.field.readings import Complex
from shedlight.physics.field.summary import CLEAR, distance_to_corners
from shedlight.trace import Label, Number
from shedlight.workings.field import Field
from shedlight.workings.field_numbers import SOLVED, derived, stress

WORDS = {
    "air": "air",
    "oil": "oil of the bushing",
    "tank oil": "oil of the tank",
    "clearance": "gap in the hole",
    "porcelain": "porcelain",
    "gasket": "gasket",
}
SURFACES = (
    ("air side", "air", "porcelain in air"),
    ("oil side", "tank oil", "porcelain in oil"),
    ("stem", "oil", "conductor"),
)
HALF = 0.5


@dataclass(frozen=True)
class RegionStress:
    """Mean and largest field of a region, rms [V/m]; open space has no mean."""

    region: str
    mean: Number | None
    largest: Number


@dataclass(frozen=True)
class SurfaceStress:
    """The field on a surface, rms [V/m]: largest along it and away from it, mean of the whole.

    `half` is the length from its earthed end at which half the voltage is reached [m]. Metal has
    neither a field along it nor such a length.
    """

    surface: str
    along: Number | None
    across: Number
    mean: Number
    half: Number | None


def region_stresses(field: Field, voltage: Number) -> tuple[RegionStress, ...]:
    """Every region, in service.

    Args:
        field: The field.
        voltage: To earth, rms.
    """
    clear = f"no nearer than {1e3 * CLEAR:g} mm to a corner without bound"
    found = []
    for item in field.regions:
        place = f"on the edge {item.edge!r}, {clear}"
        name = f"Largest field in the {WORDS[item.region]}, rms"
        largest = stress(item.largest, name, field, voltage, place)
        mean = None
        if item.mean is not None:
            name = f"Mean field in the {WORDS[item.region]}, rms"
            mean = stress(item.mean, name, field, voltage, "by volume")
        found.append(RegionStress(item.region, mean, largest))
    return tuple(found)


def surface_stresses(
    field: Field, solution: Solution, voltage: Number
) -> tuple[SurfaceStress, ...]:
    """The porcelain in air and in oil, and the conductor, in service.

    Args:
        field: The field.
        solution: The same as it was solved.
        voltage: To earth, rms.
    """
    return tuple(
        _surface(field, solution, field.surface(edge, region), words, voltage)
        for edge, region, words in SURFACES
    )


def _surface(
    field: Field, solution: Solution, seen: Profile, words: str, voltage: Number
) -> SurfaceStress:
    clear = distance_to_corners(solution, seen.points) >= CLEAR

    def largest(values: Complex, how: str) -> Number:
        size = np.where(clear, np.abs(values), 0.0)
        at = int(size.argmax())
        where = f"{1e3 * seen.lengths[at]:.0f} mm along the edge {seen.edge!r}"
        name = f"Largest field {how} the {words}, rms"
        return stress(float(size[at]), name, field, voltage, where)

    on_metal = solution.problem.shape.side(seen.edge).electrode is not None
    span = float(seen.lengths[-1] - seen.lengths[0])
    mean = float(np.trapezoid(seen.strength, seen.lengths)) / span
    return SurfaceStress(
        words,
        None if on_metal else largest(seen.tangential, "along"),
        largest(seen.normal, "away from"),
        stress(mean, f"Mean field on the {words}, rms", field, voltage, "by length"),
        None if on_metal else _half(seen, words),
    )


def _half(seen: Profile, words: str) -> Number | None:
    """Where half the voltage is reached, from the earthed end; none if it never is."""
    share = np.abs(seen.potential)
    crossed = np.flatnonzero((share[:-1] - HALF) * (share[1:] - HALF) <= 0)
    if not len(crossed):
        return None
    first = int(crossed[0])
    rise = share[first + 1] - share[first]
    step = (HALF - share[first]) / rise if rise else 0.0
    length = seen.lengths[first] + step * (seen.lengths[first + 1] - seen.lengths[first])
    label = Label(f"Half the voltage is reached on the {words} after", 'l_"½"', "mm")
    return derived(float(length), label, '"field solution"', SOLVED, "from its earthed end", ())
