"""Bodies whose stress is known exactly or published, solved by this room's finite elements.

They run with the reference rows on every machine that asks for the proof of the numbers.
"""

import math
from dataclasses import dataclass
from functools import cache

import numpy as np

from shedlight.geometry.curves import Arc, Curve, Line, Point, line
from shedlight.physics.domain import ordered, positive
from shedlight.physics.strength.section_mesh import Outline
from shedlight.physics.strength.section_skin import skin_of
from shedlight.physics.strength.section_stress import (
    Bed,
    BendingLoad,
    EvenLoad,
    Solid,
    solve_section,
)

_MODULUS, _POISSON = 70e9, 0.22
_STIFF = 1e15  # bed as good as none [N/m³]
_HAIR = 1e-7  # inside the skin [m]
_ORDER = 5


@dataclass(frozen=True)
class Solved:
    """Stresses of a tube at half its height, at the bore and outside [Pa]."""

    hoop_at_bore: float
    hoop_outside: float
    along_outside: float


@cache
def solved_tube(
    outer_diameter: float, inner_diameter: float, height: float, pressure: float, force: float
) -> Solved:
    """A tube that stands on its lower end, under pressure inside and a force across its top.

    Solved as any section; exact are Lamé's hoop stress and sigma = F (h/2)/Z

    Args:
        outer_diameter: Outer diameter [m].
        inner_diameter: Inner diameter [m].
        height: Of the tube [m].
        pressure: Inside, its ends open [Pa].
        force: Across the top [N].

    Returns:
        Stresses at half its height; the force's on the pulled side.

    Raises:
        InputError: an argument not above zero, diameters out of order.

    Source: Lamé; Timoshenko and Goodier — basis: exact.
    Valid for: a height of several diameters, or a ring if no force bends it.
    """
    positive(inner_diameter=inner_diameter, height=height)
    ordered(inner_diameter=inner_diameter, outer_diameter=outer_diameter)
    low, high = Point(inner_diameter / 2, 0.0), Point(outer_diameter / 2, 0.0)
    above, back = Point(high.r, height), Point(low.r, height)
    outline = Outline(
        (
            ("bottom", line(low, high)),
            ("outside", line(high, above)),
            ("top", line(above, back)),
            ("bore", line(back, low)),
        )
    )
    # A ring must be free to widen: its bed is soft, that of a mast is stiff.
    bed = Bed("bottom", _STIFF if force else 1.0)
    body = Solid(outline, _MODULUS, _POISSON, (bed,))
    size = min(height, (outer_diameter - inner_diameter) / 4)
    even, bending = EvenLoad((("bore", pressure),)), BendingLoad("top", force, 0.0)
    found = solve_section(body, even, bending, size, _ORDER)
    r = np.array([low.r + _HAIR, high.r - _HAIR])
    stress = found.at(r, np.full(2, height / 2))
    return Solved(float(stress.round[0]), float(stress.round[1]), float(stress.along[1]))


@cache
def solved_shoulder(shaft_diameter: float, collar_diameter: float, radius: float) -> float:
    """Stress peak where a bent shaft leaves its collar by a quarter circle, over that of the shaft.

    K = sigma_max pi d³/(32 M)

    Args:
        shaft_diameter: Of the shaft [m].
        collar_diameter: Of the collar [m].
        radius: Of the rounding between them [m].

    Returns:
        Stress concentration factor [1].

    Raises:
        InputError: an argument not above zero, diameters out of order.

    Source: R. E. Peterson, charts of shouldered shafts in bending — basis: memory.
    Valid for: a rounding that fits on the step.
    """
    positive(shaft_diameter=shaft_diameter, radius=radius)
    ordered(shaft_diameter=shaft_diameter, collar_diameter=collar_diameter)
    a, b = shaft_diameter / 2, collar_diameter / 2
    inner, foot, top = 0.02 * a, collar_diameter, collar_diameter + 3 * shaft_diameter
    arc = Arc(Point(a + radius, foot + radius), radius, 1.5 * math.pi, -math.pi / 2)
    wide = line(Point(b, 0.0), Point(b, foot), arc.start)
    outline = Outline(
        (
            ("bottom", line(Point(inner, 0.0), Point(b, 0.0))),
            ("outside", Curve((*wide.pieces, arc, Line(arc.end, Point(a, top))))),
            ("top", line(Point(a, top), Point(inner, top))),
            ("bore", line(Point(inner, top), Point(inner, 0.0))),
        )
    )
    body = Solid(outline, _MODULUS, 0.3, (Bed("bottom", _STIFF),))
    found = solve_section(body, EvenLoad(), BendingLoad("top", 0.0, 1.0), a / 2, _ORDER)
    skin = skin_of(outline, "outside", radius / 50, radius)
    peak = float(np.nanmax(found.at(skin.r, skin.z).greatest))
    return peak * math.pi * shaft_diameter**3 / 32
