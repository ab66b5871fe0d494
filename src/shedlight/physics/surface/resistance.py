"""The wet layer along the creepage path: resistance, current, and where the heat goes.

The path is cut into short cells, each a cone with its own layer conductivity. All cells lie in
series; a wet bushing heats where it is narrow (the trunk) and where its layer conducts badly.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.curves import Curve
from shedlight.physics.domain import not_negative, positive
from shedlight.sources import cite
from shedlight.trace import formula

Array = NDArray[np.float64]

CELLS = 300
LATENT_HEAT = 2.45e6  # of water near 20 °C [J/kg]


@dataclass(frozen=True)
class SurfacePath:
    """The creepage path cut into cells, from the earthed end.

    Attributes:
        ends: Creepage at the ends of the cells, one more than cells, from 0 [m].
        radii: Radius there [m].
    """

    ends: Array
    radii: Array

    def __post_init__(self) -> None:
        """Refuse what is no path."""
        if len(self.ends) < 2 or self.ends.shape != self.radii.shape:
            raise InputError(
                f"ends, radii: given {len(self.ends)} and {len(self.radii)}; expected the same "
                "number, at least 2"
            )
        if self.ends[0] != 0 or np.any(np.diff(self.ends) <= 0) or np.any(self.radii <= 0):
            raise InputError("ends, radii: expected ends growing from 0 and radii above 0")

    @cached_property
    def sizes(self) -> Array:
        """Length of each cell [m]."""
        return np.diff(self.ends)

    @cached_property
    def middles(self) -> Array:
        """Creepage at the middle of each cell [m]."""
        return np.asarray((self.ends[1:] + self.ends[:-1]) / 2, dtype=np.float64)

    @cached_property
    def form_factors(self) -> Array:
        """Integral of dl/(2 pi r) over each cell [1]."""
        excess = np.diff(self.radii) / self.radii[:-1]
        with np.errstate(divide="ignore", invalid="ignore"):
            mean = np.where(np.abs(excess) > 1e-9, np.log1p(excess) / excess, 1.0)
        return np.asarray(self.sizes * mean / (2 * np.pi * self.radii[:-1]), dtype=np.float64)

    @cached_property
    def areas(self) -> Array:
        """Surface of each cell, all round [m²]."""
        around = np.pi * (self.radii[1:] + self.radii[:-1])
        return np.asarray(around * self.sizes, dtype=np.float64)

    def spread(self, stretches: Sequence[tuple[float, float, float]], elsewhere: float) -> Array:
        """One value per cell from values given for stretches.

        Args:
            stretches: (from, to, value) by creepage [m]; a later one covers an earlier.
            elsewhere: Value outside them.
        """
        values = np.full(len(self.sizes), elsewhere)
        for low, high, value in stretches:
            values[(self.middles >= low) & (self.middles < high)] = value
        return values


@dataclass(frozen=True)
class WetLayer:
    """A wet layer under voltage, before dry bands; rms values.

    Attributes:
        current: Along the surface [A].
        voltages: Across each cell [V].
        gradients: Along the surface in each cell [V/m].
        heat: Heat per area in each cell [W/m²].
    """

    current: float
    voltages: Array
    gradients: Array
    heat: Array


@dataclass(frozen=True)
class Neck:
    """A stretch that heats more than its surroundings: dry bands begin here."""

    start: float  # creepage [m]
    end: float  # creepage [m]
    heat: float  # greatest heat per area in it [W/m²]


def surface_path(creepage: Curve, cells: int = CELLS) -> SurfacePath:
    """The creepage path in cells of equal length.

    Args:
        creepage: The path, earthed end first.
        cells: How many cells.

    Returns:
        The path as arrays.

    Raises:
        InputError: no cell, or a path that meets the axis.

    Source: geometry — basis: exact but for chords across arcs; the form factor is right within
    0.1 % with 300 cells on everyday sheds.
    """
    if cells < 1:
        raise InputError(f"cells: given {cells}; expected at least 1")
    ends = np.linspace(0.0, creepage.length, cells + 1)
    return SurfacePath(ends, np.array([creepage.at(float(end)).r for end in ends]))


def form_factor_between(path: SurfacePath, start: float, end: float) -> float:
    """Form factor of a stretch of the path.

    F = integral of dl/(2 pi r)

    Args:
        path: The path.
        start: Creepage where the stretch begins [m].
        end: Creepage where it ends [m].

    Returns:
        Form factor [1].

    Raises:
        InputError: start not before end.

    Source: IEC 60507 — basis: exact by definition.
    Valid for: always.
    """
    not_negative(start=start)
    positive(length=end - start)
    reached = np.concatenate([[0.0], np.cumsum(path.form_factors)])
    return float(np.interp(end, path.ends, reached) - np.interp(start, path.ends, reached))


def resistances(path: SurfacePath, conductivities: Array) -> Array:
    """Resistance of each cell's layer.

    R_i = F_i/kappa_i

    Args:
        path: The path.
        conductivities: Layer conductivity of each cell [S].

    Returns:
        Resistances [Ω].

    Raises:
        InputError: another number of conductivities, or one not above zero.

    Source: IEC 60507 — basis: exact by definition.
    Valid for: layers even all round the axis.
    """
    if conductivities.shape != path.sizes.shape:
        raise InputError(f"conductivities: given {len(conductivities)}; expected {len(path.sizes)}")
    positive(conductivities=float(np.min(conductivities)))
    return np.asarray(path.form_factors / conductivities, dtype=np.float64)


def wet_layer(path: SurfacePath, conductivities: Array, voltage_across: float) -> WetLayer:
    """Current along the wet surface, voltage along it, and heat per area.

    I = U/sum R_i; p_i = I² R_i/A_i

    Args:
        path: The path.
        conductivities: Layer conductivity of each cell [S].
        voltage_across: Voltage across the insulator, rms [V].

    Returns:
        The layer's state.

    Raises:
        InputError: voltage negative, or conductivities that do not fit.

    Source: Ohm's law — basis: exact.
    Valid for: before dry bands form; capacitive current left out.
    """
    not_negative(voltage_across=voltage_across)
    each = resistances(path, conductivities)
    current = voltage_across / float(np.sum(each))
    voltages = current * each
    return WetLayer(current, voltages, voltages / path.sizes, current * voltages / path.areas)


def necks(path: SurfacePath, layer: WetLayer, share: float = 0.8) -> tuple[Neck, ...]:
    """Stretches that heat most, the hottest first: where dry bands begin.

    Args:
        path: The path.
        layer: From :func:`wet_layer`.
        share: Of the greatest heat, above which a cell belongs to a neck [1].

    Returns:
        The necks.

    Raises:
        InputError: share not between 0 and 1.

    Source: Salthouse (1968): bands begin where the current is densest — basis: exact as
    arithmetic.
    Valid for: layers equally wet; wetter stretches dry later, see :func:`time_to_dry`.
    """
    if not 0 < share <= 1:
        raise InputError(f"share: given {share:g}; expected above 0 and at most 1")
    hot = layer.heat >= share * float(np.max(layer.heat))
    edges = np.flatnonzero(np.diff(np.concatenate([[False], hot, [False]]).astype(int)))
    found = [
        Neck(float(path.ends[low]), float(path.ends[high]), float(np.max(layer.heat[low:high])))
        for low, high in edges.reshape(-1, 2).tolist()
    ]
    return tuple(sorted(found, key=lambda neck: -neck.heat))


@formula(
    ("Time to dry", "t", "s"),
    "L_v w / p",
    {
        "heat": ("Heat per area", "p", "W/m²"),
        "water": ("Water in the layer", "w", "kg/m²"),
    },
    cite("first principles", "latent heat of water over heat per area", "exact"),
    note="L_v = 2.45 MJ/kg. A lower bound: what warms the porcelain and the air is left out.",
)
def time_to_dry(heat: float, water: float) -> float:
    """Shortest time in which current dries a layer.

    t = L_v w/p

    Args:
        heat: Heat per area [W/m²].
        water: Water in the layer [kg/m²].

    Returns:
        Time [s]; a lower bound.

    Raises:
        InputError: heat not above zero, water negative.

    Source: first principles — basis: exact as a bound.
    Valid for: no water arriving meanwhile.
    """
    positive(heat=heat)
    not_negative(water=water)
    return LATENT_HEAT * water / heat


@formula(
    ("Resistance of the wet layer", "R", "kΩ"),
    'F_"T" / kappa_"T" + F_"B" / kappa_"B"',
    {
        "upper_form": ("Form factor of the upper sides", 'F_"T"', "1"),
        "upper_layer": ("Layer conductivity of the upper sides", 'kappa_"T"', "µS"),
        "lower_form": ("Form factor of trunk and lower sides", 'F_"B"', "1"),
        "lower_layer": ("Layer conductivity of trunk and lower sides", 'kappa_"B"', "µS"),
    },
    cite("IEC 60507", "form factor and layer conductivity, definitions", "exact"),
)
def two_sided_resistance(
    upper_form: float, upper_layer: float, lower_form: float, lower_layer: float
) -> float:
    """Resistance of a layer that differs between the upper sides and the rest.

    R = F_T/kappa_T + F_B/kappa_B

    Args:
        upper_form: Form factor of all upper sides together [1].
        upper_layer: Layer conductivity there [S].
        lower_form: Form factor of trunk and lower sides together [1].
        lower_layer: Layer conductivity there [S].

    Returns:
        Resistance from end to end [Ω].

    Raises:
        InputError: a form factor negative, a conductivity not above zero.

    Source: IEC 60507; pieces lie in series — basis: exact by definition.
    Valid for: layers even all round the axis.
    """
    not_negative(upper_form=upper_form, lower_form=lower_form)
    positive(upper_layer=upper_layer, lower_layer=lower_layer)
    return upper_form / upper_layer + lower_form / lower_layer


@formula(
    ("Layer resistance per creepage", "r", "Ω/cm"),
    "R / L",
    {
        "film_resistance": ("Resistance of the wet layer", "R", "kΩ"),
        "creepage": ("Creepage", "L", "mm"),
    },
    cite("first principles", "mean over the length", "exact"),
)
def mean_resistance(film_resistance: float, creepage: float) -> float:
    """Resistance of the wet layer per creepage, as a mean over the insulator.

    r = R/L

    Args:
        film_resistance: From end to end [Ω].
        creepage: From end to end [m].

    Returns:
        Resistance per length [Ω/m].

    Raises:
        InputError: an argument not above zero.

    Source: definition — basis: exact.
    Valid for: any; the mean hides where the resistance lies.
    """
    positive(film_resistance=film_resistance, creepage=creepage)
    return film_resistance / creepage
