"""What the courses in time share: the bushing as three heat stores, the top oil that heats it."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import ClassVar

from shedlight.physics.heat.heat_stores import HeatStores
from shedlight.trace import Shared


@dataclass(frozen=True)
class Network(Shared):
    """A bushing as three heat stores in a row between the tank's oil and the air."""

    capacities: tuple[float, ...]  # of conductor, oil and porcelain [J/K]
    conductances: tuple[float, ...]  # tank to conductor to oil to porcelain to air [W/K]
    resistance_20: float  # of the conductor at 20 °C, joints included [Ω]
    temperature_coefficient: float  # of the resistance, at 20 °C [1/K]

    LABELS: ClassVar[Mapping[str, tuple[str, str, str]]] = {
        "capacities": ("Heat of conductor, oil and porcelain", "C_i", "J/K"),
        "conductances": ("Between tank, conductor, oil, porcelain and air", "G_i", "W/K"),
        "resistance_20": ("Resistance at 20 °C, joints included", "R_20", "µΩ"),
        "temperature_coefficient": ("Temperature coefficient at 20 °C", "alpha", "1/K"),
    }

    @property
    def stores(self) -> HeatStores:
        """The same as heat stores.

        Raises:
            InputError: a value outside its domain.
        """
        conductor, oil, porcelain = self.capacities
        to_tank, to_oil, to_porcelain, to_air = self.conductances
        return HeatStores(
            conductor,
            oil,
            porcelain,
            to_tank,
            to_oil,
            to_porcelain,
            to_air,
            self.resistance_20,
            self.temperature_coefficient,
        )


@dataclass(frozen=True)
class TopOil(Shared):
    """How the top oil of the transformer follows its load."""

    rated_rise: float  # at the transformer's rated load [K]
    transformer_current: float  # in the bushing at that load, rms [A]
    loss_ratio: float  # load loss over no-load loss [1]
    oil_exponent: float  # of the top-oil rise [1]
    oil_time_constant: float  # [s]

    LABELS: ClassVar[Mapping[str, tuple[str, str, str]]] = {
        "rated_rise": ("Top-oil rise at rated load", 'Delta T_"or"', "K"),
        "transformer_current": ("Current at the transformer's rated load", 'I_"tr"', "A"),
        "loss_ratio": ("Load loss over no-load loss", "R", "1"),
        "oil_exponent": ("Oil exponent", "x", "1"),
        "oil_time_constant": ("Time constant of the top oil", "tau_o", "h"),
    }
