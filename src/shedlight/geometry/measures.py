"""Everything a bushing engineer measures on the outline, in one frozen record."""

import math
from dataclasses import dataclass

from shedlight.geometry.curves import Curve
from shedlight.geometry.outline import Shed
from shedlight.geometry.paths import air_creepage, arcing_path, oil_creepage, oil_path
from shedlight.geometry.section import Section
from shedlight.geometry.shadow import Stretch, dry_length, wetted
from shedlight.geometry.spacing import Bay, bays_of, creepage_per_repeat, ends_creepage_over_air
from shedlight.geometry.taut import Taut


@dataclass(frozen=True)
class Measures:
    """What was measured on a section; lengths in metres."""

    creepage: Curve
    arcing: Taut
    oil_creepage: Curve
    oil_path: Taut
    sheds: tuple[Shed, ...]
    bays: tuple[Bay, ...]
    ends_creepage_over_air: tuple[float, float]
    rain: tuple[Stretch, ...]
    rain_angle: float
    protected_90: float
    protected_45: float
    oil_volume: float
    porcelain_volume: float
    air_surface: float
    creepage_per_repeat: float | None

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
        return min((bay.clearance for bay in self.bays), default=math.inf)

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
    creepage = air_creepage(section)
    oil = section.outline("oil").enclosed_volume
    return Measures(
        creepage=creepage,
        arcing=arcing_path(section),
        oil_creepage=oil_creepage(section),
        oil_path=oil_path(section),
        sheds=section.sheds,
        bays=bays_of(creepage, section.sheds),
        ends_creepage_over_air=ends_creepage_over_air(creepage, section.sheds),
        rain=wetted(section, creepage, rain_angle),
        rain_angle=rain_angle,
        protected_90=dry_length(wetted(section, creepage, math.pi / 2)),
        protected_45=dry_length(wetted(section, creepage, math.pi / 4)),
        oil_volume=oil,
        porcelain_volume=section.outline("porcelain").enclosed_volume,
        air_surface=creepage.swept_area,
        creepage_per_repeat=creepage_per_repeat(creepage, section.sheds),
    )
