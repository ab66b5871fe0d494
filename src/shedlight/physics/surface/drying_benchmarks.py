"""Wet surfaces whose course is known apart from our model, run by it: what it is tested with."""

import math

import numpy as np

from shedlight.physics.domain import positive
from shedlight.physics.surface.drying import FogOrRain, WetSurface, dry_out
from shedlight.physics.surface.resistance import SurfacePath

_PATH = SurfacePath(np.linspace(0.0, 0.6, 13), np.full(13, 0.05))
_CELLS = len(_PATH.sizes)
_MUCH = 20.0  # [kg/m²] of water: never dries
_LONG = 2e4  # [s]: the wall has settled
_STILL = 1e-6  # [W/m²K]: neither heat nor vapour leaves


def wet_bulb(air_temperature: float, humidity: float) -> float:
    """Temperature on which a wet surface without voltage settles in dry air.

    Args:
        air_temperature: Of the air [K].
        humidity: Relative humidity of the air [1].

    Returns:
        Temperature of the surface [K].

    Raises:
        InputError: an argument out of range.

    Source: :func:`shedlight.physics.surface.drying.dry_out` run until nothing changes — basis: as
    there.
    """
    surface = WetSurface(_PATH, np.full(_CELLS, 1e-5), most_water=_MUCH)
    weather = FogOrRain(air_temperature, humidity, 0.0, 12.0)
    run = dry_out(surface, weather, 0.0, _LONG, step=200.0, start_water=_MUCH / 2, moments=2)
    return float(run.temperatures[-1][0])


def warmed_wall(heat: float, after: float) -> float:
    """Rise of the surface that a small steady current warms, nothing leaving it.

    Args:
        heat: Heat per area, small enough that the layer's conductivity hardly changes [W/m²].
        after: Time since it began [s].

    Returns:
        Rise of the surface [K].

    Raises:
        InputError: an argument not above zero.

    Source: :func:`shedlight.physics.surface.drying.dry_out` with neither fog nor air — basis: as
    there.
    """
    positive(heat=heat, after=after)
    air, layer = 283.15, 1e-5
    surface = WetSurface(_PATH, np.full(_CELLS, layer), full_wetting=1e-3, most_water=1e-3)
    weather = FogOrRain(air, 1.0, 0.0, _STILL)
    # What heats is κ(T) E²; the layer conducts less at the air's temperature than at 20 °C.
    from_cold = dry_out(surface, weather, 1.0, 1.0, step=1.0, start_water=1e-3, moments=1)
    area = float(np.sum(_PATH.areas))
    voltage = math.sqrt(heat * area / float(from_cold.currents[0]))
    step = after / 240
    run = dry_out(
        surface, weather, voltage, after + 2 * step, step=step, start_water=1e-3, moments=243
    )
    rises = run.temperatures[:, 0] - air
    return float(np.interp(after, run.times, rises))
