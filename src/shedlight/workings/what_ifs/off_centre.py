"""What if the conductor lay off the middle: no body of revolution any more, so a bound instead."""

from shedlight.errors import RequestError
from shedlight.physics.radial.eccentric import (
    eccentric_factor,
    eccentric_gradient,
    offset_of_width,
)
from shedlight.trace import Number, calculate
from shedlight.workings import Workings
from shedlight.workings.numbers import assumption, on_outline
from shedlight.workings.what_ifs.record import Compared, Supposed, Supposition, WhatIf, as_it_is


def off_centre(work: Workings, supposed: Supposed) -> WhatIf:
    """Eccentric cylinders beside the centred conductor; no field is solved.

    Args:
        work: What was computed for an installation.
        supposed: The offset, where another than the usual is wanted.

    Raises:
        RequestError: an offset at which the conductor touches the bore.
    """
    radii, offset = work.section.radii, _offset(work, supposed)
    centred = work.radial.stress("oil", "oil", "service").inner
    at_hole = _bound(work, radii.hole, "hole", offset, centred)
    at_bore = _bound(work, radii.bore, "bore", offset, centred)
    more = [100 * (bound / centred - 1) for bound in (at_hole, at_bore)]
    return WhatIf(
        Supposition.OFF_CENTRE,
        "Conductor off the middle of its bore",
        (
            "Not axisymmetric, so not solved as a field: bounded by eccentric cylinders, which "
            "are exact for one dielectric between two electrodes.",
            f"The conductor lies {1e3 * offset:.3g} mm off the middle. Porcelain is neither oil "
            "nor metal: the true factor is taken to lie between that of a tube at the hole "
            "(porcelain like oil) and of one at the bore (porcelain like metal).",
        ),
        (
            Compared("Largest field at the conductor, tube at the hole", centred, at_hole),
            Compared("Largest field at the conductor, tube at the bore", centred, at_bore),
        ),
        f"{1e3 * offset:.3g} mm off the middle raise the largest field at the conductor by "
        f"{more[0]:.0f} to {more[1]:.0f} %.",
        as_it_is(work),
        None,
    )


def _bound(work: Workings, radius: float, words: str, offset: Number, centred: Number) -> Number:
    inner = on_outline(
        work.section.radii.conductor, "Conductor radius", "r_0", "mm", "on the section"
    )
    outer = on_outline(radius, f"Radius of the {words}", "b", "mm", "on the section")
    return calculate(eccentric_gradient, centred, calculate(eccentric_factor, inner, outer, offset))


def _offset(work: Workings, supposed: Supposed) -> Number:
    radii = work.section.radii
    width = on_outline(radii.bore - radii.conductor, "Width of the oil space", "d", "mm", "radial")
    if supposed.offset is None:
        return calculate(offset_of_width, width, assumption("conductor offset"))
    if not 0 <= supposed.offset < width:
        raise RequestError(
            f"offset: given {1e3 * supposed.offset:.3g} mm; expected 0 to less than "
            f"{1e3 * width:.3g} mm, the width of the oil space"
        )
    return on_outline(supposed.offset, "Distance of the two axes", "e", "mm", "as supposed")
