"""What each standard asks of the air end at the site's height, side by side."""

from dataclasses import dataclass

from shedlight.physics.air.altitude_rules import (
    altitude_factor_by_table,
    altitude_factor_from_sea_level,
    clearance_altitude_factor,
    distance_for_lightning,
    raised_distance,
)
from shedlight.physics.air.atmosphere import altitude_factor
from shedlight.physics.voltages import required_withstand
from shedlight.trace import Number, calculate
from shedlight.workings.numbers import Description, assumption
from shedlight.workings.voltages import Voltages

DECIDES = "IEC 60137; IEC 60071-2:2018"


@dataclass(frozen=True)
class AltitudeRule:
    """One standard's rule for thin air.

    Attributes:
        standard: Which.
        corrects: What it corrects, and from which height it counts.
        factor: On that [1].
        distance: Arcing distance it leads to for the lightning level of the duty [m].
        remark: When not to use it.
    """

    standard: str
    corrects: str
    factor: Number
    distance: Number
    remark: str

    @property
    def decides(self) -> bool:
        """Whether it is the one used for verdicts."""
        return self.standard == DECIDES


def altitude_rules(number: Description, voltages: Voltages) -> tuple[AltitudeRule, ...]:
    """Every rule, the deciding one first. They are rivals, never to be multiplied.

    Args:
        number: The numbers of a description.
        voltages: Its voltages.
    """
    altitude, exponent = number("site.altitude"), assumption("altitude exponent")
    level, from_1000 = voltages.lightning, "withstand level, from 1000 m"
    plain = calculate(distance_for_lightning, level)

    def by_level(standard: str, corrects: str, factor: Number, remark: str = "") -> AltitudeRule:
        raised = calculate(required_withstand, level, factor)
        distance = calculate(distance_for_lightning, raised)
        return AltitudeRule(standard, corrects, factor, distance, remark)

    on_distance = calculate(clearance_altitude_factor, altitude)
    return (
        by_level(DECIDES, from_1000, calculate(altitude_factor, exponent, altitude)),
        by_level("IEEE C57.19.100", from_1000, calculate(altitude_factor_by_table, altitude)),
        AltitudeRule(
            "IEC 60076-3",
            "distance, from 1000 m",
            on_distance,
            calculate(raised_distance, plain, on_distance),
            "made for clearances to other parts",
        ),
        by_level(
            "IEC 60071-2:1996",
            "voltage wanted at the site, from sea level",
            calculate(altitude_factor_from_sea_level, exponent, altitude),
            "on a standard level it counts the first 1000 m twice",
        ),
    )
