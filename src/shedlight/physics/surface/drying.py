"""A wet dirty surface under voltage over minutes: it warms, dries in bands, sparks, wets again.

Assumptions, all of them limits too: one dimension, along the path, even all round the axis (real
bands begin at one side and close round); water moves only by arriving, evaporating, condensing
and running off when there is too much; salt stays where it is; the porcelain's skin takes heat as
a wall that is adiabatic some 14 mm deep, so minutes, not hours; no heat along the path; arcs as
in :mod:`shedlight.physics.surface.dry_bands`, which do not grow over the wet layer here: a
`spreading` above 1 says that they would. r.m.s. voltage is held. A layer given as perfectly even
dries over whole necks and hardly sparks; :func:`shedlight.physics.surface.wetting.uneven_layer`
scatters it. Sparking is chaotic: single sparks hang on the step, their statistics do not.

Each step solves the heat of all cells at once, implicitly in the temperature, evaporation
included; energy and water are booked as they move, and the book must close.
"""

import math
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.physics.domain import not_negative, positive, within
from shedlight.physics.surface.dry_bands import (
    BandArcs,
    Network,
    arc_heat_on_surface,
    banded_network,
    default_arcs,
)
from shedlight.physics.surface.evaporation import mass_transfer, vapour_densities, vapour_slopes
from shedlight.physics.surface.resistance import LATENT_HEAT, SurfacePath
from shedlight.physics.surface.wetting import warm_layer_factors

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]

WATER_HEAT = 4186.0  # [J/kgK]
LAYERS = np.array([0.4e-3, 0.8e-3, 1.6e-3, 3.2e-3, 8.0e-3])  # [m] of porcelain, from outside
THIN_WATER = 1e-4  # [kg/m²] below which evaporation slackens
HOTTEST = 380.0  # [K] up to which the layer's properties are followed


@dataclass(frozen=True)
class WetSurface:
    """The layer and the wall under it.

    Attributes:
        path: The creepage path.
        fully_wet: Layer conductivity of each cell when fully wet, at 20 °C [S].
        full_wetting: Water with which it conducts fully [kg/m²].
        most_water: Water it holds; more runs off [kg/m²].
        dry_share: Share of full wetting below which a cell counts as dry [1].
        dry_conduction: Share of its conductivity that a dry cell keeps [1].
        wall_conductivity: Of the porcelain [W/mK].
        wall_heat: Of the porcelain, per volume [J/m³K].
        arcs: How dry bands hold and burn.
        arc_share: Share of an arc's power that warms the surface under it [1].
    """

    path: SurfacePath
    fully_wet: Array
    full_wetting: float = 0.05
    most_water: float = 0.1
    dry_share: float = 0.05
    dry_conduction: float = 1e-5
    wall_conductivity: float = 1.5
    wall_heat: float = 2.2e6
    arcs: BandArcs = field(default_factory=default_arcs)
    arc_share: float = 0.3

    def __post_init__(self) -> None:
        """Refuse what has no meaning."""
        if self.fully_wet.shape != self.path.sizes.shape:
            raise InputError(f"fully_wet: expected {len(self.path.sizes)} cells")
        positive(
            fully_wet=float(np.min(self.fully_wet)),
            full_wetting=self.full_wetting,
            most_water=self.most_water,
            dry_conduction=self.dry_conduction,
            wall_conductivity=self.wall_conductivity,
            wall_heat=self.wall_heat,
        )
        within(0.0, 1.0, dry_share=self.dry_share, arc_share=self.arc_share)


@dataclass(frozen=True)
class FogOrRain:
    """The weather at the surface.

    Attributes:
        temperature: Of air and water [K].
        humidity: Relative humidity; 1 in fog [1].
        arriving: Water that strikes each cell, or all alike [kg/m²s]: a wetting rate in m/s times
            1000 kg/m³; fog brings some 1e-4, a wetting rate of 1 mm/h 2.8e-4.
        heat_transfer: Between surface and air [W/m²K].
    """

    temperature: float = 283.15
    humidity: float = 1.0
    arriving: Array | float = 2e-4
    heat_transfer: float = 12.0

    def __post_init__(self) -> None:
        """Refuse what has no meaning."""
        within(273.15, 323.15, temperature=self.temperature)
        within(0.0, 1.0, humidity=self.humidity)
        not_negative(arriving=float(np.min(self.arriving)))
        positive(heat_transfer=self.heat_transfer)


@dataclass(frozen=True)
class Ledger:
    """Where the energy went [J]; water in kg."""

    electrical: float
    evaporated: float
    convected: float
    arcs_to_air: float
    run_off: float
    stored: float
    water_error: float

    @property
    def error(self) -> float:
        """What the book does not account for, over what came in [1]."""
        out = self.evaporated + self.convected + self.arcs_to_air + self.run_off + self.stored
        return abs(self.electrical - out) / max(self.electrical, 1e-12)


@dataclass(frozen=True)
class DryingRun:
    """What happened, at moments spread evenly over the time; last axis by cell.

    Attributes:
        times: Moments [s].
        currents: Leakage current, rms [A].
        voltages: Across each cell, rms [V].
        temperatures: Of the surface [K].
        waters: Water in the layer [kg/m²].
        burning: Cells that an arc bridges.
        spreading: Gradient of the layer over the arc's, greatest [1]; above 1 flashover threatens.
        ledger: The energy's book over the whole time.
    """

    times: Array
    currents: Array
    voltages: Array
    temperatures: Array
    waters: Array
    burning: Flags
    spreading: Array
    ledger: Ledger


@dataclass
class _State:
    """What a run carries from step to step."""

    wall: Array  # porcelain temperatures, layer by cell [K]
    water: Array  # [kg/m²]
    electrical: float = 0.0
    evaporated: float = 0.0
    convected: float = 0.0
    to_air: float = 0.0
    run_off: float = 0.0
    water_in: float = 0.0


def dry_out(
    surface: WetSurface,
    weather: FogOrRain,
    voltage_across: float,
    duration: float,
    *,
    step: float = 0.5,
    start_water: float = 0.0,
    moments: int = 240,
) -> DryingRun:
    """Leakage current and voltage along the surface over minutes of fog, drizzle or after rain.

    (C + c_w w) dT/dt = p(κ(T, w)) - h (T - T_a) - L_v m_e(T, w) - c_w a (T - T_a) + wall,
    dw/dt = a - m_e - run-off

    Args:
        surface: The layer and the wall.
        weather: The weather.
        voltage_across: Voltage across the insulator, rms [V].
        duration: How long [s].
        step: Time step [s].
        start_water: Water in the layer at the start [kg/m²].
        moments: How many moments to keep.

    Returns:
        The run, with its energy booked.

    Raises:
        InputError: an argument out of range.

    Source: a model stated in this module's head, from heat and mass balances (Incropera, DeWitt)
    and arcs after Alston, Zoledziowski, Wilkins, Hampton; behaviour compared with Salthouse (1968)
    and Löberg, Salthouse (1971) — basis: a stated model; its parts are as they say.
    Valid for: minutes; light to heavy pollution before flashover.
    """
    positive(duration=duration, step=step, moments=moments)
    not_negative(voltage_across=voltage_across, start_water=start_water)
    cells = len(surface.path.sizes)
    state = _State(
        np.full((len(LAYERS), cells), weather.temperature),
        np.full(cells, min(start_water, surface.most_water)),
    )
    count = max(1, round(duration / step))
    keep = set(np.unique(np.linspace(0, count - 1, min(moments, count)).astype(int)).tolist())
    kept: list[tuple[float, float, Array, Array, Array, Flags, float]] = []
    water_before = float(np.sum(state.water * surface.path.areas))
    for number in range(count):
        network = _network_now(surface, state, voltage_across)
        if number in keep:
            moment = (number * step, network.current, network.voltages, state.wall[0].copy())
            kept.append((*moment, state.water.copy(), network.burning, network.spreading))
        power = arc_heat_on_surface(network, surface.arc_share)
        whole = network.current * float(np.sum(network.voltages))
        state.electrical += step * whole
        state.to_air += step * (whole - float(np.sum(power)))
        _advance(surface, weather, state, power / surface.path.areas, step)
    times, currents, voltages, temperatures, waters, burning, spreading = zip(*kept, strict=True)
    return DryingRun(
        np.array(times),
        np.array(currents),
        np.array(voltages),
        np.array(temperatures),
        np.array(waters),
        np.array(burning),
        np.array(spreading),
        _ledger(surface, weather, state, water_before),
    )


def _network_now(surface: WetSurface, state: _State, voltage_across: float) -> Network:
    share = state.water / surface.full_wetting
    wet = np.clip(share, surface.dry_conduction, 1.0)
    # A dry cell conducts no better for being hot.
    hot = np.where(share < surface.dry_share, 293.15, np.minimum(state.wall[0], HOTTEST))
    warm = warm_layer_factors(hot)
    each = surface.path.form_factors / (surface.fully_wet * warm * wet)
    dry = share < surface.dry_share
    return banded_network(surface.path, each, dry, voltage_across, surface.arcs)


def _advance(
    surface: WetSurface, weather: FogOrRain, state: _State, heat: Array, step: float
) -> None:
    """One step: heat and water of every cell, and what was booked."""
    air, areas = weather.temperature, surface.path.areas
    arriving = np.broadcast_to(np.asarray(weather.arriving, dtype=np.float64), areas.shape)
    now = state.wall[0]
    transfer = mass_transfer(weather.heat_transfer)
    damp = weather.humidity * float(vapour_densities(np.array([air]))[0])
    leaving = transfer * (vapour_densities(np.minimum(now, HOTTEST)) - damp)
    there = state.water + step * arriving
    slack = np.where(leaving > 0, there / (there + THIN_WATER), 1.0)
    slope = slack * transfer * vapour_slopes(np.minimum(now, HOTTEST))
    leaving = slack * leaving
    most = there / step
    capped = np.zeros(len(areas), dtype=np.bool_)
    for _ in range(2):  # where all water would leave, once more with just that
        rate = np.where(capped, most, leaving)
        steep = np.where(capped, 0.0, slope)
        wall = _warmed(surface, weather, state, heat, arriving, rate, steep, step)
        gone = rate + steep * (wall[0] - now)
        capped |= gone > most
    gone = np.minimum(gone, most)
    water = np.maximum(there - step * gone, 0.0)
    spilled = np.maximum(water - surface.most_water, 0.0)
    above = wall[0] - air
    state.evaporated += float(np.sum(areas * (LATENT_HEAT + WATER_HEAT * above) * gone) * step)
    state.convected += float(np.sum(areas * weather.heat_transfer * above) * step)
    state.run_off += float(np.sum(areas * WATER_HEAT * above * spilled))
    state.water_in += float(np.sum(areas * (step * (arriving - gone) - spilled)))
    state.wall, state.water = wall, water - spilled


def _warmed(
    surface: WetSurface,
    weather: FogOrRain,
    state: _State,
    heat: Array,
    arriving: Array,
    leaving: Array,
    slope: Array,
    step: float,
) -> Array:
    """Temperatures after a step; the wall is eliminated from its inside outwards."""
    old, air = state.wall, weather.temperature
    capacity = surface.wall_heat * LAYERS / step
    between = 2 * surface.wall_conductivity / (LAYERS[1:] + LAYERS[:-1])
    # Each layer's temperature is a share of its outer neighbour's plus what it held.
    share, held, pull = np.zeros(len(LAYERS)), np.zeros_like(old), 0.0
    flow: Array = np.zeros(old.shape[1])
    for layer in range(len(LAYERS) - 1, 0, -1):
        weight = capacity[layer] + between[layer - 1] + pull
        share[layer] = between[layer - 1] / weight
        held[layer] = (capacity[layer] * old[layer] + flow) / weight
        pull = between[layer - 1] * (1 - share[layer])
        flow = between[layer - 1] * held[layer]
    outer = capacity[0] + WATER_HEAT * state.water / step
    loss = weather.heat_transfer + WATER_HEAT * arriving
    weight_out = outer + loss + LATENT_HEAT * slope + pull
    known = outer * old[0] + heat + loss * air - LATENT_HEAT * (leaving - slope * old[0]) + flow
    new = np.empty_like(old)
    new[0] = known / weight_out
    for layer in range(1, len(LAYERS)):
        new[layer] = share[layer] * new[layer - 1] + held[layer]
    return new


def _ledger(surface: WetSurface, weather: FogOrRain, state: _State, water_before: float) -> Ledger:
    areas, above = surface.path.areas, state.wall - weather.temperature
    wall = surface.wall_heat * float(np.sum(LAYERS[:, None] * above * areas))
    film = WATER_HEAT * float(np.sum(state.water * above[0] * areas))
    water = float(np.sum(state.water * areas))
    scale = max(water, water_before, 1e-12)
    error = math.fabs(water - water_before - state.water_in) / scale
    return Ledger(
        state.electrical,
        state.evaporated,
        state.convected,
        state.to_air,
        state.run_off,
        wall + film,
        error,
    )
