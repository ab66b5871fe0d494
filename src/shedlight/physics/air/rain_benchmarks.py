"""Bodies and rains whose wetting is known apart from our map: what the map is tested with."""

import math

from shedlight.geometry.curves import Point, line
from shedlight.geometry.wetting import RainDirection, wet_map_under
from shedlight.physics.air.driving_rain import upright_face
from shedlight.physics.air.rain import spectrum
from shedlight.physics.domain import not_negative, ordered, positive, within


def driven(rate: float, wind: float, law: str) -> float:
    """Rain on an upright face in the open by one law of drop sizes.

    Args:
        rate: Rain rate on level ground [m/s].
        wind: Wind speed square to the face [m/s].
        law: As in :data:`shedlight.physics.air.rain.SPECTRA`.

    Returns:
        Rate through an upright surface [m/s].

    Raises:
        InputError: as :func:`shedlight.physics.air.driving_rain.upright_face`.

    Source: as the law — basis: as the law.
    """
    return upright_face(rate, wind, spectrum(rate, law))


def wet_share_of_post(disc: float, post: float, height: float, angle: float) -> float:
    """Share of a post's side that rain strikes below a flat disc on its top, by the map.

    Args:
        disc: Radius of the disc [m].
        post: Radius of the post [m].
        height: Length of the post below the disc [m].
        angle: Angle of the rain from the vertical [rad].

    Returns:
        Wet share of the whole side, lee included [1].

    Raises:
        InputError: a size not above zero, a disc narrower than the post, an angle outside 0 to
            pi/2.

    Source: :func:`shedlight.geometry.wetting.wet_map_under` on a body of two lines — basis: exact
    but for its steps.
    """
    positive(post=post, height=height)
    ordered(post=post, disc=disc)
    within(0.0, math.pi / 2, angle=angle)
    side = line(Point(post, 0.0), Point(post, height))
    roof = line(Point(post, height), Point(disc, height), Point(0.0, height))
    step = height / 400
    return wet_map_under(roof, side, RainDirection(angle, 0.0), meridians=180, step=step).wet_share


def caught_on_slope(slope: float, angle: float, around: float) -> float:
    """Water that a slope catches over what level ground does, by the map of a cone.

    Args:
        slope: Fall of the cone's side from level [rad].
        angle: Angle of the rain from the vertical [rad].
        around: Angle round the cone from the side the rain comes from [rad].

    Returns:
        Ratio, per area of the slope [1].

    Raises:
        InputError: an angle outside its range.

    Source: :func:`shedlight.geometry.wetting.wet_map_under` on one line — basis: exact.
    """
    within(0.0, 1.5, slope=slope, angle=angle)
    not_negative(around=around)
    low, high = Point(0.2, 0.0), Point(0.1, 0.1 * math.tan(slope))
    roof = line(high, Point(0.0, high.z + 0.1 * math.tan(slope)))
    found = wet_map_under(
        roof, line(low, high), RainDirection(angle, 0.0), meridians=360, step=0.02
    )
    nearest = int(abs(found.around - around).argmin())
    return float(found.factor[0, nearest]) / math.cos(angle)
