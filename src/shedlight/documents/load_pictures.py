"""Pictures of loads and oil: stress along the height and in the section, levels and heads."""

from collections.abc import Callable, Mapping

from shedlight.errors import InputError
from shedlight.figures.oil import oil_levels
from shedlight.figures.scene import Scene
from shedlight.figures.strength import stress_heights, stress_section
from shedlight.given.bushing import Installation
from shedlight.workings import Workings


def _heights(installation: Installation) -> Scene:
    work = Workings(installation, with_field=True)
    found = work.section_stress
    return stress_heights(work, None if isinstance(found, str) else found)


def _section(installation: Installation) -> Scene:
    # The solver's libraries take a third of a second to open: only for those who ask.
    from shedlight.workings.section_stress import problem_of, solved  # noqa: PLC0415

    work = Workings(installation, with_field=True)
    found = work.section_stress
    if isinstance(found, str):
        raise InputError(f"no stress to draw: {found}")
    solution = solved(problem_of(installation, work.section, work.loads))
    return stress_section(installation, work.section, work.measures, solution, found)


def _oil(installation: Installation) -> Scene:
    return oil_levels(installation, Workings(installation))


LOAD_PICTURES: Mapping[str, Callable[[Installation], Scene]] = {
    "stress-height": _heights,
    "stress-section": _section,
    "oil-level": _oil,
}
