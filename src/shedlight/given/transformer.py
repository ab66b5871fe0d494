"""The tank, its cover and its oil, as far as the bushing meets them."""

from typing import ClassVar, Literal

from pydantic import model_validator

from shedlight.given.fields import Record, YesNo, choice, clash, quantity, stated

CoverMetal = Literal["steel", "non-magnetic steel", "aluminium"]
OilState = Literal["degassed", "gas-saturated"]
Cooling = Literal["ONAN small", "ONAN", "ONAF", "OF", "OD"]
Breathing = Literal["conservator", "sealed cushion", "free"]


class Transformer(Record):
    """The tank, its cover and its oil, as far as the bushing meets them."""

    title: ClassVar[str] = "Transformer"

    hole_diameter: float = quantity(
        "Diameter of the hole in the cover.", symbol="D_h", unit="mm", low="10 mm", high="1 m"
    )
    cover_thickness: float = quantity(
        "Thickness of the cover.", symbol='t_"cov"', unit="mm", low="2 mm", high="80 mm"
    )
    cover_metal: CoverMetal = choice("Metal of the cover around the hole.")
    lowest_oil_level: float = quantity(
        "Lowest oil level in service, above the top of the cover.",
        symbol='h_"low"',
        unit="mm",
        low="-1 m",
        high="10 m",
    )
    highest_oil_level: float = quantity(
        "Highest oil level in service, above the top of the cover.",
        symbol='h_"high"',
        unit="mm",
        low="-1 m",
        high="10 m",
    )
    breathing: Breathing = choice(
        "How the oil breathes: conservator open to the air, sealed gas cushion, or free."
    )
    phase_spacing: float = quantity(
        "Distance between the axes of neighbouring bushings.",
        symbol="a",
        unit="mm",
        low="30 mm",
        high="10 m",
    )
    earth_distance: float = quantity(
        "Shortest straight air distance from live parts to other earthed parts nearby.",
        symbol='d_"e"',
        unit="mm",
        low="30 mm",
        high="20 m",
    )
    tank_clearance: float = quantity(
        "Shortest distance in oil from the lower live end to earthed parts inside.",
        symbol='d_"oil"',
        unit="mm",
        low="1 mm",
        high="2 m",
    )
    mounting_angle: float = quantity(
        "Angle of the bushing's axis from the vertical.",
        symbol="phi",
        unit="°",
        low="0 °",
        high="90 °",
        default=0.0,
        basis="upright, the usual mounting on a cover",
    )
    top_oil_temperature: float = quantity(
        "Temperature of the top oil at full load on the hottest day.",
        symbol='theta_"oil"',
        unit="°C",
        low="-50 °C",
        high="140 °C",
        default=373.15,
        basis="100 °C, highest oil temperature of the bushing standard (IEC 60137, memory)",
    )
    cooling: Cooling = choice(
        "Kind of cooling: decides how the top oil follows the load.",
        default="ONAN",
        basis="natural oil and air, the commonest (practice)",
    )
    rated_current: float | None = quantity(
        "Current in this bushing at the transformer's rated load, rms.",
        symbol='I_"tr"',
        unit="A",
        low="1 A",
        high="60000 A",
        default=None,
        basis="left out: the bushing's rated current, a bushing used to the full",
    )
    loss_ratio: float = quantity(
        "Load loss at rated load over no-load loss.",
        symbol="R",
        unit="1",
        low="0.5",
        high="30",
        default=6.0,
        basis="6, medium power transformers (IEC 60076-7, memory)",
    )
    lowest_cushion_pressure: float | None = quantity(
        "Lowest gauge pressure of the sealed gas cushion, at the coldest.",
        symbol='p_"c"',
        unit="kPa",
        low="-90 kPa",
        high="200 kPa",
        default=None,
        basis="left open: only a sealed cushion has one",
    )
    hole_bled: YesNo = choice(
        "Whether air is bled from under the cover so that oil fills the gap in the hole.",
        default=False,
        basis="nothing said: trapped gas is then assumed, the worse case",
    )

    oil_cold_start: float = quantity(
        "Lowest temperature at which the oil may be switched on cold (LCSET of its standard).",
        symbol='theta_"LCSET"',
        unit="°C",
        low="-60 °C",
        high="10 °C",
        default=243.15,
        basis="-30 °C, the standard lowest cold-start energising temperature (IEC 60296, memory)",
    )
    oil_state: OilState = choice(
        "State of the oil for the design curves of oil gaps: degassed or gas-saturated.",
        default="gas-saturated",
        basis="nothing said: the weaker of the two states, that of oil open to air or nitrogen",
    )

    @model_validator(mode="after")
    def _levels_in_order(self) -> "Transformer":
        if self.lowest_oil_level > self.highest_oil_level:
            highest = stated(self, "highest_oil_level")
            raise clash(self, "lowest_oil_level", f"at most highest_oil_level, {highest}")
        return self
