"""The right half: cut along the axis, every material with its hatch."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from shedlight.figures.drafting import THIN, WIDE
from shedlight.figures.hatching import strokes
from shedlight.figures.scene import Box, Drawn, Item
from shedlight.figures.section.elevation import cap_outline
from shedlight.figures.section.materials import LOOKS, SOLID
from shedlight.figures.section.view import Shape, View, closed_path
from shedlight.geometry.rings import EARTH_RING, LIVE_RING
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.parts import Palm, Tube

# Joints of regions that are no edge of a solid, or lie outside the picture.
UNDRAWN = ("far air", "far cover", "far oil", "axis above", "axis below", "axis in metal")
REPLACED = ("cap", "cover top", "cover underside", "hole mouth")


@dataclass(frozen=True)
class Window:
    """How far cover and tank oil are shown [m]."""

    cover_end: float
    oil_end: float
    oil_bottom: float


@dataclass(frozen=True)
class Area:
    """A cut face: how it looks and its shape in metres."""

    look: str
    shape: Shape


def areas(installation: Installation, section: Section, view: View, window: Window) -> list[Area]:
    """Every cut face of the right half.

    Args:
        installation: The installation.
        section: Its section.
        view: Where it lies on paper.
        window: How far cover and tank oil are shown.
    """
    heights, bushing = section.heights, installation.bushing
    transformer = installation.transformer
    metal: Shape = view.polygon(section, "conductor")
    if isinstance(bushing.terminal, Palm):
        metal = metal.intersection(shapely.box(-1.0, heights.bottom - 1.0, 100.0, heights.cap_top))
    if isinstance(bushing.conductor, Tube):
        metal = metal.difference(tube_bore(bushing.conductor, section))
    level = transformer.lowest_oil_level
    under_level = shapely.box(0.0, -100.0, 100.0, level)
    tank = shapely.box(0.0, window.oil_bottom, window.oil_end, min(level, heights.cover_underside))
    plate = shapely.box(0.0, heights.cover_underside - 1.0, window.cover_end, 1.0)
    found = [
        Area("tank oil", view.polygon(section, "tank oil").intersection(tank)),
        Area("oil", view.polygon(section, "oil").intersection(under_level)),
        Area("porcelain", view.polygon(section, "porcelain")),
        Area("gasket", view.polygon(section, "gasket")),
        Area("clamps", view.polygon(section, "clamps")),
        Area("cover", view.polygon(section, "cover").intersection(plate)),
        Area("live metal", metal),
    ]
    looks = {LIVE_RING: "live metal", EARTH_RING: "clamps"}
    found += [Area(looks[name], view.polygon(section, name)) for name in section.rings]
    if transformer.hole_bled:
        found.append(Area("oil", view.polygon(section, "clearance").intersection(under_level)))
    return [area for area in found if not area.shape.is_empty]


def tube_bore(tube: Tube, section: Section) -> shapely.Polygon:
    """The inside of a hollow conductor, shown from the porcelain's lower end to the cap."""
    low, high = section.heights.oil_end, section.heights.cap_base
    return shapely.box(0.0, low, tube.inner_diameter / 2, high)


def tints(found: list[Area], view: View) -> Iterator[Item]:
    """The cut faces in their light colours."""
    for area in found:
        tint = LOOKS[area.look].tint
        if tint:
            yield Drawn(tuple(closed_path(ring) for ring in view.rings(area.shape)), fill=tint)


def hatches(found: list[Area], view: View, voids: tuple[Box, ...] = ()) -> Iterator[Item]:
    """The cut faces hatched.

    Args:
        found: The cut faces.
        view: Where they lie on paper.
        voids: Boxes left free for lettering.
    """
    for area in found:
        look, rings = LOOKS[area.look], view.rings(area.shape)
        if look.solid:
            yield Drawn(tuple(closed_path(ring) for ring in rings), fill=SOLID)
        elif look.hatch:
            yield Drawn(strokes(rings, look.hatch, voids), THIN)


def outlines(installation: Installation, section: Section, view: View) -> tuple[Item, ...]:
    """The edges of all cut faces in wide lines."""
    palm = isinstance(installation.bushing.terminal, Palm)
    skipped = (*UNDRAWN, *REPLACED)
    curves = [edge.curve for name, edge in section.edges.items() if name not in skipped]
    curves.append(cap_outline(section, palm))
    paths = [view.path(curve) for curve in curves]
    conductor = installation.bushing.conductor
    if isinstance(conductor, Tube):
        paths += [closed_path(ring) for ring in view.rings(tube_bore(conductor, section))]
    return (Drawn(tuple(paths), WIDE),)
