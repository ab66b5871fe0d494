"""Where a steady state rests on correlations used beyond what their sources vouch for."""

from shedlight.physics.heat.films import VERTICAL_ANNULUS, Cooling, air_at, oil_at
from shedlight.physics.heat.steady import SteadyCase, SteadyState
from shedlight.physics.heat.stretches import Across, OpenAir, Stretch
from shedlight.trace import formula_of

COLDEST_OIL, HOTTEST_OIL = 273.15, 373.15  # where the fits of the oil's properties end [K]


def range_remarks(case: SteadyCase, state: SteadyState) -> tuple[str, ...]:
    """What has to be said beside a steady state: every range of a source that it leaves.

    Args:
        case: The bushing.
        state: What it settled to.

    Returns:
        One sentence per remark; empty if all sources vouch for their part.

    Source: ranges as declared with each correlation — basis: exact.
    """
    found: list[str] = []
    for number, (stretch, side, mean) in enumerate(
        zip(case.stretches, state.across, state.chain.means, strict=True), start=1
    ):
        where = f"stretch {number}"
        resting = case.films_of(stretch.outside) is Cooling.LOW  # needs no correlation
        if stretch.housing is not None and not case.lying and not resting:
            found += annulus_remarks(where, case, stretch, side, mean)
        if stretch.housing is not None and stretch.housing.oil_filled:
            found += _fits(where, (mean + side.bore) / 2)
        if isinstance(stretch.outside, OpenAir):
            found += _plate(where, stretch, side)
    return tuple(dict.fromkeys(found))


def _fits(where: str, oil: float) -> list[str]:
    if COLDEST_OIL <= oil <= HOTTEST_OIL:
        return []
    way = "hotter" if oil > HOTTEST_OIL else "colder"
    return [f"{where}: oil {way} than the fits of its properties reach"]


def annulus_remarks(
    where: str, case: SteadyCase, stretch: Stretch, side: Across, mean: float
) -> list[str]:
    """Every range that the correlations for upright annuli leave in one stretch.

    Args:
        where: What the stretch is called.
        case: The bushing.
        stretch: The stretch.
        side: Its temperatures across.
        mean: Mean temperature of its conductor [K].

    Returns:
        One sentence per range left.

    Source: ranges as declared with each correlation — basis: exact.
    """
    housing, radius = stretch.housing, case.wire.outer_radius
    if housing is None:
        return []
    gap = housing.bore_radius - radius
    middle = (mean + side.bore) / 2
    fluid = oil_at(middle) if housing.oil_filled else air_at(middle)
    values = {
        "rayleigh": fluid.rayleigh(mean - side.bore, gap),
        "prandtl": fluid.prandtl,
        "slenderness": (housing.cavity_height or stretch.length) / gap,
        "radius_ratio": housing.bore_radius / radius,
    }
    return [
        f"{where}: {declared.inputs[name].name} of {values[name]:.3g} lies outside the range of "
        f"{declared.citation.key} ({low:g} to {high:g})"
        for declared in map(formula_of, VERTICAL_ANNULUS)
        for name, (low, high) in declared.ranges.items()
        if not low <= values[name] <= high
    ]


def _plate(where: str, stretch: Stretch, side: Across) -> list[str]:
    """A vertical cylinder counts as a plate if its diameter is at least 35 H/Gr^(1/4)."""
    housing, surface = stretch.housing, side.surface
    if housing is None:
        return []
    air = air_at((surface + stretch.around) / 2)
    grashof = air.rayleigh(surface - stretch.around, stretch.length) / air.prandtl
    least = 35 * stretch.length / max(grashof, 1e-30) ** 0.25
    if 2 * housing.envelope_radius >= least:
        return []
    return [
        f"{where}: too slender for the film of a flat wall; the true film is better (safe side)"
    ]
