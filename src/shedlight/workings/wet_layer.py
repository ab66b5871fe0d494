"""How well the wet, dirty layer of the site conducts: as measured, else by its class."""

from dataclasses import dataclass

from shedlight.given.bushing import Installation
from shedlight.physics.surface.deposit import severity_of_class
from shedlight.physics.surface.layer import layer_conductivity_wetted_rule
from shedlight.physics.surface.wetting import fog_film_conductivity
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption, from_table


@dataclass(frozen=True)
class WetLayer:
    """One reading of the layer when fully wet.

    Attributes:
        conductivity: Layer conductivity at 20 °C [S].
        severity: What it was read from: a deposit [kg/m²] or a salinity [kg/m³].
        kind: "deposit" or "salinity".
        read_from: The same in words.
    """

    conductivity: Number
    severity: Number
    kind: str
    read_from: str


def wet_layer_of(installation: Installation, number: Description) -> WetLayer:
    """The layer that decides: the best conducting of those measured, else that of the class.

    Args:
        installation: What was described.
        number: Its numbers.
    """
    site = installation.site
    found = []
    if site.salinity is not None:
        salt = number("site.salinity")
        film = calculate(fog_film_conductivity, salt, assumption("film of salt fog"))
        found.append(WetLayer(film, salt, "salinity", "the site salinity"))
    if site.deposit is not None:
        found.append(_deposit(number("site.deposit"), "the measured deposit"))
    if not found:
        found.append(_of_class(str(site.pollution_class)))
    return max(found, key=lambda layer: layer.conductivity)


def _deposit(deposit: Number, read_from: str) -> WetLayer:
    layer = calculate(layer_conductivity_wetted_rule, deposit)
    return WetLayer(layer, deposit, "deposit", read_from)


def _of_class(letter: str) -> WetLayer:
    """The middle of what a class stands for: the class alone fixes no layer."""
    row = severity_of_class(letter, "deposit")
    which = f"middle of class {letter}, {1e2 * row.lowest:.3g} to {1e2 * row.highest:.3g} mg/cm²"
    deposit = from_table(
        row.middle, "Equivalent salt deposit", 'S_"DD"', "mg/cm²", row.citation, which
    )
    return _deposit(deposit, f"class {letter}, no measurement")
