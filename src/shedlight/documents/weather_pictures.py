"""Pictures of what weather and overvoltages do to a bushing."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from shedlight.figures.altitude import altitude_picture
from shedlight.figures.drying import drying_picture
from shedlight.figures.gap_strength import gap_strength_picture
from shedlight.figures.horns import horns_picture
from shedlight.figures.odds import odds_picture
from shedlight.figures.scene import Scene
from shedlight.given.bushing import Installation
from shedlight.workings import Workings
from shedlight.workings.drying import Scenario, drying_of


@dataclass(frozen=True)
class Weather:
    """What wets the surface, and for how long [min]."""

    scenario: str = "fog"
    minutes: float = 10.0


def drying(installation: Installation, weather: Weather) -> Scene:
    """The surface over minutes of fog or rain.

    Args:
        installation: What to draw.
        weather: What wets it.

    Raises:
        InputError: the dimensions make no body, or the time lies outside the model's.
    """
    work = Workings(installation)
    scenario = Scenario(weather.scenario)
    return drying_picture(drying_of(installation, work, scenario, weather.minutes))


def _horns(installation: Installation) -> Scene:
    return horns_picture(installation, Workings(installation))


def _air(installation: Installation) -> Scene:
    return gap_strength_picture(Workings(installation))


def _altitude(installation: Installation) -> Scene:
    return altitude_picture(installation, Workings(installation))


def _odds(installation: Installation) -> Scene:
    return odds_picture(Workings(installation).odds)


WEATHER_PICTURES: Mapping[str, Callable[[Installation], Scene]] = {
    "air": _air,
    "altitude": _altitude,
    "horns": _horns,
    "odds": _odds,
}
