"""The field with the surface in air dry, rained on, and wet all over, on the site's own layer."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.rain import rain_direction, wetted_meridian
from shedlight.geometry.wetting import Stretch
from shedlight.trace import Number
from shedlight.workings import Workings
from shedlight.workings.field import DRY, Field, SurfaceState, field_of, wet, wet_on
from shedlight.workings.field_numbers import stress
from shedlight.workings.wet_layer import WetLayer, wet_layer_of

Array = NDArray[np.float64]

SHORTEST = 2e-3  # wet and dry stretches shorter than this go with their neighbours [m]
SPAN = 5e-3  # the field along the surface is a mean over this length, so that no edge of a film,
# where the field has no bound, decides [m]
RAINED_ON, WET = "wet where rain strikes", "wet all over"
LIMITS = (
    "Even all round the axis: the side the rain comes from stands for every side.",
    "Before anything dries: no dry bands yet, no arcs. The layer is that of the site, fully wet.",
    "Rain washes and splashes; drips between sheds are left out.",
)


@dataclass(frozen=True, eq=False)
class StateReading:
    """One state of the surface: voltage [1] and mean field [V/m rms] by creepage length [m].

    `worst` is the largest mean over `SPAN`; `place` is where it stands on the creepage path.
    """

    field: Field
    lengths: Array
    share: Array
    along: Array
    worst: Number
    place: float

    @property
    def name(self) -> str:
        """What the state is called."""
        return self.field.state.name


@dataclass(frozen=True, eq=False)
class SurfaceStates:
    """Dry, rained on and wet all over, with the layer and the wet stretches they rest on."""

    layer: WetLayer
    rain_angle: float
    rain: tuple[Stretch, ...]
    tips: tuple[float, ...]
    voltage: Number
    readings: tuple[StateReading, ...]

    @property
    def limits(self) -> tuple[str, ...]:
        """What is left out."""
        return LIMITS

    def reading(self, name: str) -> StateReading:
        """The reading of a state."""
        return next(reading for reading in self.readings if reading.name == name)


def surface_states(work: Workings) -> SurfaceStates:
    """The field along the surface in air in each of its states, in service.

    Args:
        work: What was computed for an installation.

    Raises:
        FieldError: a field cannot be found.
    """
    case, section = work.installation, work.section
    layer = wet_layer_of(case, work.number)
    conductance, voltage = float(layer.conductivity), work.voltages.phase
    rain = _rain(work)
    states = (DRY, rained_on(work, rain, conductance), wet(section, conductance, WET))
    fields = [field_of(case, section, state) for state in states]
    return SurfaceStates(
        layer,
        case.site.rain_angle,
        rain,
        tips_of(work, fields[0]),
        voltage,
        tuple(_reading(work, field, voltage) for field in fields),
    )


def dry_reading(work: Workings, field: Field) -> StateReading:
    """The dry state alone.

    Args:
        work: What was computed for an installation.
        field: Its dry field.
    """
    return _reading(work, field, work.voltages.phase)


def rained_on(work: Workings, rain: tuple[Stretch, ...], conductance: float) -> SurfaceState:
    """Films where rain strikes the side it comes from.

    Where it strikes at the top of the clamps, water bridges the slot below, as creepage counts it
    too (practice).

    Args:
        work: What was computed for an installation.
        rain: Wet and dry stretches of the creepage path.
        conductance: Of the films [S] (per square).
    """
    start = slot_of(work)
    wetted = [(start + item.start, start + item.end) for item in rain if item.wet]
    if wetted and rain[0].wet:
        wetted[0] = (0.0, wetted[0][1])
    return wet_on(tuple(("air side", low, high) for low, high in wetted), conductance, RAINED_ON)


def slot_of(work: Workings) -> float:
    """How much of the surface in air lies below the top of the clamps and is no creepage [m].

    Args:
        work: What was computed for an installation.
    """
    return float(work.section.curve("air side").length - work.measures.creepage.length)


def tips_of(work: Workings, field: Field) -> tuple[float, ...]:
    """Creepage lengths at which the tips of the sheds stand [m].

    Args:
        work: What was computed for an installation.
        field: Any field of its section.
    """
    seen, start = field.surface("air side", "air"), slot_of(work)
    tips = ((shed.tip_radius, shed.tip_height) for shed in work.section.sheds)
    return tuple(
        float(seen.lengths[np.hypot(*(seen.points - [r, z]).T).argmin()]) - start for r, z in tips
    )


def _rain(work: Workings) -> tuple[Stretch, ...]:
    """Wet and dry stretches on the side the rain comes from, slivers left to their neighbours."""
    tilt = work.installation.transformer.mounting_angle
    found = work.measures.rain
    if tilt > 0:
        direction = rain_direction(work.installation.site.rain_angle, 0.0, tilt)
        found = wetted_meridian(work.section, work.measures.creepage, direction, 0.0)
    return _without_slivers(found)


def _without_slivers(found: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Stretches joined with their neighbours, the shortest first, until none is a sliver."""
    joined = list(found)
    while True:
        joined = _joined(joined)
        short = min(range(len(joined)), key=lambda n: joined[n].length)
        if len(joined) == 1 or joined[short].length >= SHORTEST:
            return tuple(joined)
        joined[short] = replace(joined[short], wet=not joined[short].wet)


def _joined(found: list[Stretch]) -> list[Stretch]:
    joined: list[Stretch] = []
    for item in found:
        if joined and joined[-1].wet == item.wet:
            joined[-1] = replace(joined[-1], end=item.end)
        else:
            joined.append(item)
    return joined


def _reading(work: Workings, field: Field, voltage: Number) -> StateReading:
    seen, start = field.surface("air side", "air"), slot_of(work)
    lengths, first = np.unique(seen.lengths, return_index=True)
    potential = seen.potential[first]
    even = np.arange(lengths[0], lengths[-1], SPAN / 10)
    low, high = np.maximum(even - SPAN / 2, lengths[0]), np.minimum(even + SPAN / 2, lengths[-1])
    drop = np.abs(_at(high, lengths, potential) - _at(low, lengths, potential))
    mean = drop / (high - low)
    on_creepage = even >= start
    worst = int(np.argmax(np.where(on_creepage, mean, 0.0)))
    place = float(even[worst]) - start
    name = f"Largest field along the surface over {1e3 * SPAN:g} mm, {field.state.name}, rms"
    reading = stress(
        float(mean[worst]), name, field, voltage, f"{1e3 * place:.0f} mm from the clamps"
    )
    share = np.abs(_at(even, lengths, potential))
    return StateReading(field, even - start, share, mean * float(voltage), reading, place)


def _at(places: Array, lengths: Array, potential: NDArray[np.complex128]) -> NDArray[np.complex128]:
    found = np.interp(places, lengths, potential.real) + 1j * np.interp(
        places, lengths, potential.imag
    )
    return np.asarray(found, dtype=np.complex128)
