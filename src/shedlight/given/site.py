"""Where the bushing stands."""

from typing import Any, ClassVar, Literal

from pydantic import model_validator

from shedlight import units
from shedlight.given.fields import Count, Record, choice, clash, quantity, stated

PollutionClass = Literal["a", "b", "c", "d", "e"]
Earthquake = Literal["none", "AG2", "AG3", "AG5", "moderate", "high"]
FREEZING = 273.15  # [K]


def _ice(data: dict[str, Any]) -> float:
    return 0.010 if data.get("coldest_air", FREEZING) < FREEZING else 0.0


class Site(Record):
    """Where the bushing stands: dirt, salt, rain, thin air, heat and cold."""

    title: ClassVar[str] = "Site"

    altitude: float = quantity(
        "Height above sea level.", symbol="H", unit="m", low="-400 m", high="5000 m"
    )
    pollution_class: PollutionClass | None = choice(
        "Site pollution severity class, a (very light) to e (very heavy), if it is known.",
        default=None,
        basis="left open: then a measured deposit or salinity decides",
    )
    deposit: float | None = quantity(
        "Equivalent salt deposit density on the surface (ESDD), if measured.",
        symbol='"ESDD"',
        unit="mg/cm²",
        low="0.0001 mg/cm²",
        high="5 mg/cm²",
        default=None,
        basis="left open: then the class or the salinity decides",
    )
    deposit_below: float | None = quantity(
        "Equivalent salt deposit density of the undersides, if washed apart; the other is then "
        "that of the upper sides.",
        symbol='"ESDD"_"B"',
        unit="mg/cm²",
        low="0.0001 mg/cm²",
        high="5 mg/cm²",
        default=None,
        basis="left open: as on the upper sides",
    )
    insoluble_deposit: float | None = quantity(
        "Non-soluble deposit density (NSDD), if measured.",
        symbol='"NSDD"',
        unit="mg/cm²",
        low="0.0001 mg/cm²",
        high="50 mg/cm²",
        default=None,
        basis="left open: reference value 0.1 mg/cm² of the class bands (practice)",
    )
    salinity: float | None = quantity(
        "Site equivalent salinity (SES) where salt spray or fog wets the surface.",
        symbol="S_a",
        unit="kg/m³",
        low="0.1 kg/m³",
        high="300 kg/m³",
        default=None,
        basis="left open: the site has no salt spray",
    )
    coldest_air: float = quantity(
        "Lowest air temperature.",
        symbol='theta_"min"',
        unit="°C",
        low="-60 °C",
        high="30 °C",
        default=248.15,
        basis="-25 °C, outdoor class (IEC 60137, service conditions, memory)",
    )
    hottest_air: float = quantity(
        "Highest air temperature.",
        symbol='theta_"max"',
        unit="°C",
        low="-50 °C",
        high="60 °C",
        default=313.15,
        basis="40 °C (IEC 60137, service conditions, memory)",
    )
    daily_swing: float = quantity(
        "How far the air cools from the hottest hour of the hottest day to its coldest.",
        symbol='Delta theta_"d"',
        unit="K",
        low="0 K",
        high="40 K",
        default=20.0,
        basis="20 K: daily mean 30 °C beside the highest 40 °C (IEC 60137, memory)",
    )
    irradiance: float = quantity(
        "Sun at noon on a surface that faces it.",
        symbol='E_"s"',
        unit="W/m²",
        low="0 W/m²",
        high="1400 W/m²",
        default=1000.0,
        basis="1000 W/m², clear day at noon (IEC 62271-1, service conditions, memory)",
    )
    cooling_wind: float | None = quantity(
        "Wind across the bushing that may be counted on for cooling.",
        symbol='v_"c"',
        unit="m/s",
        low="0 m/s",
        high="20 m/s",
        default=None,
        basis="left out: still air, the hottest case",
    )
    rain_angle: float = quantity(
        "Angle of the rain from the vertical.",
        symbol='psi_"r"',
        unit="°",
        low="0 °",
        high="90 °",
        default=units.parse("45 °", "°"),
        basis="45°: equal horizontal and vertical parts, the standard wet test (IEC 60060-1)",
    )
    wind_speed: float = quantity(
        "Highest wind speed, gusts included.",
        symbol="v",
        unit="m/s",
        low="0 m/s",
        high="90 m/s",
        default=34.0,
        basis="34 m/s, that is 700 Pa, normal service conditions outdoors (IEC 62271-1, memory)",
    )
    ice_thickness: float = quantity(
        "Thickness of ice on all parts in air.",
        symbol='t_"ice"',
        unit="mm",
        low="0 mm",
        high="60 mm",
        default_factory=_ice,
        basis="10 mm, the middle ice class, where the air freezes; else none (IEC 62271-1, memory)",
    )
    earthquake: Earthquake | None = choice(
        "Earthquakes to reckon with: AG2 to AG5 (m/s² at the ground), moderate or high spectrum.",
        default=None,
        basis="left open: earthquakes are then not assessed",
    )
    rain_rate: float | None = quantity(
        "Rate of a heavy rain of the site on level ground.",
        symbol="R",
        unit="mm/h",
        low="0.1 mm/h",
        high="200 mm/h",
        default=None,
        basis="left open: only rain of one slant is looked at",
    )
    rain_wind: float | None = quantity(
        "Wind speed at the bushing during that rain.",
        symbol="u",
        unit="m/s",
        low="0 m/s",
        high="60 m/s",
        default=None,
        basis="left open: only rain of one slant is looked at",
    )
    fog_temperature: float = quantity(
        "Temperature of the wet layer in fog.",
        symbol='theta_"w"',
        unit="°C",
        low="0 °C",
        high="50 °C",
        default=293.15,
        basis="20 °C, at which layer conductivities are stated (IEC 60507)",
    )

    bushings_exposed: Count = choice(
        "Alike bushings that one fog or one surge meets together.",
        default=3,
        basis="three, one for each phase (practice)",
        ge=1,
        le=200,
    )

    @model_validator(mode="after")
    def _severity_known(self) -> "Site":
        if self.pollution_class is None and self.deposit is None and self.salinity is None:
            cure = 'Add pollution_class = "a" to "e", or deposit, or salinity to [site].'
            raise clash(self, "pollution_class", "the class, or a measurement of the dirt", cure)
        if self.deposit_below is not None and self.deposit is None:
            raise clash(self, "deposit_below", "the deposit of the upper sides too", "Add deposit.")
        if (self.rain_rate is None) != (self.rain_wind is None):
            lonely = "rain_wind" if self.rain_rate is None else "rain_rate"
            raise clash(self, lonely, "rate and wind of the rain together")
        if self.coldest_air >= self.hottest_air:
            hottest = stated(self, "hottest_air")
            raise clash(self, "coldest_air", f"less than hottest_air, {hottest}")
        return self
