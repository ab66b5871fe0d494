"""The porcelain's outline: trunk and sheds in air, taper and end face in oil."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import Curve, Point
from shedlight.geometry.levels import SLIVER, Heights, Radii, millimetres
from shedlight.geometry.rounding import Corner, fitting, rounded
from shedlight.given.bushing import AlternatingSheds, PlainSheds, Sheds
from shedlight.units import write

END_ROUNDING = 0.002
STEEPEST = 0.05


@dataclass(frozen=True)
class Shed:
    """One shed as it stands on the trunk [m]."""

    number: int
    long: bool
    overhang: float
    body_radius: float
    tip_radius: float
    tip_height: float
    under_root: float
    top_root: float


def body_radius(height: float, heights: Heights, radii: Radii) -> float:
    """Radius of the trunk at a height of the air end [m].

    Args:
        height: Height above the cover [m].
        heights: Named heights.
        radii: Named radii.
    """
    share = (height - heights.shoulder) / (heights.cap_base - heights.shoulder)
    return radii.body + share * (radii.top_body - radii.body)


def sheds_of(sheds: Sheds | None, heights: Heights, radii: Radii) -> tuple[Shed, ...]:
    """Every shed, the lowest first.

    Args:
        sheds: Their arrangement, or None for a smooth body.
        heights: Named heights.
        radii: Named radii.

    Raises:
        ImpossibleShapeError: sheds overlap, or do not fit between clamps and cap.
    """
    if sheds is None:
        return ()
    _refuse_slopes(sheds, heights, radii)
    placed = tuple(_shed(sheds, number, heights, radii) for number in range(sheds.count))
    _refuse_crowding(placed, sheds, heights)
    return placed


def _shed(sheds: Sheds, number: int, heights: Heights, radii: Radii) -> Shed:
    is_long = number % 2 == 0 or isinstance(sheds, PlainSheds)
    overhang = sheds.overhang
    if isinstance(sheds, AlternatingSheds) and not is_long:
        overhang = sheds.short_overhang
    tip_height = heights.clamp_top + sheds.first_tip + number * sheds.pitch
    body = body_radius(tip_height, heights, radii)
    half = sheds.tip_thickness / 2
    return Shed(
        number=number + 1,
        long=is_long,
        overhang=overhang,
        body_radius=body,
        tip_radius=body + overhang,
        tip_height=tip_height,
        under_root=_root(body + overhang, tip_height - half, sheds.under_slope, heights, radii),
        top_root=_root(body + overhang, tip_height + half, sheds.top_slope, heights, radii),
    )


def _taper(heights: Heights, radii: Radii) -> float:
    """Growth of the trunk's radius with height [1]."""
    return (radii.top_body - radii.body) / (heights.cap_base - heights.shoulder)


def _root(tip: float, height: float, slope: float, heights: Heights, radii: Radii) -> float:
    """Height where a face that rises inwards from the tip meets the (tapered) trunk."""
    rise = math.tan(slope)
    here = body_radius(height, heights, radii)
    return height + rise * (tip - here) / (1 + rise * _taper(heights, radii))


def _refuse_slopes(sheds: Sheds, heights: Heights, radii: Radii) -> None:
    """On a trunk that narrows upwards a steep face may never meet it."""
    for field, slope in (("top_slope", sheds.top_slope), ("under_slope", sheds.under_slope)):
        if 1 + math.tan(slope) * _taper(heights, radii) < STEEPEST:
            raise ImpossibleShapeError(
                f"bushing.sheds.{field}",
                write(slope, "°"),
                "a slope that meets the tapered body",
                "Flatten the slope or lessen the taper.",
            )


def _refuse_crowding(placed: tuple[Shed, ...], sheds: Sheds, heights: Heights) -> None:
    for shed in placed:
        if shed.top_root - shed.under_root < SLIVER:
            raise ImpossibleShapeError(
                "bushing.sheds.under_slope",
                write(sheds.under_slope, "°"),
                f"sheds that grow thicker inwards; shed {shed.number} would have no thickness left",
                "Flatten under_slope, raise top_slope or thicken the tip.",
            )
    if placed[0].under_root - sheds.root_radius < heights.clamp_top:
        raise ImpossibleShapeError(
            "bushing.sheds.first_tip",
            write(sheds.first_tip, "mm"),
            "the lowest shed's root above the clamps",
            "Raise first_tip or thin the shed.",
        )
    if placed[-1].top_root + sheds.root_radius > heights.cap_base:
        reach = millimetres(placed[-1].top_root + sheds.root_radius - heights.clamp_top)
        raise ImpossibleShapeError(
            "bushing.porcelain.air_length",
            f"{sheds.count} sheds that reach {reach} above the clamps",
            "the highest shed's root below the cap",
            "Lengthen the air end, lessen the pitch or take fewer sheds.",
        )
    for lower, upper in pairwise(placed):
        if upper.under_root - lower.top_root < SLIVER:
            raise ImpossibleShapeError(
                "bushing.sheds.pitch",
                write(sheds.pitch, "mm"),
                "room on the body between one shed and the next",
                "Widen the pitch, thin the sheds or make them flatter.",
            )


def air_outline(
    start: tuple[Corner, ...],
    placed: tuple[Shed, ...],
    sheds: Sheds | None,
    heights: Heights,
    radii: Radii,
) -> Curve:
    """The porcelain's surface in air, from the earthed metal up to the cap.

    Args:
        start: Corners before the lowest shed, the first on the earthed metal.
        placed: The sheds.
        sheds: Their arrangement.
        heights: Named heights.
        radii: Named radii.

    Raises:
        ImpossibleShapeError: a rounding does not fit.
    """
    corners = list(start)
    if sheds is not None:
        for shed in placed:
            corners.extend(_shed_corners(shed, sheds, heights, radii))
    corners.append(Corner(Point(radii.top_body, heights.cap_base)))
    return rounded(corners)


def _shed_corners(shed: Shed, sheds: Sheds, heights: Heights, radii: Radii) -> Iterator[Corner]:
    half = sheds.tip_thickness / 2
    root, tip = sheds.root_radius, sheds.tip_radius
    under = Point(body_radius(shed.under_root, heights, radii), shed.under_root)
    low_tip = Point(shed.tip_radius, shed.tip_height - half)
    yield Corner(under, root, "bushing.sheds.root_radius")
    if shed.long and sheds.ribs:
        yield from _rib_corners(sheds, under, low_tip)
    yield Corner(low_tip, tip, "bushing.sheds.tip_radius")
    yield Corner(Point(shed.tip_radius, shed.tip_height + half), tip, "bushing.sheds.tip_radius")
    top = Point(body_radius(shed.top_root, heights, radii), shed.top_root)
    yield Corner(top, root, "bushing.sheds.root_radius")


def _rib_corners(sheds: Sheds, under: Point, tip: Point) -> Iterator[Corner]:
    """Ribs hang straight down from the underside, evenly spaced between trunk and tip."""
    room = (tip.r - under.r) / (sheds.ribs + 1)
    half = room / 5
    for rib in range(1, sheds.ribs + 1):
        middle = under.r + rib * room
        for r, hangs in (
            (middle - half, 0.0),
            (middle - half, 1.0),
            (middle + half, 1.0),
            (middle + half, 0.0),
        ):
            share = (r - under.r) / (tip.r - under.r)
            on_face = under.z + share * (tip.z - under.z)
            radius = 0.7 * half if hangs else 0.35 * half
            at = Point(r, on_face - hangs * sheds.rib_depth)
            yield Corner(at, radius, "bushing.sheds.rib_depth")


def oil_outline(heights: Heights, radii: Radii) -> Curve:
    """The porcelain's surface in the tank's oil, from the cover's underside to the shield.

    Args:
        heights: Named heights.
        radii: Named radii.

    Raises:
        ImpossibleShapeError: the oil end is too short for the cover or for its taper.
    """
    _refuse_short_oil_end(heights)
    shoulder = Point(radii.body, heights.taper_start)
    corner, inner = Point(radii.oil_end, heights.oil_end), Point(radii.shield, heights.oil_end)
    corners = [Corner(Point(radii.body, heights.cover_underside)), Corner(shoulder)]
    if radii.oil_end > radii.shield:
        bare = 0.4 * (radii.oil_end - radii.shield)
        rounding = fitting(shoulder, corner, inner, min(END_ROUNDING, bare))
        corners += [Corner(corner, rounding, "bushing.oil_end.end_diameter"), Corner(inner)]
    else:
        corners.append(Corner(corner))
    return rounded(corners)


def _refuse_short_oil_end(heights: Heights) -> None:
    shown = heights.cover_underside - heights.oil_end
    if shown < SLIVER:
        raise ImpossibleShapeError(
            "bushing.oil_end.length",
            f"{millimetres(heights.seat - heights.oil_end)} below the seat",
            f"more than the {millimetres(heights.seat - heights.cover_underside)} of gasket and "
            "cover",
            "Lengthen the oil end, so that it shows below the cover.",
        )
    if heights.cover_underside - heights.taper_start < SLIVER:
        raise ImpossibleShapeError(
            "bushing.oil_end.taper_length",
            millimetres(heights.taper_start - heights.oil_end),
            f"less than the {millimetres(shown)} of porcelain that show below the cover",
            "Shorten the taper or lengthen the oil end.",
        )
