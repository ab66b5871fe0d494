"""Everything a bushing engineer measures on the outline, measured when asked."""

import math
from functools import cached_property

from shedlight.geometry.curves import Curve
from shedlight.geometry.outline import Shed
from shedlight.geometry.paths import air_creepage, arcing_path, oil_creepage, oil_path
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import dry_length, wetted
from shedlight.geometry.spacing import (
    Bay,
    bays_of,
    clearances_of,
    creepage_per_repeat,
    ends_creepage_over_air,
)
from shedlight.geometry.taut import Taut
from shedlight.geometry.wetting import Stretch


class Measures:
    """What is measured on a section; lengths in metres, each measured once, when first asked."""

    def __init__(self, section: Section, rain_angle: float) -> None:
        """Keep what is to be measured.

        Args:
            section: The section.
            rain_angle: Angle of the rain from the vertical [rad].
        """
        self.section = section
        self.rain_angle = rain_angle

    @cached_property
    def creepage(self) -> Curve:
        """The surface in air that counts as creepage, earthed end first."""
        return air_creepage(self.section)

    @cached_property
    def arcing(self) -> Taut:
        """The shortest way in air from earthed to live metal."""
        return arcing_path(self.section)

    @cached_property
    def oil_creepage(self) -> Curve:
        """The surface in the tank's oil."""
        return oil_creepage(self.section)

    @cached_property
    def oil_path(self) -> Taut:
        """The shortest way in oil from earthed to live metal."""
        return oil_path(self.section)

    @property
    def sheds(self) -> tuple[Shed, ...]:
        """The sheds, the lowest first."""
        return self.section.sheds

    @cached_property
    def clearances(self) -> tuple[float, ...]:
        """Clearance between neighbouring sheds [m], the lowest first."""
        return clearances_of(self.creepage, self.sheds)

    @cached_property
    def bays(self) -> tuple[Bay, ...]:
        """The spaces between neighbouring sheds, the lowest first."""
        return bays_of(self.creepage, self.sheds)

    @cached_property
    def ends_creepage_over_air(self) -> tuple[float, float]:
        """Creepage over air distance below the lowest and above the highest shed [1]."""
        return ends_creepage_over_air(self.creepage, self.sheds)

    @cached_property
    def rain(self) -> tuple[Stretch, ...]:
        """Wet and dry stretches in the stated rain, on the windward side."""
        return wetted(self.section, self.creepage, self.rain_angle)

    @cached_property
    def protected_90(self) -> float:
        """Creepage that light along the axis' square does not reach [m]."""
        return dry_length(wetted(self.section, self.creepage, math.pi / 2))

    @cached_property
    def protected_45(self) -> float:
        """Creepage that light at 45 degrees does not reach [m]."""
        return dry_length(wetted(self.section, self.creepage, math.pi / 4))

    @cached_property
    def oil_volume(self) -> float:
        """Volume of the oil inside [m³]."""
        return self.section.outline("oil").enclosed_volume

    @cached_property
    def porcelain_volume(self) -> float:
        """Volume of the porcelain [m³]."""
        return self.section.outline("porcelain").enclosed_volume

    @cached_property
    def air_surface(self) -> float:
        """Surface of the porcelain in air [m²]."""
        return self.creepage.swept_area

    @cached_property
    def creepage_per_repeat(self) -> float | None:
        """Creepage from the lowest shed's tip to the next like it [m]; none without a next."""
        return creepage_per_repeat(self.creepage, self.sheds)

    @property
    def creepage_length(self) -> float:
        """Creepage of the air end [m]."""
        return self.creepage.length

    @property
    def form_factor(self) -> float:
        """Form factor of the air end [1]."""
        return self.creepage.form_factor

    @property
    def dry_creepage(self) -> float:
        """Creepage that stays dry in the stated rain, on the windward side [m]."""
        return dry_length(self.rain)

    @property
    def smallest_clearance(self) -> float:
        """Smallest clearance between neighbouring sheds [m]; infinite without neighbours."""
        return min(self.clearances, default=math.inf)

    @property
    def largest_creepage_over_air(self) -> float:
        """Largest ratio of creepage to air distance between two points [1]; 1 without sheds."""
        bays = (bay.creepage_over_air for bay in self.bays)
        return max(*bays, *self.ends_creepage_over_air)


def measure(section: Section, rain_angle: float = math.pi / 4) -> Measures:
    """Measure a section.

    Args:
        section: The section.
        rain_angle: Angle of the rain from the vertical [rad].
    """
    return Measures(section, rain_angle)
