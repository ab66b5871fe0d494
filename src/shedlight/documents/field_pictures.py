"""Pictures of the field, as it is and as it would be."""

from dataclasses import dataclass, field
from typing import Literal

from shedlight.errors import RequestError
from shedlight.figures.field import surface_stress
from shedlight.figures.field_bare import field_bare
from shedlight.figures.field_section import field_section
from shedlight.figures.scene import Scene
from shedlight.given.bushing import Installation
from shedlight.workings import Workings
from shedlight.workings.field import Field, solved
from shedlight.workings.surface_states import slot_of, tips_of
from shedlight.workings.what_ifs.no_bushing import solved_without_bushing
from shedlight.workings.what_ifs.no_sheds import without_sheds
from shedlight.workings.what_ifs.oil_drained import drained_levels, problem_drained
from shedlight.workings.what_ifs.record import Supposed, Supposition, as_it_is


@dataclass(frozen=True)
class FieldView:
    """How a field is pictured: scale of the shades, and what is supposed, if anything."""

    scale: Literal["log", "linear"] = "log"
    what_if: str = ""
    supposed: Supposed = field(default_factory=Supposed)


def field_picture(installation: Installation, view: FieldView) -> Scene:
    """The field of a bushing, or of a what-if.

    Args:
        installation: What to draw.
        view: How.

    Raises:
        InputError: the dimensions make no body.
        RequestError: what is supposed is not axisymmetric.
        FieldError: the field cannot be found.
    """
    work = Workings(installation)
    voltage = float(work.voltages.phase)
    if view.what_if == Supposition.OFF_CENTRE:
        raise RequestError(
            "what-if: given off-centre; expected one with a picture. A conductor off the middle is "
            "not axisymmetric: the numbers come with the command what-if"
        )
    if view.what_if == Supposition.NO_BUSHING:
        solution = solved_without_bushing(work)
        return field_bare(
            installation, work.section, work.measures, solution, voltage, scale=view.scale
        )
    drawn, problem, case = work, as_it_is(work), ""
    if view.what_if == Supposition.NO_SHEDS:
        drawn, case = without_sheds(work), "without sheds"
        problem = as_it_is(drawn)
    elif view.what_if == Supposition.OIL_DRAINED:
        levels = drained_levels(work, view.supposed)
        problem, case = problem_drained(work, levels), "with oil drained"
    solution = solved(problem)
    return field_section(
        drawn.installation,
        drawn.section,
        drawn.measures,
        solution,
        voltage,
        scale=view.scale,
        case=case,
    )


def solved_pictures(work: Workings, field: Field) -> tuple[Scene, Scene]:
    """The section with its field, and the stress on its surfaces, in service.

    Args:
        work: What was computed for an installation.
        field: Its field.
    """
    voltage, solution = float(work.voltages.phase), solved(as_it_is(work))
    section = field_section(work.installation, work.section, work.measures, solution, voltage)
    return section, stress_picture(work, field)


def stress_picture(work: Workings, field: Field) -> Scene:
    """The stress on porcelain and conductor, in service.

    Args:
        work: What was computed for an installation.
        field: Its field.
    """
    voltage = float(work.voltages.phase)
    return surface_stress(field, voltage, start=slot_of(work), sheds=tips_of(work, field))
