"""What the field does along the surfaces: stress and voltage against creepage length."""

from collections.abc import Sequence

import numpy as np

from shedlight.figures.chart import Axis, Chart, Curve, Limit, chart_scene, fitted
from shedlight.figures.scene import Scene
from shedlight.workings.field import Field

LENGTH = "creepage length from the clamps, mm"
SURFACE, MEDIUM = "air side", "air"
CLEAR = 1e-3  # nearer to metal the field grows without limit and a peak would mean nothing


def surface_stress(
    field: Field, voltage: float, *, sheds: Sequence[float] = (), limits: Sequence[Limit] = ()
) -> Scene:
    """Field along and into the air beside the porcelain, against creepage length.

    Args:
        field: The field at one volt.
        voltage: Voltage on the live metal, rms [V].
        sheds: Creepage lengths at which shed tips stand [m].
        limits: Levels to hold against [kV/mm].
    """
    profile = field.surface(SURFACE, MEDIUM)
    clear = (profile.lengths > CLEAR) & (profile.lengths < profile.lengths[-1] - CLEAR)
    lengths = tuple(1e3 * profile.lengths[clear])
    along = tuple(np.abs(profile.tangential[clear]) * voltage / 1e6)
    into = tuple(np.abs(profile.normal[clear]) * voltage / 1e6)
    return chart_scene(
        Chart(
            "stress",
            f"Field beside the porcelain in air at {voltage / 1e3:.4g} kV rms to earth",
            "Tangential and normal field in air against creepage length from the clamps; the last "
            f"{1e3 * CLEAR:g} mm beside metal are left out",
            Axis(LENGTH, 0.0, 1e3 * float(profile.lengths[-1])),
            fitted("field, kV/mm rms", (*along, *into, *(limit.value for limit in limits))),
            (Curve("along the surface", lengths, along), Curve("into the air", lengths, into)),
            tuple(limits),
            tuple(1e3 * tip for tip in sheds),
            "ticks above: shed tips" if sheds else "",
        )
    )


def surface_voltage(fields: Sequence[Field], *, sheds: Sequence[float] = ()) -> Scene:
    """How the voltage spreads along the surface in several of its states, in one picture.

    Args:
        fields: The field at one volt for each state.
        sheds: Creepage lengths at which shed tips stand [m].
    """
    curves = []
    for field in fields:
        profile = field.surface(SURFACE, MEDIUM)
        share = tuple(100 * np.abs(profile.potential))
        curves.append(Curve(field.state.name, tuple(1e3 * profile.lengths), share))
    return chart_scene(
        Chart(
            "voltage",
            "Voltage along the surface in air",
            "Potential along the creepage path in share of the voltage, for each surface state",
            Axis(LENGTH, 0.0, curves[0].xs[-1]),
            fitted("potential, % of the voltage", (0.0, 100.0)),
            tuple(curves),
            (),
            tuple(1e3 * tip for tip in sheds),
            "ticks above: shed tips" if sheds else "",
        )
    )
