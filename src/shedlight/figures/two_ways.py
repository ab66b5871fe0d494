"""The two ways from live to earth in one picture: through the air, and along the surface."""

from collections.abc import Iterator, Sequence

from shedlight.figures.air_end import LEGEND, WIDTH, AirEnd, air_end, sample
from shedlight.figures.drafting import INK, SMALL
from shedlight.figures.scene import Drawn, Item, Layer, Pen, Scene, Text, line
from shedlight.figures.words import wrapped
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.surface.arc_way import Leap

SURFACE = Pen(1.2, "#0072b2", rounded=False)
THROUGH_AIR = Pen(0.9, "#b84f00", (3.0, 1.2), rounded=False)
LEAP = Pen(0.35, INK, (0.5, 0.8))


def two_ways(
    installation: Installation, section: Section, measures: Measures, leaps: Sequence[Leap]
) -> Scene:
    """Creepage on the left, arcing distance on the right, with their lengths.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        leaps: Short cuts through air that an arc on the surface might take.
    """
    ground = air_end(installation, section)
    view = ground.view
    surface = view.path(measures.creepage, mirrored=True)
    through = view.string(measures.arcing.points)
    cuts = tuple(
        line(*(view.left(p.r, p.z) for p in map(measures.creepage.at, (leap.start, leap.end))))
        for leap in leaps
    )
    ways = [Drawn((surface,), SURFACE), Drawn((through,), THROUGH_AIR)]
    if cuts:
        ways.append(Drawn(cuts, LEAP))
    return Scene(
        "ways",
        f"Two ways from live to earth on {installation.name}",
        f"Along the surface {1e3 * measures.creepage_length:.0f} mm, through the air "
        f"{1e3 * measures.arcing.length:.0f} mm.",
        WIDTH,
        ground.height,
        (
            Layer("air end", "Air end", ground.items),
            Layer("ways", "Ways", tuple(ways)),
            Layer("legend", "Legend", tuple(_legend(ground, measures, leaps))),
        ),
        view.placement,
    )


def _legend(ground: AirEnd, measures: Measures, leaps: Sequence[Leap]) -> Iterator[Item]:
    left, y = ground.right + 4.0, ground.top + 2.0
    along, through = 1e3 * measures.creepage_length, 1e3 * measures.arcing.length
    yield Text("Two ways from live to earth", 4.0, 6.0, 2.4, face="bold")
    yield from sample(left, y, SURFACE, f"along the surface: {along:.0f} mm (creepage)")
    yield from sample(left, y + 5.0, THROUGH_AIR, f"through the air: {through:.0f} mm (arcing)")
    y += 10.0
    if leaps:
        yield from sample(left, y, LEAP, "short cuts over shed gaps")
        y += 5.0
    said = [
        f"The way along the surface is {along / through:.2f} times as long (creepage factor).",
        "Lightning takes the way through the air: only height between live and earthed metal "
        "lengthens it.",
        "Dirt and fog open the way along the surface: sheds lengthen it.",
    ]
    if leaps:
        shortest = min(leaps, key=lambda leap: leap.way / (leap.end - leap.start))
        said.append(
            "An arc on the surface may cut through the air from shed to shed: the greatest cut "
            f"saves {1e3 * (shortest.end - shortest.start):.0f} mm of surface by "
            f"{1e3 * shortest.way:.0f} mm of air."
        )
    y += 2.0
    for text in said:
        for row in wrapped(text, LEGEND - 8.0):
            yield Text(row, left, y, SMALL)
            y += 3.6
        y += 1.0
