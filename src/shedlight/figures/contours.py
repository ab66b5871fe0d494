"""Areas above a level and lines at a level, region by region, so that no jump is smeared.

Values are read on a grid. What lies outside a region takes the value of the nearest place inside,
and the finished areas are cut at the region's true border: steps at the border come out sharp.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import contourpy
import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.ndimage import distance_transform_edt
from shapely.geometry.base import BaseGeometry

Array = NDArray[np.float64]
Reader = Callable[[Array, Array], tuple[Array, ...]]


@dataclass(frozen=True)
class Window:
    """The part of the half plane that is shown [m]."""

    r_high: float
    z_low: float
    z_high: float

    @property
    def box(self) -> shapely.Polygon:
        """The window as a polygon."""
        return shapely.box(0.0, self.z_low, self.r_high, self.z_high)


@dataclass(frozen=True, eq=False)
class Sheet:
    """Values of one region on a grid over its own extent."""

    border: BaseGeometry
    r: Array
    z: Array
    values: Array


def sheets(border: BaseGeometry, reader: Reader, step: float) -> tuple[Sheet, ...]:
    """Read one region's values on a grid, all quantities at once; none if it is not in sight.

    Args:
        border: The region inside the window.
        reader: Gives each quantity at radii and heights [m]; not a number outside the region.
        step: Distance of the grid lines [m].
    """
    if border.is_empty:
        return ()
    r_low, z_low, r_high, z_high = border.bounds
    r = np.linspace(r_low, r_high, max(6, int((r_high - r_low) / step) + 2))
    z = np.linspace(z_low, z_high, max(6, int((z_high - z_low) / step) + 2))
    rr, zz = np.meshgrid(r, z)
    shapely.prepare(border)
    inside = shapely.contains_xy(border, rr, zz)
    if not inside.any():
        return ()
    found = []
    for read in reader(rr[inside], zz[inside]):
        values = np.full(rr.shape, np.nan)
        values[inside] = read
        _, nearest = distance_transform_edt(~np.isfinite(values), return_indices=True)
        found.append(Sheet(border, r, z, values[tuple(nearest)]))
    return tuple(found)


def above(found: Sheet, level: float) -> BaseGeometry:
    """The part of a region whose values reach a level.

    Args:
        found: The region's values.
        level: The level.
    """
    top = float(found.values.max())
    if level >= top:
        return shapely.Polygon()
    if level <= float(found.values.min()):
        return found.border
    maker = contourpy.contour_generator(
        found.r, found.z, found.values, fill_type=contourpy.FillType.OuterOffset
    )
    pieces = [
        shapely.Polygon(ring[0], ring[1:])
        for ring in _rings(maker.filled(level, top * (1 + 1e-9) + 1e-30))
    ]
    return shapely.intersection(shapely.make_valid(shapely.MultiPolygon(pieces)), found.border)


def _rings(filled: Any) -> Iterator[list[Array]]:
    points_of, offsets_of = filled
    for points, offsets in zip(points_of, offsets_of, strict=True):
        yield [points[a:b] for a, b in pairwise(offsets) if b - a > 3]


def at(found: Sheet, levels: Sequence[float]) -> list[BaseGeometry]:
    """The lines on which a region's values stand at levels, cut at the region's border.

    Args:
        found: The region's values.
        levels: The levels.
    """
    maker = contourpy.contour_generator(found.r, found.z, found.values)
    cut: list[BaseGeometry] = []
    for level in levels:
        lines = [np.asarray(line, dtype=float) for line in maker.lines(level)]
        cut.append(shapely.intersection(shapely.MultiLineString(lines), found.border))
    return cut
