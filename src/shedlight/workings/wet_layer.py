"""How well the wet, dirty layer of the site conducts: as measured, else by its class."""

from collections.abc import Callable
from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.physics.surface.deposit import severity_of_class
from shedlight.physics.surface.layer_rules import (
    layer_conductivity_equal_deposit,
    layer_conductivity_equal_salinity,
)
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, from_table

MEASURED, SALTED = "the measured deposit", "the site salinity"
Rule = Callable[[float], float]


@dataclass(frozen=True)
class WetLayer:
    """One reading of the layer when fully wet.

    Attributes:
        conductivity: Layer conductivity at 20 °C [S].
        severity: What it was read from: a deposit [kg/m²] or a salinity [kg/m³].
        read_from: The same in words.
    """

    conductivity: Number
    severity: Number
    read_from: str

    @property
    def derived_from_class(self) -> bool:
        """Whether nothing was measured."""
        return self.read_from not in (MEASURED, SALTED)


def wet_layer_of(installation: Installation, number: Description) -> WetLayer:
    """The layer that decides: the best conducting of those measured, else that of the class.

    Args:
        installation: What was described.
        number: Its numbers.
    """
    return max(wet_layers_of(installation, number), key=lambda layer: layer.conductivity)


def wet_layers_of(installation: Installation, number: Description) -> tuple[WetLayer, ...]:
    """Every layer that was measured; where nothing was, that of the class.

    Args:
        installation: What was described.
        number: Its numbers.
    """
    site = installation.site
    found = []
    if site.deposit is not None:
        found.append(_read(layer_conductivity_equal_deposit, number("site.deposit"), MEASURED))
    if site.salinity is not None:
        found.append(_read(layer_conductivity_equal_salinity, number("site.salinity"), SALTED))
    return tuple(found) or (layer_of_class(str(site.pollution_class)),)


def layer_of_class(
    letter: str, *, middle: bool = False, rule: Rule = layer_conductivity_equal_deposit
) -> WetLayer:
    """The layer a class stands for: a site may lie anywhere in it, so its upper edge counts.

    Args:
        letter: "a" (very light) to "e" (very heavy).
        middle: Take the middle of the band instead.
        rule: From deposit to layer conductivity.
    """
    row = severity_of_class(letter, "deposit")
    value, side = (row.middle, "middle") if middle else (row.highest, "upper edge")
    which = f"{side} of class {letter}, {1e2 * row.lowest:.3g} to {1e2 * row.highest:.3g} mg/cm²"
    deposit = from_table(value, "Equivalent salt deposit", 'S_"DD"', "mg/cm²", row.citation, which)
    return _read(rule, deposit, f"class {letter}, no measurement")


def _read(rule: Rule, severity: Number, read_from: str) -> WetLayer:
    return WetLayer(calculate(rule, severity), severity, read_from)
