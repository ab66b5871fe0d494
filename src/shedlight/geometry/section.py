"""The whole meridian half-section: named edges between named regions.

Every edge is walked in one direction and says which region lies on its left and on its right,
so that a field solver, a drawing and a measurement all take over the same curves unchanged.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType

import shapely

from shedlight.errors import ImpossibleShapeError
from shedlight.geometry.curves import Curve, Point, chain, line
from shedlight.geometry.levels import (
    SLIVER,
    Heights,
    Radii,
    heights_of,
    millimetres,
    radii_of,
)
from shedlight.geometry.outline import Shed, air_outline, body_radius, oil_outline, sheds_of
from shedlight.geometry.rings import RINGS, rings_of
from shedlight.geometry.rounding import Corner, fitting, rounded
from shedlight.given.bushing import BulkBushing, Sheds
from shedlight.given.parts import Flange
from shedlight.given.transformer import Transformer

OUTSIDE = "outside"
SMALLEST_ROUNDING = 1e-5
COLLAR_ROUNDING = 0.003  # where none is described [m]


@dataclass(frozen=True)
class Edge:
    """A named curve with the regions on its left and right as it is walked."""

    name: str
    curve: Curve
    left: str
    right: str


@dataclass(frozen=True)
class Region:
    """A named region: its edges in order, counter-clockwise, and whether each is walked forward.

    Closed edges inside it, such as rings in air, are its holes.
    """

    name: str
    boundary: tuple[tuple[str, bool], ...]
    holes: tuple[str, ...] = ()


@dataclass(frozen=True)
class Section:
    """A bushing on its cover, cut along the axis; the right half."""

    heights: Heights
    radii: Radii
    sheds: tuple[Shed, ...]
    edges: Mapping[str, Edge]

    def curve(self, name: str) -> Curve:
        """The curve of a named edge."""
        return self.edges[name].curve

    @cached_property
    def regions(self) -> tuple[Region, ...]:
        """Every region with its closed boundary."""
        names = {side for edge in self.edges.values() for side in (edge.left, edge.right)}
        return tuple(_region(name, self.edges) for name in sorted(names - {OUTSIDE}))

    def outline(self, region: str) -> Curve:
        """The closed boundary of a region as one curve."""
        found = next(item for item in self.regions if item.name == region)
        curves = [
            self.curve(name) if forward else self.curve(name).reversed()
            for name, forward in found.boundary
        ]
        return curves[0].joined(*curves[1:])

    def polygon(self, region: str, sagitta: float = 2e-5) -> shapely.Polygon:
        """A region as a polygon whose chords stray from the arcs by at most a sagitta [m]."""
        found = next(item for item in self.regions if item.name == region)
        holes = [list(chain(self.curve(name).points(sagitta))) for name in found.holes]
        return shapely.Polygon(list(chain(self.outline(region).points(sagitta))), holes)

    @property
    def rings(self) -> tuple[str, ...]:
        """Names of the shield rings there are."""
        return tuple(name for name in RINGS if name in self.edges)


def build_section(bushing: BulkBushing, transformer: Transformer) -> Section:
    """The section of a solid bushing on its cover.

    Args:
        bushing: The bushing.
        transformer: The transformer it stands on.

    Raises:
        ImpossibleShapeError: the dimensions cannot make a body.
    """
    heights, radii = heights_of(bushing, transformer), radii_of(bushing, transformer)
    sheds = sheds_of(bushing.sheds, heights, radii)
    edges = [
        *_metal_edges(bushing, heights, radii),
        *_porcelain_edges(bushing, sheds, heights, radii),
        *_hole_edges(bushing.porcelain.collar_rounding or COLLAR_ROUNDING, heights, radii),
        *_far_edges(bushing, heights, radii, sheds),
        *(Edge(name, tube, name, "air") for name, _, tube in rings_of(bushing, heights)),
    ]
    named = MappingProxyType({edge.name: edge for edge in edges})
    section = Section(heights, radii, sheds, named)
    _refuse_crossings(section, bushing.sheds)
    _refuse_touching_rings(section)
    return section


def _metal_edges(bushing: BulkBushing, heights: Heights, radii: Radii) -> list[Edge]:
    h, r = heights, radii
    stem = line(Point(r.conductor, h.oil_end), Point(r.conductor, h.cap_base))
    floor = line(stem.start, Point(r.bore, h.oil_end))
    ceiling = line(stem.end, Point(r.bore, h.cap_base))
    cap_seat = line(ceiling.end, Point(r.top_body, h.cap_base))
    shield_seat = line(floor.end, Point(min(r.oil_end, r.shield), h.oil_end))
    axis = line(Point(0.0, h.bottom), Point(0.0, h.top))
    return [
        Edge("stem", stem, "conductor", "oil"),
        Edge("cavity floor", floor, "oil", "conductor"),
        Edge("cavity top", ceiling, "conductor", "oil"),
        Edge("cap seat", cap_seat, "conductor", "porcelain"),
        Edge("shield seat", shield_seat, "porcelain", "conductor"),
        Edge("cap", _cap_outline(bushing, h, r), "conductor", "air"),
        Edge("shield", _shield_outline(bushing, h, r), "tank oil", "conductor"),
        Edge("axis in metal", axis, OUTSIDE, "conductor"),
        Edge("clamps", _clamp_outline(bushing, h, r), "air", "clamps"),
        Edge("clamp joint", _clamp_joint(bushing, h, r), "porcelain", "clamps"),
    ]


def _cap_outline(bushing: BulkBushing, h: Heights, r: Radii) -> Curve:
    radius = bushing.cap.edge_radius
    low = min(radius, 0.9 * (r.cap - r.top_body))
    field = "bushing.cap.edge_radius"
    return rounded(
        [
            Corner(Point(r.top_body, h.cap_base)),
            Corner(Point(r.cap, h.cap_base), low if low > SMALLEST_ROUNDING else 0.0, field),
            Corner(Point(r.cap, h.cap_top), radius, field),
            Corner(Point(r.terminal, h.cap_top)),
            Corner(Point(r.terminal, h.top), min(0.001, 0.2 * r.terminal)),
            Corner(Point(0.0, h.top)),
        ]
    )


def _shield_outline(bushing: BulkBushing, h: Heights, r: Radii) -> Curve:
    radius = bushing.oil_end.shield_edge_radius
    field = "bushing.oil_end.shield_edge_radius"
    corners = [Corner(Point(min(r.oil_end, r.shield), h.oil_end))]
    if r.shield > r.oil_end:
        high = min(radius, 0.9 * (r.shield - r.oil_end))
        corners.append(
            Corner(Point(r.shield, h.oil_end), high if high > SMALLEST_ROUNDING else 0.0, field)
        )
    corners += [
        Corner(Point(r.shield, h.shield_bottom), radius, field),
        Corner(Point(r.stud, h.shield_bottom)),
        Corner(Point(r.stud, h.bottom), min(0.001, 0.2 * r.stud)),
        Corner(Point(0.0, h.bottom)),
    ]
    return rounded(corners)


def _clamp_outline(bushing: BulkBushing, h: Heights, r: Radii) -> Curve:
    radius, field = bushing.fixing.edge_radius, "bushing.fixing.edge_radius"
    if isinstance(bushing.fixing, Flange):
        top = body_radius(h.clamp_top, h, r)
        corners = [Corner(Point(top, h.clamp_top))]
    else:
        corners = [
            Corner(Point(r.ring_inner, h.shoulder)),
            Corner(Point(r.ring_inner, h.clamp_top), radius, field),
        ]
    corners += [
        Corner(Point(r.ring_outer, h.clamp_top), radius, field),
        Corner(Point(r.ring_outer, h.shoulder)),
        Corner(Point(r.collar, h.shoulder)),
    ]
    return rounded(corners)


def _foot(bushing: BulkBushing, h: Heights, r: Radii) -> Corner:
    """Where the collar's shoulder meets the body."""
    outer = r.collar if isinstance(bushing.fixing, Flange) else r.ring_inner
    at, above = Point(r.body, h.shoulder), Point(body_radius(h.clamp_top, h, r), h.clamp_top)
    wanted = bushing.porcelain.collar_rounding
    if wanted is not None:
        return Corner(at, wanted, "bushing.porcelain.collar_rounding")
    fitted = fitting(Point(outer, h.shoulder), at, above, COLLAR_ROUNDING)
    return Corner(at, fitted, "bushing.fixing.thickness")


def _clamp_joint(bushing: BulkBushing, h: Heights, r: Radii) -> Curve:
    outer = Corner(Point(r.collar, h.shoulder))
    if isinstance(bushing.fixing, Flange):
        top = Corner(Point(body_radius(h.clamp_top, h, r), h.clamp_top))
        return rounded([outer, _foot(bushing, h, r), top])
    return rounded([outer, Corner(Point(r.ring_inner, h.shoulder))])


def _porcelain_edges(
    bushing: BulkBushing, sheds: tuple[Shed, ...], h: Heights, r: Radii
) -> list[Edge]:
    top = Point(body_radius(h.clamp_top, h, r), h.clamp_top)
    if isinstance(bushing.fixing, Flange):
        start: tuple[Corner, ...] = (Corner(top),)
    else:
        _refuse_wedged_clamps(top, r)
        start = (Corner(Point(r.ring_inner, h.shoulder)), _foot(bushing, h, r))
    air_side = air_outline(start, sheds, bushing.sheds, h, r)
    collar = line(
        Point(r.gasket_outer, h.seat), Point(r.collar, h.seat), Point(r.collar, h.shoulder)
    )
    bore = line(Point(r.bore, h.oil_end), Point(r.bore, h.cap_base))
    return [
        Edge("air side", air_side, "porcelain", "air"),
        Edge("oil side", oil_outline(h, r), "tank oil", "porcelain"),
        Edge("collar side", collar, "porcelain", "air"),
        Edge("bore", bore, "oil", "porcelain"),
    ]


def _refuse_wedged_clamps(top: Point, r: Radii) -> None:
    """A body that widens upwards may leave no room inside the clamp ring."""
    if r.ring_inner - top.r < SLIVER:
        raise ImpossibleShapeError(
            "bushing.fixing.stand_off",
            f"{millimetres(r.ring_inner - r.body)} at the body's foot",
            f"clear of the body, whose radius grows by {millimetres(top.r - r.body)} up to the "
            "top of the clamps",
            "Let the clamps stand off further, or lessen top_wall.",
        )


def _hole_edges(wanted: float, h: Heights, r: Radii) -> list[Edge]:
    under, seat = h.cover_underside, h.seat
    inner, outer = r.gasket_inner, r.gasket_outer
    foot, corner, lip = Point(r.body, under), Point(r.body, seat), Point(inner, seat)
    # A larger rounding would reach into the edge of a tight hole.
    fillet = fitting(foot, corner, lip, min(wanted, max(seat, r.hole - r.body)))
    rounding = Corner(corner, fillet, "bushing.gasket.inner_diameter")
    body = rounded([Corner(foot), rounding, Corner(lip)])
    wall = line(Point(r.hole, under), Point(r.hole, 0.0), Point(inner, 0.0))
    mouth = line(Point(r.body, under), Point(r.hole, under))
    gasket_top = line(Point(inner, seat), Point(outer, seat))
    return [
        Edge("hole side", body, "porcelain", "clearance"),
        Edge("hole wall", wall, "clearance", "cover"),
        Edge("hole mouth", mouth, "clearance", "tank oil"),
        Edge("gasket top", gasket_top, "porcelain", "gasket"),
        Edge("gasket inner", line(Point(inner, 0.0), Point(inner, seat)), "clearance", "gasket"),
        Edge("gasket outer", line(Point(outer, 0.0), Point(outer, seat)), "gasket", "air"),
        Edge("gasket base", line(Point(inner, 0.0), Point(outer, 0.0)), "gasket", "cover"),
    ]


def _far_edges(bushing: BulkBushing, h: Heights, r: Radii, sheds: tuple[Shed, ...]) -> list[Edge]:
    """Open space ends three lengths away; the field room shows that more changes nothing."""
    beside = [tube.start.r for _, _, tube in rings_of(bushing, h)]
    widest = max(r.ring_outer, r.cap, r.shield, *(shed.tip_radius for shed in sheds), *beside)
    reach = 3 * max(h.top, -h.bottom, 2 * widest)
    high, deep, under = h.top + reach, h.bottom - reach, h.cover_underside
    top, edge = Point(reach, 0.0), Point(reach, under)
    far_air = line(Point(0.0, high), Point(reach, high), top)
    far_oil = line(edge, Point(reach, deep), Point(0.0, deep))
    return [
        Edge("cover top", line(Point(r.gasket_outer, 0.0), top), "air", "cover"),
        Edge("cover underside", line(Point(r.hole, under), edge), "cover", "tank oil"),
        Edge("axis above", line(Point(0.0, h.top), Point(0.0, high)), OUTSIDE, "air"),
        Edge("far air", far_air, OUTSIDE, "air"),
        Edge("far cover", line(top, edge), OUTSIDE, "cover"),
        Edge("far oil", far_oil, OUTSIDE, "tank oil"),
        Edge("axis below", line(Point(0.0, deep), Point(0.0, h.bottom)), OUTSIDE, "tank oil"),
    ]


def _region(name: str, edges: Mapping[str, Edge]) -> Region:
    """Chain the edges of one region into a closed loop, counter-clockwise."""
    around = [edge for edge in edges.values() if name in (edge.left, edge.right)]
    holes = [edge for edge in around if edge.name in RINGS and edge.right == name]
    waiting = [(edge, edge.left == name) for edge in around if edge not in holes]
    edge, forward = waiting.pop(0)
    boundary = [(edge.name, forward)]
    place = edge.curve.end if forward else edge.curve.start
    while waiting:
        near = min(waiting, key=lambda item: place.to(_start(*item)))
        if place.to(_start(*near)) > 1e-9:
            raise ImpossibleShapeError("outline", name, "a closed region", "Report this shape.")
        waiting.remove(near)
        boundary.append((near[0].name, near[1]))
        place = near[0].curve.end if near[1] else near[0].curve.start
    return Region(name, tuple(boundary), tuple(edge.name for edge in holes))


def _start(edge: Edge, forward: bool) -> Point:
    return edge.curve.start if forward else edge.curve.end


def _refuse_crossings(section: Section, sheds: Sheds | None) -> None:
    """Outlines that cross themselves or each other: drooping sheds, sheds through the cover."""
    for region in section.regions:
        polygon = shapely.Polygon(section.polygon(region.name).exterior)
        if not polygon.is_valid:
            reason = shapely.is_valid_reason(polygon)
            r, z = (float(number) for number in reason.partition("[")[2].rstrip("]").split())
            field, cure = _blamed(section, sheds, z)
            raise ImpossibleShapeError(
                field,
                f"an outline of {region.name} that crosses itself {millimetres(r)} from the axis, "
                f"{millimetres(z)} above the cover",
                "sheds clear of each other, of the clamps and of the cover",
                cure,
            )


def _blamed(section: Section, sheds: Sheds | None, height: float) -> tuple[str, str]:
    """The field that most likely makes an outline cross itself at a height, and the cure."""
    if sheds is None:
        return "bushing.porcelain", "Report this shape."
    if sheds.ribs:
        return "bushing.sheds.rib_depth", "Shorten the ribs, raise first_tip or widen the pitch."
    if height < section.sheds[0].tip_height:
        return "bushing.sheds.first_tip", "Raise first_tip or flatten the slopes."
    return "bushing.sheds.pitch", "Widen the pitch or flatten the slopes."


def _refuse_touching_rings(section: Section) -> None:
    """Shield rings that reach into the body, the metal, the cover or each other."""
    if not section.rings:
        return
    air = shapely.Polygon(list(chain(section.outline("air").points(2e-5))))
    tubes = {name: section.polygon(name).buffer(SLIVER) for name in section.rings}
    apart = len(tubes) < 2 or not shapely.intersects(*tubes.values())
    for name, tube in tubes.items():
        if not apart or not air.contains(tube):
            raise ImpossibleShapeError(
                f"bushing.{name.replace(' ', '_')}.diameter",
                f"{millimetres(2 * section.curve(name).start.r)} across, tube included",
                "a ring clear of porcelain, metal, cover and the other ring",
                "Widen or move the ring, or thin its tube.",
            )
