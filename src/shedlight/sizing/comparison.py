"""Why the air end is longer than the oil end, in numbers."""

from dataclasses import dataclass

from shedlight.checks.assessment import assess
from shedlight.checks.catalogue import questions
from shedlight.given.bushing import Installation
from shedlight.sizing.bounds import SHAPE
from shedlight.sizing.reasons import Reason


@dataclass(frozen=True)
class Comparison:
    """Why the air end is so much longer than the oil end, in numbers [m, V/m, V].

    Attributes:
        air: Length of the air end.
        oil: Length of the oil end.
        air_needed: Length of the air end that would just do.
        oil_needed: Length of the oil end that would just do.
        air_check: What governs the air end.
        oil_check: What governs the oil end.
        air_gradient: Mean stress along the surface in air at the test, dry.
        oil_gradient: The same in oil.
    """

    air: float
    oil: float
    air_needed: float
    oil_needed: float
    air_check: str
    oil_check: str
    air_gradient: float
    oil_gradient: float

    @property
    def ratio(self) -> float:
        """Air end over oil end [1]."""
        return self.air / self.oil

    @property
    def needed_ratio(self) -> float:
        """What just does in air over what just does in oil [1]."""
        return self.air_needed / self.oil_needed

    @property
    def sentence(self) -> str:
        """The answer in words and numbers."""
        return (
            f"The air end is {self.ratio:.1f} times the oil end ({1e3 * self.air:.0f} mm against "
            f"{1e3 * self.oil:.0f} mm). In air “{self.air_check}” would just do with "
            f"{1e3 * self.air_needed:.0f} mm; in oil “{self.oil_check}” would just do with "
            f"{1e3 * self.oil_needed:.0f} mm: {self.needed_ratio:.1f} times. At the dry test the "
            f"surface in oil bears {self.oil_gradient / 1e6:.2f} kV/mm on the mean, that in air "
            f"{self.air_gradient / 1e6:.2f} kV/mm along its creepage: clean oil lets the same "
            "voltage stand on less length, and no rain, dirt or thin air reaches it."
        )


def air_against_oil(case: Installation, found: tuple[Reason, ...]) -> Comparison | None:
    """Why the air end is longer than the oil end; None where no check governs one of them.

    Args:
        case: The installation.
        found: The reasons of its dimensions.
    """
    by_path = {reason.path: reason for reason in found}
    air = by_path["bushing.porcelain.air_length"]
    oil = by_path["bushing.oil_end.length"]
    if air.governing is None or oil.governing is None:
        return None
    work = assess(case, only=()).workings
    dry = float(work.voltages.dry)
    return Comparison(
        air=air.value,
        oil=oil.value,
        air_needed=air.governing.value,
        oil_needed=oil.governing.value,
        air_check=_title(air.governing.check),
        oil_check=_title(oil.governing.check),
        air_gradient=dry / work.measures.creepage_length,
        oil_gradient=dry / work.measures.oil_creepage.length,
    )


def _title(check: str) -> str:
    return "the shape that can be drawn" if check == SHAPE else questions()[check].title
