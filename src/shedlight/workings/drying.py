"""A wet, dirty surface over minutes of fog or rain, on the bushing's own outline; on request."""

import math
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.rain import wet_map
from shedlight.given.bushing import Installation
from shedlight.physics.air.driving_rain import wetting_rate
from shedlight.physics.surface.drying import DryingRun, FogOrRain, WetSurface, dry_out
from shedlight.physics.surface.resistance import SurfacePath
from shedlight.physics.surface.wetting import uneven_layer, warm_layer_factor
from shedlight.sources import Citation, cite
from shedlight.trace import Number
from shedlight.workings import Workings
from shedlight.workings.dirt import Layer
from shedlight.workings.numbers import assumption
from shedlight.workings.rain import broadside, natural_slants

Array = NDArray[np.float64]

STEP = 0.5  # [s]
MOMENTS = 1200
MERIDIANS = 12
CELLS = 300  # places along the path at which rain is looked at
FINEST, SAGITTA = 1e-3, 1e-4  # [m]
MINUTE = 60.0  # [s]
WATER = 1000.0  # [kg/m³]
SHORTEST, LONGEST = 0.5, 120.0  # [min]
STEEPEST = math.radians(75)  # flatter rain brings hardly any water to level ground
RUNS_ON = 1.0  # gradient of the layer over the arc's, from which an arc runs on
SEED = 7

LIMITS = (
    "One dimension, even all round the axis: real bands begin at one side and close round.",
    "Salt stays where it is; heavy rain would wash it away.",
    "Minutes, not hours: the wall takes heat as if it were some 14 mm deep.",
    "Arcs cross dry bands and do not grow over the wet layer: where the layer's gradient exceeds "
    "the arc's they would begin to run on, and the model ends.",
    "Rain is spread over the whole ring that it strikes on one side; no splash, no drips.",
    "Dry stretches share the voltage by a trace of conduction; capacitance is left out.",
    "Single sparks hang on chance and on the time step; their statistics hardly do.",
    "It shows how a wet surface behaves. It proves no withstand and enters no verdict.",
)


class Scenario(StrEnum):
    """The weather that wets the surface."""

    FOG = "fog"
    RAIN = "rain"


@dataclass(frozen=True)
class Observation:
    """What was published of wet surfaces under voltage, and what this run shows of it."""

    published: str
    citation: Citation
    here: str
    seen: bool


@dataclass(frozen=True, eq=False)
class Drying:
    """A run of the time model on one bushing.

    Attributes:
        scenario: The weather.
        minutes: How long [min].
        voltage: Held across the bushing, rms [V].
        layer: The layer when fully wet and as warm as the fog.
        assumed: What was assumed, each with its source.
        path: The creepage path in cells.
        run: What happened.
        dry_below: Water below which a cell counts as dry [kg/m²].
    """

    scenario: Scenario
    minutes: float
    voltage: Number
    layer: Layer
    assumed: tuple[Number, ...]
    path: SurfacePath
    run: DryingRun
    dry_below: float

    @property
    def limits(self) -> tuple[str, ...]:
        """What the model leaves out."""
        return LIMITS

    @cached_property
    def tips(self) -> tuple[float, ...]:
        """Creepage at which the sheds reach furthest out [m]."""
        radii = self.path.radii
        rises = np.concatenate([[True], radii[1:] > radii[:-1]])
        falls = np.concatenate([radii[:-1] > radii[1:], [True]])
        out = rises & falls & (radii > (np.min(radii) + np.max(radii)) / 2)
        return tuple(float(length) for length in self.path.ends[out])

    @cached_property
    def dry(self) -> NDArray[np.bool_]:
        """Which cells are dry, by moment and cell."""
        return self.run.waters < self.dry_below

    @cached_property
    def dry_shares(self) -> Array:
        """Share of the creepage that is dry, by moment [1]."""
        return np.asarray(self.dry @ self.path.sizes / self.path.ends[-1], dtype=np.float64)

    @cached_property
    def on_dry(self) -> Array:
        """Share of the voltage that dry stretches take, by moment [1]."""
        taken = np.sum(np.where(self.dry, self.run.voltages, 0.0), axis=1)
        return np.asarray(taken / float(self.voltage), dtype=np.float64)

    @cached_property
    def peak(self) -> int:
        """The moment of the highest current before anything sparks."""
        lit = np.flatnonzero(self.run.burning.any(axis=1))
        before = int(lit[0]) if len(lit) and lit[0] > 0 else len(self.run.times)
        return int(np.argmax(self.run.currents[:before]))

    @cached_property
    def banded(self) -> int | None:
        """The moment after the peak at which dry bands have taken most of the voltage, if any."""
        found = np.flatnonzero(self.on_dry[self.peak :] > 0.5)
        return self.peak + int(found[0]) if len(found) else None

    @property
    def sparking_share(self) -> float:
        """Share of the moments at which an arc or sparks cross a band [1]."""
        return float(np.mean(self.run.burning.any(axis=1)))

    @property
    def runs_on(self) -> float | None:
        """When an arc would first run on over the wet layer [s]; None if never."""
        found = np.flatnonzero(self.run.spreading > RUNS_ON)
        return float(self.run.times[found[0]]) if len(found) else None

    @property
    def sentence(self) -> str:
        """What happened, in a sentence."""
        return _told(self)

    @property
    def observations(self) -> tuple[Observation, ...]:
        """Published behaviour beside this run's."""
        return _observed(self)


def drying_of(
    installation: Installation, work: Workings, scenario: Scenario, minutes: float
) -> Drying:
    """Leakage current, dry bands and energy over minutes of fog or rain, in service.

    Args:
        installation: What was described.
        work: What was computed for it.
        scenario: The weather.
        minutes: How long it lasts [min].

    Raises:
        InputError: minutes outside 0.5 to 120.
    """
    if not SHORTEST <= minutes <= LONGEST:
        raise InputError(
            f"minutes: given {minutes:g}; expected {SHORTEST:g} to {LONGEST:g}. Choose a time the "
            "model is made for."
        )
    dirt = work.dirt
    scatter = float(assumption("layer scatter"))
    # The room states the layer as warm as the fog; the model warms it from 20 °C by itself.
    at_20 = dirt.conductivities(dirt.layer) / warm_layer_factor(installation.site.fog_temperature)
    surface = WetSurface(
        dirt.path,
        at_20 * uneven_layer(1.0, len(at_20), scatter, SEED),
        full_wetting=float(assumption("full wetting")),
        most_water=float(assumption("most water")),
        arc_share=float(assumption("arc share")),
    )
    weather, told = _weather(installation, work, dirt.path, scenario)
    voltage = work.voltages.phase
    run = dry_out(surface, weather, float(voltage), minutes * MINUTE, step=STEP, moments=MOMENTS)
    common = ("layer scatter", "full wetting", "most water", "arc share", "film heat transfer")
    assumed = (work.number("site.fog_temperature"), *(assumption(key) for key in (*told, *common)))
    dry_below = surface.dry_share * surface.full_wetting
    return Drying(scenario, minutes, voltage, dirt.layer, assumed, dirt.path, run, dry_below)


def _weather(
    installation: Installation, work: Workings, path: SurfacePath, scenario: Scenario
) -> tuple[FogOrRain, tuple[str, ...]]:
    """The weather at every cell, and the keys of what was assumed for it."""
    temperature = installation.site.fog_temperature
    transfer = float(assumption("film heat transfer"))
    if scenario is Scenario.FOG:
        return FogOrRain(temperature, 1.0, float(assumption("fog water")), transfer), ("fog water",)
    lengths, rates, told = _rained_on(installation, work)
    arriving = WATER * np.interp(path.middles, lengths, rates)
    rain = FogOrRain(temperature, float(assumption("rain humidity")), arriving, transfer)
    return rain, (*told, "rain humidity")


def _rained_on(installation: Installation, work: Workings) -> tuple[Array, Array, tuple[str, ...]]:
    """Places along the path, water that each ring receives there [m/s], and what was assumed."""
    site = installation.site
    slants = natural_slants(installation)
    if site.rain_rate is not None and slants is not None:
        rings = [_ring(installation, work, float(slant)) for slant in slants.slants]
        factors = np.stack([factor for _, factor in rings], axis=-1)
        return rings[0][0], wetting_rate(site.rain_rate, slants, factors), ()
    angle = min(site.rain_angle, STEEPEST)
    lengths, factor = _ring(installation, work, angle)
    rate = float(assumption("rain rate"))
    return lengths, rate * factor / math.cos(angle), ("rain rate",)


def _ring(installation: Installation, work: Workings, slant: float) -> tuple[Array, Array]:
    """How squarely rain of one slant strikes each ring of the path, all round in the mean."""
    creepage = work.measures.creepage
    step = max(FINEST, creepage.length / CELLS)
    direction = broadside(installation, slant)
    struck = wet_map(
        work.section, creepage, direction, meridians=MERIDIANS, step=step, sagitta=SAGITTA
    )
    return struck.lengths, struck.mean_factor


def _told(drying: Drying) -> str:
    run, start = drying.run, drying.peak
    if drying.scenario is Scenario.RAIN:
        share = 100 * drying.dry_shares[-1]
        return (
            f"{share:.0f} % of the creepage stays dry under the sheds and holds "
            f"{100 * drying.on_dry[-1]:.0f} % of the voltage; the current stays below "
            f"{1e3 * float(np.max(run.currents)):.3g} mA."
        )
    wet = f"{1e3 * run.currents[start]:.3g} mA after {run.times[start] / MINUTE:.1f} min"
    if drying.banded is None:
        after = "no dry band takes most of the voltage"
    else:
        after = (
            f"dry bands hold most of the voltage from {run.times[drying.banded] / MINUTE:.1f} min"
        )
    if drying.runs_on is not None:
        ends = (
            f"from {drying.runs_on / MINUTE:.1f} min arcs begin to run on over the wet layer, "
            "which flashover needs and which does not yet make one"
        )
    elif drying.sparking_share > 0:
        ends = f"sparks in {100 * drying.sparking_share:.0f} % of the time, none runs on"
    else:
        ends = "nothing sparks"
    at_once = 1e3 * float(drying.voltage) / float(drying.layer.resistance)
    return (
        f"Wet current {wet} (wet all over at once the layer would carry {at_once:.3g} mA: it dries "
        f"while it wets); {after}; {ends}."
    )


_SALTHOUSE = cite("Salthouse", "initiation of dry bands", "memory", "medium")
_GROWTH = cite("Löberg & Salthouse", "growth of dry bands", "memory", "medium")
_HAMPTON = cite("Hampton", "criterion of arcs running on", "memory", "high")


def _observed(drying: Drying) -> tuple[Observation, ...]:
    if drying.scenario is Scenario.RAIN:
        return (_sheltered(drying),)
    return (_rise_and_fall(drying), _on_the_trunk(drying), _voltage_taken(drying), _sparks(drying))


def _rise_and_fall(drying: Drying) -> Observation:
    run, peak = drying.run, float(drying.run.currents[drying.peak])
    later = run.currents[drying.peak + 1 :]
    usual = float(np.median(later)) if len(later) else peak
    return Observation(
        "The current climbs while the layer wets and falls when bands dry out.",
        _SALTHOUSE,
        f"highest wet current {1e3 * peak:.3g} mA, half the time after it below "
        f"{1e3 * usual:.3g} mA",
        usual < 0.5 * peak,
    )


def _on_the_trunk(drying: Drying) -> Observation:
    path, last = drying.path, drying.dry[-1]
    radii = (path.radii[1:] + path.radii[:-1]) / 2
    whole = float(np.sum(radii * path.sizes) / path.ends[-1])
    here, seen = "nothing is dry at the end", False
    if last.any():
        narrow = float(np.mean(radii[last]))
        here = (
            f"mean radius of the dry stretches {1e3 * narrow:.0f} mm, of all {1e3 * whole:.0f} mm"
        )
        seen = narrow < whole
    published = "Bands form where the current is densest: on the narrow trunk."
    return Observation(published, _GROWTH, here, seen)


def _voltage_taken(drying: Drying) -> Observation:
    return Observation(
        "Dry bands take nearly all the voltage.",
        _GROWTH,
        f"{100 * drying.on_dry[-1]:.0f} % at the end, on {100 * drying.dry_shares[-1]:.0f} % of "
        "the creepage",
        bool(drying.on_dry[-1] > 0.8),
    )


def _sparks(drying: Drying) -> Observation:
    past = float(np.mean(drying.run.spreading > RUNS_ON))
    return Observation(
        "Arcs over bands come and go; most of them run nowhere.",
        _HAMPTON,
        f"lit at {100 * drying.sparking_share:.0f} % of the moments, past the criterion at "
        f"{100 * past:.0f} %",
        0 < drying.sparking_share < 1,
    )


def _sheltered(drying: Drying) -> Observation:
    return Observation(
        "What rain cannot reach stays dry and keeps the current down; fog spares nothing.",
        cite("Looms", "dry undersides in rain", "memory", "medium"),
        f"{100 * drying.dry_shares[-1]:.0f} % of the creepage dry with "
        f"{100 * drying.on_dry[-1]:.0f} % of the voltage",
        bool(drying.dry_shares[-1] > 0.1 and drying.on_dry[-1] > 0.9),
    )
