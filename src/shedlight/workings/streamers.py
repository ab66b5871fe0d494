"""Where a streamer would first start in gas beside metal, along the lines of a solved field."""

import math
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from shedlight.errors import InputError
from shedlight.geometry.curves import Point
from shedlight.physics.field.adapt import Solution
from shedlight.physics.field.domain import FieldError
from shedlight.physics.field.lines import FieldLine, critical_field, field_lines, inception_scale
from shedlight.physics.field.profiles import Profile, profile
from shedlight.physics.field.summary import CLEAR, distance_to_corners
from shedlight.sources import cite
from shedlight.trace import Label, Number
from shedlight.workings.field_numbers import Filled, at_one_volt, derived

CANDIDATES = 5
FOLLOWED = 0.1  # a line is first followed this far: most streamers need millimetres [m]
Lines = Mapping[tuple[str, str], tuple[FieldLine, ...]]  # by edge and region
STREAMER = cite("Petcharaks", "streamer criterion, integral of alpha = 9.15")


@dataclass(frozen=True, eq=False)
class Streamer:
    """Where a streamer would first start beside one metal part, and at what voltage [V rms]."""

    start: Point
    line: FieldLine
    inception: Number


def streamer(
    field: Filled,
    solution: Solution,
    edge: str,
    region: str,
    density: Number,
    surface: Number,
    lines: Lines = MappingProxyType({}),
) -> Streamer:
    """The lowest inception voltage over the most stressed places of a metal edge in gas.

    Args:
        field: What the field hangs on.
        solution: The same as it was solved.
        edge: Name of the metal edge.
        region: The gas beside it.
        density: Relative air density.
        surface: By how much the state of the metal lowers inception.
        lines: From the most stressed places, where they have been walked.

    Raises:
        FieldError: no streamer starts there at any voltage, or no place is clear of corners.
    """
    found = []
    for first in lines_of(solution, edge, region, lines):
        scale, line = _inception(solution, first, region, float(density))
        found.append((float(surface) * scale / math.sqrt(2), line))
    rms, line = min(found, key=lambda item: item[0])
    start = Point(float(line.points[0][0]), float(line.points[0][1]))
    where = f"at r = {1e3 * start.r:.1f} mm, z = {1e3 * start.z:.1f} mm on the edge {edge!r}"
    largest = at_one_volt(float(line.strength[0]), "Field there at 1 V", "E_1", "1/m", field)
    inception = derived(
        rms,
        Label("Streamer inception voltage, rms", "U_i", "kV"),
        "m / sqrt(2) min U: integral alpha(U E_1) dif s = 9.15",
        STREAMER,
        where,
        (largest, density, surface),
    )
    return Streamer(start, line, inception)


def walked(solution: Solution, ways: Sequence[tuple[str, str]]) -> Lines:
    """Lines from the most stressed places of several edges, all at once: a third of the time.

    Args:
        solution: The field.
        ways: Edges, and the region beside each that lines are to stay in; one from which no line
            can be walked is left out.
    """
    starts = {}
    for edge, region in ways:
        with suppress(FieldError, InputError):
            starts[edge, region] = most_stressed(profile(solution, edge, region), solution)
    if not starts:
        return {}
    owners = [way for way, points in starts.items() for _ in points]
    regions = [region for _, region in owners]
    lines = field_lines(solution, np.concatenate([*starts.values()]), regions, FOLLOWED)
    return {
        way: tuple(line for owner, line in zip(owners, lines, strict=True) if owner == way)
        for way in starts
    }


def lines_of(
    solution: Solution, edge: str, region: str, lines: Lines = MappingProxyType({})
) -> tuple[FieldLine, ...]:
    """Lines from the most stressed places of one edge.

    Args:
        solution: The field.
        edge: Name of the edge.
        region: The lines stay in it.
        lines: Where they have been walked.

    Raises:
        FieldError: no place is clear of corners.
    """
    if (edge, region) in lines:
        return lines[edge, region]
    starts = most_stressed(profile(solution, edge, region), solution)
    return field_lines(solution, starts, region, FOLLOWED)


def _inception(
    solution: Solution, first: FieldLine, region: str, density: float
) -> tuple[float, FieldLine]:
    """Peak voltage at which a streamer starts on a line, followed further where it must be."""
    scale = inception_scale(first.lengths, first.strength, density)
    weak = scale * first.strength[-1] <= critical_field(density)
    if weak or first.lengths[-1] < FOLLOWED:
        return scale, first
    (whole,) = field_lines(solution, first.points[:1], region)
    return inception_scale(whole.lengths, whole.strength, density), whole


def most_stressed(seen: Profile, solution: Solution) -> NDArray[np.float64]:
    """The most stressed places of an edge, clear of corners where the field has no bound.

    Args:
        seen: What a region sees along the edge.
        solution: The field it was read from.

    Raises:
        FieldError: every place lies at a corner.
    """
    clear = distance_to_corners(solution, seen.points) >= CLEAR
    if not clear.any():
        raise FieldError(seen.edge, "every place lies at a corner where the field has no bound")
    points, strength = seen.points[clear], seen.strength[clear]
    return np.asarray(points[np.argsort(-strength)[:CANDIDATES]])
