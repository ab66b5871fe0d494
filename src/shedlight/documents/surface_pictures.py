"""Pictures of rain and dirt on the air end."""

from collections.abc import Callable, Mapping

from shedlight.figures.dirt import flashover_picture, heat_picture, season_picture
from shedlight.figures.rain import rain_section, share_against_angle, wetting_picture
from shedlight.figures.scene import Scene
from shedlight.figures.two_ways import two_ways
from shedlight.given.bushing import Installation
from shedlight.workings import Workings
from shedlight.workings.rain import wetting_of


def rain_scene(work: Workings) -> Scene:
    """The air end in rain.

    Args:
        work: What was computed for an installation.
    """
    return rain_section(work.installation, work.section, work.measures, work.rain)


def ways_scene(work: Workings) -> Scene:
    """The way through the air and the way along the surface.

    Args:
        work: What was computed for an installation.
    """
    leaps = work.flashover.leaps
    return two_ways(work.installation, work.section, work.measures, leaps)


def _angle_scene(work: Workings) -> Scene:
    return share_against_angle(work.section, work.measures, work.rain)


def _wetting_scene(work: Workings) -> Scene:
    case, measures = work.installation, work.measures
    return wetting_picture(case, measures, wetting_of(case, work.section, measures))


def _drawn_by(scene: Callable[[Workings], Scene]) -> Callable[[Installation], Scene]:
    return lambda installation: scene(Workings(installation))


SURFACE_PICTURES: Mapping[str, Callable[[Installation], Scene]] = {
    "rain": _drawn_by(rain_scene),
    "rain-angle": _drawn_by(_angle_scene),
    "wetting": _drawn_by(_wetting_scene),
    "ways": _drawn_by(ways_scene),
    "leakage": _drawn_by(heat_picture),
    "flashover": _drawn_by(flashover_picture),
    "season": _drawn_by(season_picture),
}
