"""Pictures of a bushing's heat, each made from the description alone."""

from collections.abc import Callable, Mapping

from shedlight.errors import RequestError
from shedlight.figures.chart import Limit
from shedlight.figures.heat import along_conductor, day_load, heat_paths
from shedlight.figures.heat_section import temperature_section
from shedlight.figures.scene import Scene
from shedlight.given.bushing import Installation
from shedlight.physics.heat.tables import temperature_limit
from shedlight.workings import Workings
from shedlight.workings.heat import Steady

ZERO = 273.15  # [K]
CURE = "Lower the current, or thicken the conductor."


def _steady(work: Workings, picture: str) -> Steady:
    found = work.heat.steady
    if isinstance(found, str):
        raise RequestError(f"{picture}: {found}. {CURE}")
    return found


def _limits() -> tuple[Limit, ...]:
    row = temperature_limit("part in contact with oil", "any", "oil")
    return (Limit("limit of metal in oil", row.temperature - ZERO),)


def _temperature(installation: Installation) -> Scene:
    work = Workings(installation, with_field=True)
    _steady(work, "temperature")
    found = work.heat_field
    if isinstance(found, str):
        raise RequestError(f"temperature: {found}")
    return temperature_section(installation, work.section, work.measures, found.field)


def _conductor(installation: Installation) -> Scene:
    work = Workings(installation)
    return along_conductor(work.section, _steady(work, "conductor"), _limits())


def _day_load(installation: Installation) -> Scene:
    loading = Workings(installation).heat.loading
    if isinstance(loading, str):
        raise RequestError(f"day-load: {loading}")
    return day_load(loading.course, _limits())


def _heat(installation: Installation) -> Scene:
    return heat_paths(_steady(Workings(installation), "heat"))


HEAT_PICTURES: Mapping[str, Callable[[Installation], Scene]] = {
    "temperature": _temperature,
    "conductor": _conductor,
    "day-load": _day_load,
    "heat": _heat,
}
