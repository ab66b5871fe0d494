"""Floor 4: workings. Runs the rooms in order and carries numbers from one to the next."""

from dataclasses import replace
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from shedlight.geometry.measures import Measures, measure
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import BulkBushing, Installation
from shedlight.given.transformer import Transformer
from shedlight.tables import Confirmation, active_overlay, confirmed
from shedlight.workings.air import Air, air_of
from shedlight.workings.dirt import Dirt, dirt_of
from shedlight.workings.filling import Filling, filling_of
from shedlight.workings.flashover import Flashover, flashover_of
from shedlight.workings.heat import Heat, heat_of
from shedlight.workings.heat.model import shaded
from shedlight.workings.leakage import Leakage, leakage_of
from shedlight.workings.loads import Loads, loads_of
from shedlight.workings.masses import PartMass, masses_of
from shedlight.workings.numbers import Description
from shedlight.workings.odds import Odds, odds_of
from shedlight.workings.oil import Oil, oil_of
from shedlight.workings.radial import Radial, radial_of
from shedlight.workings.rain import Rain, rain_of
from shedlight.workings.rings import Ring, rings_of
from shedlight.workings.sealing import Sealing, sealing_of
from shedlight.workings.solvers import SOLVED, Solvers
from shedlight.workings.strength import Strength, strength_of
from shedlight.workings.surface import Surface, surface_of
from shedlight.workings.voltages import Voltages, voltages_of
from shedlight.workings.warmth import Warmth, warmth_of

if TYPE_CHECKING:
    from shedlight.physics.heat.guide_fit import GuideConstants
    from shedlight.workings.discharge import Discharges
    from shedlight.workings.field import Field
    from shedlight.workings.heat.section import SectionHeat
    from shedlight.workings.section_stress import SectionStress, Untied

NOT_SETTLED = "a draft is tried without settling its heat"
NO_FIELD = "the field was not solved; ask for it"
NO_SECTION_HEAT = "the heat of the section was not solved; ask for it with the field"
NO_SECTION_STRESS = "the stress of the section was not solved; ask for it with the field"


SHAPES_KEPT = 64


class Workings:
    """The complete record of what is computed for one installation.

    Every room runs once, when it is first asked, with the table rows that were confirmed when
    the record was made: a question about the air end does not wait for the heat.
    """

    def __init__(
        self,
        installation: Installation,
        *,
        with_field: bool = False,
        with_sections: bool = True,
        settled: bool = True,
        apart: bool = False,
    ) -> None:
        """Keep what is to be computed.

        Args:
            installation: What was described.
            with_field: Whether the field is to be solved too.
            with_sections: Whether heat and stress of the section are solved with the field.
            settled: Whether parts are as warm as they settle to; else as the top oil, for drafts.
            apart: Whether what is solved by finite elements may be so in processes of its own.
        """
        self.installation = installation
        self.number = Description(installation)
        self._with_field = with_field
        self._with_sections = with_field and with_sections
        self._settled = settled
        self._overlay = active_overlay()
        self.solvers = Solvers(self) if with_field and apart else None

    @property
    def overlay(self) -> tuple[Confirmation, ...]:
        """The table rows that were confirmed when the record was made."""
        return self._overlay

    @cached_property
    def section(self) -> Section:
        """The half-section."""
        return _section(self.installation.bushing, self.installation.transformer)

    @cached_property
    def measures(self) -> Measures:
        """What is measured on the section."""
        case = self.installation
        return _measures(case.bushing, case.transformer, case.site.rain_angle)

    @cached_property
    def voltages(self) -> Voltages:
        """Voltages in service and in tests."""
        with confirmed(self._overlay):
            return voltages_of(self.installation, self.number)

    @cached_property
    def radial(self) -> Radial:
        """Stresses across the wall."""
        with confirmed(self._overlay):
            return radial_of(self.installation, self.section, self.voltages)

    @cached_property
    def surface(self) -> Surface:
        """The dirty and wet surface."""
        with confirmed(self._overlay):
            return surface_of(self.installation, self.measures, self.voltages, self.number)

    @cached_property
    def rain(self) -> Rain:
        """What rain wets, spares and drips across."""
        with confirmed(self._overlay):
            creepage = self.surface.creepage
            return rain_of(self.installation, self.section, self.measures, creepage)

    @cached_property
    def dirt(self) -> Dirt:
        """The wet, dirty layer."""
        with confirmed(self._overlay):
            form, rained = self.surface.form_factor, self.rain.stated.stretches
            return dirt_of(self.installation, self.measures, form, rained)

    @cached_property
    def flashover(self) -> Flashover:
        """What the wet, dirty surface holds."""
        with confirmed(self._overlay):
            creepage = self.surface.creepage
            return flashover_of(
                self.installation, self.measures, self.voltages, self.dirt, creepage
            )

    @cached_property
    def leakage(self) -> Leakage:
        """Current and heat of the wet, dirty surface."""
        with confirmed(self._overlay):
            return leakage_of(self.voltages, self.dirt, self.surface.creepage)

    @cached_property
    def air(self) -> Air:
        """The air end and the horns."""
        with confirmed(self._overlay):
            return air_of(self.installation, self.measures, self.voltages, self.number)

    @cached_property
    def rings(self) -> tuple[Ring, ...]:
        """The shield rings in air."""
        with confirmed(self._overlay):
            return rings_of(self.section, self.voltages, self.number)

    @cached_property
    def odds(self) -> Odds:
        """How likely flashover is in a year."""
        with confirmed(self._overlay):
            found = (self.voltages, self.surface, self.dirt, self.flashover, self.air)
            return odds_of(self.installation, found, self.number)

    @cached_property
    def oil(self) -> Oil:
        """The oil end, and the oil inside."""
        with confirmed(self._overlay):
            return oil_of(
                self.installation, self.section, self.measures, self.voltages, self.number
            )

    @cached_property
    def heat(self) -> Heat:
        """Currents and temperatures."""
        with confirmed(self._overlay):
            # Only a field that is asked for is solved: then the heat takes its loss.
            found = self.field
            return heat_of(
                self.installation,
                self.section,
                self.measures,
                self.radial,
                self.voltages,
                self.number,
                None if isinstance(found, str) else found,
            )

    @cached_property
    def warmth(self) -> Warmth:
        """Temperatures that the rooms below take from the heat."""
        with confirmed(self._overlay):
            return warmth_of(self.heat if self._settled else NOT_SETTLED, self.number)

    @cached_property
    def filling(self) -> Filling:
        """How the oil space fills, vents and is proved tight."""
        with confirmed(self._overlay):
            found = (self.oil, self.warmth)
            return filling_of(self.installation, self.section, found, self.number)

    @cached_property
    def heat_field(self) -> "SectionHeat | str":
        """Temperatures of the section by finite elements, or why there are none."""
        if not self._with_sections:
            return NO_SECTION_HEAT if self._with_field else NO_FIELD
        steady = self.heat.steady
        if isinstance(steady, str):
            return steady
        if self.solvers is not None:
            return self.solvers.take("heat_field")  # type: ignore[no-any-return]
        from shedlight.workings.heat.section import section_heat  # noqa: PLC0415

        with confirmed(self._overlay):
            return section_heat(
                self.installation, self.section, self.measures, steady.safe, self.heat.cover
            )

    @cached_property
    def heat_guide(self) -> "GuideConstants | str":
        """The loading guide's constants of this bushing, or why there are none."""
        if not self._with_sections:
            return NO_SECTION_HEAT if self._with_field else NO_FIELD
        steady = self.heat.steady
        if isinstance(steady, str):
            return steady
        from shedlight.workings.heat.guide import guide_constants  # noqa: PLC0415

        with confirmed(self._overlay):
            return guide_constants(shaded(steady.safe.model).case)

    @cached_property
    def loads(self) -> Loads:
        """Forces on the outer end, and the stress they bring at every height."""
        with confirmed(self._overlay):
            return self._loads(self.warmth)

    def _loads(self, warmth: Warmth) -> Loads:
        pressures = self.oil.head_highest, self.oil.test_pressure
        warm = warmth.conductor, warmth.porcelain
        shape = self.section, self.measures
        return loads_of(self.installation, shape, pressures, warm, self.number)

    @cached_property
    def strength(self) -> Strength:
        """The porcelain as a brittle body."""
        with confirmed(self._overlay):
            found = (self.loads, self.warmth)
            return strength_of(self.installation, self.section, found, self.number)

    @cached_property
    def section_untied(self) -> "Untied | str":
        """The section's stress before the tie is known, which waits for the heat."""
        if not self._with_sections:
            return NO_SECTION_STRESS
        if self.solvers is not None:
            return self.solvers.take("section_untied")  # type: ignore[no-any-return]
        from shedlight.workings.section_stress import problem_of, untied_of  # noqa: PLC0415

        with confirmed(self._overlay):
            loads = self._loads(warmth_of(NOT_SETTLED, self.number))
            return untied_of(problem_of(self.installation, self.section, loads))

    @cached_property
    def section_stress(self) -> "SectionStress | str":
        """The stress in the true section of the porcelain, or why there is none."""
        if not self._with_sections:
            return NO_SECTION_STRESS
        if self.loads.test.tension <= 0:
            return "the porcelain is pressed everywhere"
        if isinstance(self.section_untied, str):
            return self.section_untied
        from shedlight.workings.section_stress import section_stress_of  # noqa: PLC0415

        with confirmed(self._overlay):
            return section_stress_of(
                self.installation, self.section, self.loads, self.section_untied
            )

    @cached_property
    def sealing(self) -> Sealing:
        """The gasket and the joints."""
        with confirmed(self._overlay):
            found = (self.loads, self.warmth)
            return sealing_of(self.installation, self.section, found, self.number)

    @cached_property
    def masses(self) -> tuple[PartMass, ...]:
        """What each part weighs."""
        with confirmed(self._overlay):
            return masses_of(self.installation, self.section, self.measures)

    @cached_property
    def discharges(self) -> "Discharges | str":
        """The field and what follows, or why there is none."""
        field = self.field
        if isinstance(field, str):
            return field
        if self.solvers is not None:
            found = self.solvers.take("discharges")
            return found if isinstance(found, str) else replace(found, field=field)
        from shedlight.workings.discharge import discharges_of  # noqa: PLC0415

        with confirmed(self._overlay):
            return discharges_of(self.installation, self.section, self.voltages, field)

    @cached_property
    def field(self) -> "Field | str":
        """The field alone, or why there is none."""
        if not self._with_field:
            return NO_FIELD
        if self.solvers is not None:
            return self.solvers.take("field")  # type: ignore[no-any-return]
        # The solver's libraries take a third of a second to open: only for those who ask.
        from shedlight.workings.discharge import field_or_why  # noqa: PLC0415

        with confirmed(self._overlay):
            return field_or_why(self.installation, self.section)


def rooms() -> tuple[str, ...]:
    """Every part of a record of workings, in the order they are computed."""
    return tuple(
        name
        for name, kind in vars(Workings).items()
        if isinstance(kind, cached_property) and name not in _PARTS
    )


_ON_HEAT = (
    "heat",
    "warmth",
    "filling",
    "loads",
    "strength",
    "sealing",
)  # and so on the field: what waits comes last
_PARTS = ("field",)  # of another room, and in it


def work_out(
    installation: Installation, *, with_field: bool = False, apart: bool = False
) -> Workings:
    """Compute everything for one installation.

    Args:
        installation: What was described.
        with_field: Whether to solve by finite elements too, which takes a second or two.
        apart: Whether that may be done in processes of its own.

    Raises:
        InputError: the dimensions make no body, or lie where a formula has no meaning.
    """
    workings = Workings(installation, with_field=with_field, apart=apart)
    solvers = workings.solvers
    if solvers is None:
        for room in rooms():
            getattr(workings, room)
        return workings
    # What the solvers need comes first, what needs them last, what they solve at the very end.
    for room in sorted(rooms(), key=_turn):
        getattr(workings, room)
        solvers.start()
    return workings


def _turn(room: str) -> int:
    order = {"voltages": 0, "oil": 0, **dict.fromkeys(_ON_HEAT, 2), "heat_guide": 3}
    return 5 if room == "section_stress" else 4 if room in SOLVED else order.get(room, 1)


@lru_cache(SHAPES_KEPT)
def _section(bushing: BulkBushing, transformer: Transformer) -> Section:
    """A section; the same shape under another duty or site is not built again."""
    return build_section(bushing, transformer)


@lru_cache(SHAPES_KEPT)
def _measures(bushing: BulkBushing, transformer: Transformer, rain_angle: float) -> Measures:
    return measure(_section(bushing, transformer), rain_angle)
