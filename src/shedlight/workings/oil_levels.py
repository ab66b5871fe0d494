"""A solver's shape with a space of oil drained to a level: what stands above it is gas."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import count, pairwise

from shedlight.errors import InputError
from shedlight.geometry.curves import Curve, Line, Piece, Point
from shedlight.physics.field.domain import Shape, Side

ASIDE = 5e-4  # a level this near to a corner of the oil's surface would leave a sliver [m]
STEP = 1e-4


def lowered(shape: Shape, region: str, level: float, gas: str) -> Shape:
    """The same shape with a region cut at a height; above it the region has another name.

    Args:
        shape: A section as the solver takes it.
        region: The oil.
        level: Height of its surface [m]; as :func:`clear_level` gives it.
        gas: What the region above the level is called.
    """
    sides: list[Side] = []
    crossings: list[float] = []
    for side in shape.sides:
        if region not in (side.left, side.right):
            sides.append(side)
            continue
        cuts = sorted(_crossed(side.curve, level))
        crossings += [side.curve.at(cut).r for cut in cuts]
        sides += _parted(side, cuts, region, level, gas)
    return Shape((*sides, *_surfaces(crossings, region, level, gas)))


def clear_level(shape: Shape, region: str, level: float) -> float:
    """The height next to a level that is clear of every corner of a region's outline.

    Args:
        shape: A section as the solver takes it.
        region: The oil.
        level: Wanted height of its surface [m].

    Raises:
        InputError: the level lies in no gap between corners that is wide enough.
    """
    heights = [
        point.z
        for side in shape.sides
        if region in (side.left, side.right)
        for piece in side.curve.pieces
        for point in (piece.start, piece.end)
    ]
    for step in range(200):
        for found in (level - step * STEP, level + step * STEP):
            if min(abs(found - height) for height in heights) >= ASIDE:
                return found
    raise InputError(f"level: given {level:g} m; expected a height clear of corners of the oil")


def extent_of(shape: Shape, region: str) -> tuple[float, float]:
    """Lowest and highest point of a region [m].

    Args:
        shape: A section as the solver takes it.
        region: Name of the region.
    """
    sides = [side for side in shape.sides if region in (side.left, side.right)]
    heights = [point.z for side in sides for point in side.curve.points(1e-4)]
    return min(heights), max(heights)


def _crossed(curve: Curve, level: float) -> Iterator[float]:
    """Lengths along a curve at which it passes a height, upwards or downwards."""
    walked = 0.0
    for piece in curve.pieces:
        for share in _shares(piece, level):
            if 0.0 < share < 1.0:
                yield walked + share * piece.length
        walked += piece.length


def _shares(piece: Piece, level: float) -> Iterator[float]:
    rising, falling = piece.share_at_height(level), piece.reversed().share_at_height(level)
    if rising is not None:
        yield rising
    if falling is not None:
        yield 1 - falling


def _parted(side: Side, cuts: list[float], region: str, level: float, gas: str) -> Iterator[Side]:
    """The pieces of an edge, those above the level facing gas in place of oil."""
    numbers = {True: count(1), False: count(1)}
    for low, high in pairwise([0.0, *cuts, side.curve.length]):
        curve = side.curve.between(low, high)
        above = curve.at(curve.length / 2).z > level
        number = next(numbers[above])
        name = f"{side.name} in {gas}" if above and cuts else side.name
        if above:
            left, right = (gas if n == region else n for n in (side.left, side.right))
        else:
            left, right = side.left, side.right
        named = name if number == 1 else f"{name} {number}"
        yield replace(side, name=named, curve=curve, left=left, right=right)


def _surfaces(crossings: list[float], region: str, level: float, gas: str) -> Iterator[Side]:
    """The free surface: between every other pair of crossings, gas above and oil below."""
    ordered = sorted(crossings)
    for number, (inner, outer) in enumerate(zip(ordered[::2], ordered[1::2], strict=True), 1):
        curve = Curve((Line(Point(inner, level), Point(outer, level)),))
        words = region if number == 1 else f"{region} {number}"
        yield Side(f"{words} level", curve, gas, region)
