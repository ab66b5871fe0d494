"""What the bushing has to carry and hold."""

from enum import StrEnum
from typing import Any, ClassVar

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from shedlight import units
from shedlight.given.fields import Record, choice, clash, quantity, stated
from shedlight.given.levels import dry_level, usual_level
from shedlight.given.terminal_loads import standard_load


class NeutralEarthing(StrEnum):
    """How the star point of the network is earthed."""

    EFFECTIVE = "effective"
    LOW_RESISTANCE = "low-resistance"
    RESONANT = "resonant"
    ISOLATED = "isolated"


def _lightning_impulse(data: dict[str, Any]) -> float:
    return usual_level(data["highest_voltage"]).lightning_impulse


def _power_frequency_wet(data: dict[str, Any]) -> float:
    return usual_level(data["highest_voltage"]).power_frequency_wet


def _power_frequency_dry(data: dict[str, Any]) -> float:
    return dry_level(data["highest_voltage"]).power_frequency_dry


def _short_time_current(data: dict[str, Any]) -> float:
    return float(min(25 * data["rated_current"], 100e3))


def _terminal_load(data: dict[str, Any]) -> float:
    return standard_load(data["highest_voltage"], data["rated_current"]).heavy


def _terminal_pull(data: dict[str, Any]) -> float:
    return float(data["terminal_load"] / 2)


def _emergency_current(data: dict[str, Any]) -> float:
    return 1.3 * float(data["rated_current"])


_LEVEL_BASIS = "usual row of the standard levels for the highest voltage, next higher if between"


class Duty(Record):
    """What the bushing has to carry and hold."""

    title: ClassVar[str] = "Duty"

    highest_voltage: float = quantity(
        "Highest voltage for equipment, rms between phases.",
        symbol="U_m",
        unit="kV",
        low="1.1 kV",
        high="52 kV",
    )
    rated_current: float = quantity(
        "Rated current, rms.", symbol="I_r", unit="A", low="1 A", high="40000 A"
    )
    neutral_earthing: NeutralEarthing = choice(
        "How the neutral of the network is earthed; decides what the healthy phases bear."
    )
    earth_fault_duration: float = quantity(
        "How long an earth fault may stand before it is cleared.",
        symbol='t_"ef"',
        unit="s",
        low="0.01 s",
        high="365 d",
    )
    frequency: float = quantity(
        "Power frequency.",
        symbol="f",
        unit="Hz",
        low="15 Hz",
        high="60 Hz",
        default=50.0,
        basis="the more common network frequency; check for your network",
    )
    lightning_impulse: float = quantity(
        "Rated lightning impulse withstand level, peak to earth.",
        symbol='U_"LI"',
        unit="kV",
        low="10 kV",
        high="400 kV",
        default_factory=_lightning_impulse,
        basis=_LEVEL_BASIS,
    )
    power_frequency_dry: float = quantity(
        "One-minute dry power-frequency withstand level, rms to earth.",
        symbol='U_"dry"',
        unit="kV",
        low="2 kV",
        high="200 kV",
        default_factory=_power_frequency_dry,
        basis=_LEVEL_BASIS,
    )
    power_frequency_wet: float = quantity(
        "One-minute wet power-frequency withstand level, rms to earth.",
        symbol='U_"wet"',
        unit="kV",
        low="2 kV",
        high="200 kV",
        default_factory=_power_frequency_wet,
        basis=_LEVEL_BASIS,
    )
    switching_impulse: float | None = quantity(
        "Rated switching impulse withstand level, peak to earth, if one is asked.",
        symbol='U_"SI"',
        unit="kV",
        low="10 kV",
        high="400 kV",
        default=None,
        basis="left out: none is asked in this voltage range",
    )
    lightning_surge: float | None = quantity(
        "Lightning overvoltage at the bushing that 2 % of surges exceed, peak to earth, if known.",
        symbol='U_"2,L"',
        unit="kV",
        low="1 kV",
        high="1 MV",
        default=None,
        basis="left out: the level is taken to stand 1.15 times above it (IEC 60071-2)",
    )
    switching_surge: float | None = quantity(
        "Switching overvoltage that 2 % exceed, peak to earth, if known.",
        symbol='U_"2,S"',
        unit="kV",
        low="1 kV",
        high="400 kV",
        default=None,
        basis="left out: 2.6 times the peak of the highest voltage to earth is taken (IEC 60071-2)",
    )
    short_time_current: float = quantity(
        "Rated thermal short-time current, rms; also compare the current your network can feed.",
        symbol='I_"th"',
        unit="kA",
        low="10 A",
        high="400 kA",
        default_factory=_short_time_current,
        basis="25 times the rated current, at most 100 kA (IEC 60137, 4.3, memory)",
    )
    short_time_duration: float = quantity(
        "How long the short-time current flows.",
        symbol='t_"th"',
        unit="s",
        low="0.1 s",
        high="10 s",
        default=2.0,
        basis="2 s for transformer bushings (IEC 60137, 4.3, later editions, memory)",
    )
    emergency_current: float = quantity(
        "Current of an emergency, rms, from rated temperatures on.",
        symbol='I_"em"',
        unit="A",
        low="0.1 A",
        high="80000 A",
        default_factory=_emergency_current,
        basis="1.3 times the rated current (long emergency loading of large transformers, "
        "IEC 60076-7, memory)",
    )
    emergency_duration: float = quantity(
        "How long the emergency lasts.",
        symbol='t_"em"',
        unit="h",
        low="1 min",
        high="30 d",
        default=7200.0,
        basis="2 h (practice)",
    )
    peak_load: float = quantity(
        "Load of the day's peak over the rated current.",
        symbol="K_2",
        unit="1",
        low="0",
        high="2",
        default=1.0,
        basis="the rated current",
    )
    off_peak_load: float = quantity(
        "Load for the rest of the day over the rated current.",
        symbol="K_1",
        unit="1",
        low="0",
        high="2",
        default=0.7,
        basis="0.7 (practice); two-step day of the loading guide (IEC 60076-7)",
    )
    peak_duration: float = quantity(
        "How long the day's peak lasts, ending with the hottest hour of the afternoon.",
        symbol='t_"peak"',
        unit="h",
        low="1 min",
        high="23 h",
        default=28800.0,
        basis="8 h (practice)",
    )
    line_conductance: float | None = quantity(
        "Heat that the connected line carries off or brings for each kelvin between it and the "
        "terminal.",
        symbol='G_"line"',
        unit="W/K",
        low="0 W/K",
        high="50 W/K",
        default=None,
        basis="left out: the line neither cools nor heats the terminal",
    )
    line_temperature: float | None = quantity(
        "Temperature of the connected line away from the terminal.",
        symbol='theta_"line"',
        unit="°C",
        low="-60 °C",
        high="150 °C",
        default=None,
        basis="left out: as warm as the air",
    )
    terminal_load: float = quantity(
        "Sideways load that the outer terminal must bear in the bending test.",
        symbol='F_"t"',
        unit="N",
        low="10 N",
        high="20 kN",
        default_factory=_terminal_load,
        basis="heavy load of the standard's table for voltage and current, remembered with low "
        "confidence; the table must be consulted",
    )
    terminal_pull: float = quantity(
        "Steady sideways pull of the connected conductor on the outer terminal.",
        symbol='F_"p"',
        unit="N",
        low="0 N",
        high="20 kN",
        default_factory=_terminal_pull,
        basis="half the load of the bending test, the most of service (IEC 60137, 4.5, memory)",
    )
    connection_span: float | None = quantity(
        "Length of connected bar whose short-circuit force comes on the terminal, half its span.",
        symbol='l_"s"',
        unit="m",
        low="0.05 m",
        high="30 m",
        default=None,
        basis="left open: the force of a short circuit is then not assessed",
    )

    @model_validator(mode="after")
    def _levels_in_order(self) -> "Duty":
        if self.power_frequency_dry * 2**0.5 > self.lightning_impulse:
            raise self._clash_of_levels()
        return self

    def _clash_of_levels(self) -> PydanticCustomError:
        """Names the level that was given, where the other is a default."""
        cure = "The peak of one may not exceed the other; check the unit and meaning of both."
        dry, impulse = "power_frequency_dry", "lightning_impulse"
        if impulse in self.model_fields_set and dry not in self.model_fields_set:
            least = units.write(float(f"{self.power_frequency_dry * 2**0.5:.4g}"), "kV")
            return clash(self, impulse, f"at least {least} beside {dry}, {stated(self, dry)}", cure)
        most = units.write(float(f"{self.lightning_impulse / 2**0.5:.4g}"), "kV")
        return clash(self, dry, f"at most {most} beside {impulse}, {stated(self, impulse)}", cure)
