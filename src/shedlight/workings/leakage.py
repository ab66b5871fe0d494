"""Leakage current of the wet, dirty surface before it dries, and where its heat goes."""

from dataclasses import dataclass

from shedlight.physics.surface.deposit import washing_value
from shedlight.physics.surface.layer import highest_leakage_current, wet_current
from shedlight.physics.surface.ratios import peak_of_wet_current, specific_creepage_given
from shedlight.physics.surface.resistance import Neck, WetLayer, necks, time_to_dry, wet_layer
from shedlight.trace import Label, Number, calculate
from shedlight.workings.dirt import Dirt
from shedlight.workings.numbers import from_table, on_outline
from shedlight.workings.voltages import Voltages

HEAT = Label("Greatest heat per area of the wet layer", "p", "W/m²")


@dataclass(frozen=True, eq=False)
class Leakage:
    """The wet surface at the highest voltage to earth.

    Attributes:
        current: Along the fully wet surface, rms [A].
        peak: The same, peak [A].
        highest: Highest current before flashover, by the custom of specific creepage, peak [A].
        state: Voltage, gradient and heat along the path.
        necks: Where it heats most, the hottest first: dry bands begin there.
        dries_in: Shortest time in which the hottest place can dry [s].
    """

    current: Number
    peak: Number
    highest: Number
    state: WetLayer
    necks: tuple[Neck, ...]
    dries_in: Number


def leakage_of(voltages: Voltages, dirt: Dirt, creepage: Number) -> Leakage:
    """Current and heat of the wet layer that decides.

    Args:
        voltages: The bushing's voltages.
        dirt: The layer on it.
        creepage: Its creepage.
    """
    current = calculate(wet_current, voltages.phase, dirt.layer.resistance)
    specific = calculate(specific_creepage_given, creepage, voltages.phase)
    state = wet_layer(dirt.path, dirt.conductivities(dirt.layer), float(voltages.phase))
    found = necks(dirt.path, state)
    row = washing_value("full wetting")
    water = from_table(
        row.value, "Water of a fully wet layer", "w_1", "kg/m²", row.citation, row.what
    )
    how = "current of the wet layer through the narrowest place of the outline"
    heat = on_outline(found[0].heat, HEAT.name, HEAT.symbol, HEAT.unit, how)
    return Leakage(
        current=current,
        peak=calculate(peak_of_wet_current, current),
        highest=calculate(highest_leakage_current, specific),
        state=state,
        necks=found,
        dries_in=calculate(time_to_dry, heat, water),
    )
