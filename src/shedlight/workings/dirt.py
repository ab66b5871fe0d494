"""The dirt on the surface: how it conducts in fog, on upper and on lower sides, on the outline.

A layer is read from what is known best: a measured deposit, a salinity; only where neither is
given, from the class. Fog wets everything, dry undersides included. Rain wets what it strikes,
washes it, and leaves the rest dry and dirty.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from shedlight.geometry.measures import Measures
from shedlight.geometry.wetting import Stretch
from shedlight.given.bushing import Installation
from shedlight.physics.surface.deposit import Season, season, washed_deposit, washing_value
from shedlight.physics.surface.layer import (
    film_resistance,
    layer_conductivity_field_rule,
    layer_conductivity_wetted_rule,
)
from shedlight.physics.surface.layer_rules import (
    deposit_of_equal_severity,
    layer_conductivity_equal_deposit,
)
from shedlight.physics.surface.resistance import (
    SurfacePath,
    resistances,
    surface_path,
    two_sided_resistance,
)
from shedlight.physics.surface.wetting import conductivity_in_fog, warm_layer_factor
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.wet_layer import (
    MEASURED,
    SALTED,
    Rule,
    WetLayer,
    layer_of_class,
    wet_layers_of,
)

SEASON = 180  # days
Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True)
class Layer:
    """The layer by one reading of the site.

    Attributes:
        read_from: What it was read from.
        severity: Deposit [kg/m²] or salinity [kg/m³] it stands for.
        upper: Layer conductivity of the upper sides in fog [S].
        lower: The same of trunk and lower sides [S]; equal where nothing else is known.
        resistance: Of the fully wet surface from end to end [Ω].
    """

    read_from: str
    severity: Number
    upper: Number
    lower: Number
    resistance: Number

    @property
    def derived_from_class(self) -> bool:
        """Whether nothing was measured."""
        return self.read_from not in (MEASURED, SALTED)


@dataclass(frozen=True)
class Washed:
    """Fog after a good shower: what rain strikes is washed, what it spares stays dirty.

    Attributes:
        rain: Depth of the shower [m].
        left: Deposit left where it strikes [kg/m²].
        struck: Layer conductivity there [S].
        spared: Layer conductivity elsewhere [S].
        resistances: Of each cell [Ω].
    """

    rain: Number
    left: Number
    struck: Number
    spared: Number
    resistances: Array


@dataclass(frozen=True, eq=False)
class Dirt:
    """The dirt of the air end, fully wet.

    Attributes:
        path: The creepage path in cells.
        up: Which cells face upwards.
        layer: The most conductive of all readings: it decides.
        others: The other readings and rules, by title.
        washed: The same after a shower; none where spray brings its own salt water.
    """

    path: SurfacePath
    up: Flags
    layer: Layer
    others: tuple[tuple[str, Layer], ...]
    washed: Washed | None

    def conductivities(self, layer: Layer) -> Array:
        """Layer conductivity of each cell in fog [S].

        Args:
            layer: By which reading.
        """
        return np.where(self.up, float(layer.upper), float(layer.lower))

    def resistances(self, layer: Layer) -> Array:
        """Resistance of each cell in fog [Ω].

        Args:
            layer: By which reading.
        """
        return resistances(self.path, self.conductivities(layer))


def dirt_of(
    installation: Installation, measures: Measures, form: Number, rained: Sequence[Stretch]
) -> Dirt:
    """The layer by every reading of the site.

    Args:
        installation: What was described.
        measures: What was measured on its section.
        form: Form factor of the whole path.
        rained: Stretches that rain strikes and spares.
    """
    path = surface_path(measures.creepage)
    up = np.diff(path.radii) < 0
    reader = _Reader(installation, path, up, form)
    readings = reader.readings()
    layer = min(readings, key=lambda item: float(item.resistance))
    others = [(f"Layer from {item.read_from}", item) for item in readings if item is not layer]
    washed = None if layer.read_from == SALTED else reader.washed(layer, rained)
    return Dirt(path, up, layer, (*others, *reader.rivals(layer)), washed)


class _Reader:
    """Reads the site in every way there is."""

    def __init__(
        self, installation: Installation, path: SurfacePath, up: Flags, form: Number
    ) -> None:
        self._installation, self._site = installation, installation.site
        self._number = Description(installation)
        self._path, self._up, self._form = path, up, form
        self._warm = calculate(warm_layer_factor, self._number("site.fog_temperature"))

    def readings(self) -> list[Layer]:
        """By measurement where there is one, else by the class."""
        below = self._site.deposit_below
        return [
            self._by_deposit(layer_conductivity_equal_deposit)
            if found.read_from == MEASURED and below is not None
            else self._even(found)
            for found in wet_layers_of(self._installation, self._number)
        ]

    def rivals(self, layer: Layer) -> list[tuple[str, Layer]]:
        """The same site by other rules; salinity has one rule only."""
        wetted, field = "Rule for a fully wetted layer", "Field rule for the layer conductivity"
        if layer.read_from == MEASURED:
            return [
                (wetted, self._by_deposit(layer_conductivity_wetted_rule)),
                (field, self._by_deposit(layer_conductivity_field_rule)),
            ]
        if layer.read_from == SALTED:
            return []
        letter = str(self._site.pollution_class)
        full = layer_of_class(letter, rule=layer_conductivity_wetted_rule)
        return [
            ("Middle of the class's band", self._even(layer_of_class(letter, middle=True))),
            (wetted, self._even(full)),
        ]

    def washed(self, layer: Layer, rained: Sequence[Stretch]) -> Washed:
        """Fog after a shower that washes what it strikes; the rest keeps its deposit."""
        rain, depth = assumption("washing rain depth"), _washing("washing rain")
        left = calculate(washed_deposit, layer.severity, rain, 1.0, depth)
        struck = self._in_fog(calculate(layer_conductivity_equal_deposit, left))
        spared = max(layer.upper, layer.lower, key=float)
        wet = [(one.start, one.end, float(struck)) for one in rained if one.wet]
        cells = self._path.spread(wet, float(spared))
        return Washed(rain, left, struck, spared, resistances(self._path, cells))

    def _by_deposit(self, rule: Rule) -> Layer:
        above = self._number("site.deposit")
        upper = self._in_fog(calculate(rule, above))
        if self._site.deposit_below is None:
            return self._layer(MEASURED, above, upper, upper)
        below = self._number("site.deposit_below")
        lower = self._in_fog(calculate(rule, below))
        return self._layer(MEASURED, max(above, below), upper, lower)

    def _even(self, found: WetLayer) -> Layer:
        in_fog = self._in_fog(found.conductivity)
        return self._layer(found.read_from, found.severity, in_fog, in_fog)

    def _in_fog(self, at_20: Number) -> Number:
        """Fully wet and as warm as the fog."""
        return calculate(conductivity_in_fog, at_20, self._warm)

    def _layer(self, read_from: str, severity: Number, upper: Number, lower: Number) -> Layer:
        if upper is lower:
            resistance = calculate(film_resistance, self._form, upper)
            return Layer(read_from, severity, upper, lower, resistance)
        sides = (self._up, ~self._up)
        forms = [
            on_outline(
                float(np.sum(self._path.form_factors[side])),
                f"Form factor of {name}",
                symbol,
                "1",
                "along the outline",
            )
            for side, name, symbol in zip(
                sides,
                ("the upper sides", "trunk and lower sides"),
                ('F_"T"', 'F_"B"'),
                strict=True,
            )
        ]
        resistance = calculate(two_sided_resistance, forms[0], upper, forms[1], lower)
        return Layer(read_from, severity, upper, lower, resistance)


def _washing(name: str) -> Number:
    row = washing_value(name)
    return from_table(row.value, "Rain that leaves 1/e", "h_w", "mm", row.citation, row.what)


@dataclass(frozen=True, eq=False)
class SeasonOfDirt:
    """A season by a simple model: dry days gather dirt, rains wash it.

    Attributes:
        season: Deposit day by day.
        saturated: Deposit at which build-up ends [kg/m²]: that of the site.
        said: The model and its limits in words.
    """

    season: Season
    saturated: Number
    said: tuple[str, ...]


def season_of(dirt: Dirt) -> SeasonOfDirt:
    """Half a year on the site's own level of dirt, with a shower now and then.

    Args:
        dirt: The dirt of the site; on a salted site the deposit of equal severity is taken.
    """
    level = dirt.layer.severity
    if dirt.layer.read_from == SALTED:
        level = calculate(deposit_of_equal_severity, level)
    build_up, every = assumption("build-up time"), assumption("days between rains")
    shower = assumption("washing rain depth")
    days = np.arange(1, SEASON + 1)
    rains = np.where(days % round(every) == 0, float(shower), 0.0)
    found = season(float(level) / float(build_up), float(level), rains)
    return SeasonOfDirt(
        found,
        level,
        (
            f"Assumed: without rain the deposit nears {100 * level:.3g} mg/cm², two thirds of it "
            f"in {build_up:.0f} dry days; every {every:.0f} days {1e3 * shower:.0f} mm of rain.",
            "What rain strikes loses salt exponentially with the rain's depth; splash and run-off "
            "give the rest a tenth of that washing (practice).",
            f"After {SEASON} days the struck surface carries {found.top_to_bottom:.0%} of what the "
            "spared one does. Fog then wets both: the spared part decides.",
            "A model to see the kind of thing by, not to set a level: measure where it matters.",
        ),
    )
