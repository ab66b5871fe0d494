"""Floor 4: workings. Runs the rooms in order and carries numbers from one to the next."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from shedlight.geometry.measures import Measures, measure
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import Installation
from shedlight.workings.air import Air, air_of
from shedlight.workings.heat import Heat, heat_of
from shedlight.workings.masses import PartMass, masses_of
from shedlight.workings.numbers import Description
from shedlight.workings.oil import Oil, oil_of
from shedlight.workings.radial import Radial, radial_of
from shedlight.workings.strength import Strength, strength_of
from shedlight.workings.surface import Surface, surface_of
from shedlight.workings.voltages import Voltages, voltages_of

if TYPE_CHECKING:
    from shedlight.workings.discharge import Discharges

NO_FIELD = "the field was not solved; ask for it"


@dataclass(frozen=True)
class Workings:
    """The complete record of what was computed for one installation."""

    section: Section
    measures: Measures
    voltages: Voltages
    radial: Radial
    surface: Surface
    air: Air
    oil: Oil
    heat: Heat
    strength: Strength
    masses: tuple[PartMass, ...]
    discharges: "Discharges | str"


def work_out(installation: Installation, *, with_field: bool = False) -> Workings:
    """Compute everything for one installation.

    Args:
        installation: What was described.
        with_field: Whether to solve the field too, which takes most of a second.

    Raises:
        InputError: the dimensions make no body, or lie where a formula has no meaning.
    """
    number = Description(installation)
    section = build_section(installation.bushing, installation.transformer)
    measures = measure(section, installation.site.rain_angle)
    voltages = voltages_of(installation, number)
    oil = oil_of(installation, section, measures, voltages, number)
    return Workings(
        section=section,
        measures=measures,
        voltages=voltages,
        radial=radial_of(installation, section, voltages),
        surface=surface_of(installation, measures, voltages, number),
        air=air_of(installation, measures, voltages, number),
        oil=oil,
        heat=heat_of(installation, section, number),
        strength=strength_of(installation, section, oil.head_highest, number),
        masses=masses_of(installation, section, measures),
        discharges=_discharges(installation, section, voltages, with_field=with_field),
    )


def _discharges(
    installation: Installation, section: Section, voltages: Voltages, *, with_field: bool
) -> "Discharges | str":
    """The field and what follows, or why there is none."""
    if not with_field:
        return NO_FIELD
    # The solver's libraries take a third of a second to open: only for those who ask.
    from shedlight.workings.discharge import discharges_of  # noqa: PLC0415

    return discharges_of(installation, section, voltages)
