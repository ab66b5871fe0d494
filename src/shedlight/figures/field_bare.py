"""The field of the same conductor through the same hole with no bushing, at the same scale."""

from collections.abc import Iterator

from shedlight.figures.drafting import TINY, WIDE
from shedlight.figures.field_layers import LEGEND, MARGIN, FieldSubject, Scale, field_layers
from shedlight.figures.field_section import window_of
from shedlight.figures.hatching import strokes
from shedlight.figures.scene import Drawn, Item, Layer, Path, Pen, Scene, Spot, Text, closed
from shedlight.figures.section import section_drawing
from shedlight.figures.section.materials import LOOKS
from shedlight.figures.section.view import View
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.field.adapt import Solution

PAPER = "#ffffff"
GHOST = Pen(0.2, "#8a8a8a", (1.0, 0.8), rounded=False)
GHOSTS = ("cap", "air side", "clamps", "collar side", "oil side", "shield")
COVER = ("cover in oil", "cover in air")


def field_bare(
    installation: Installation,
    section: Section,
    measures: Measures,
    solution: Solution,
    voltage: float,
    *,
    scale: Scale = "log",
) -> Scene:
    """Bare conductor and hole: field on the right, on the left the bushing that is not there.

    Args:
        installation: What was described.
        section: The section whose conductor and hole are taken.
        measures: What was measured on it.
        solution: The field without the bushing, at one volt.
        voltage: Voltage on the conductor, rms [V].
        scale: Whether the shades go in logarithmic or in even steps.
    """
    plain = section_drawing(installation, section, measures, detail="plain")
    place, view = plain.placement, View(plain.placement)
    window = window_of(place, plain.width, plain.height)
    subject = FieldSubject(solution, voltage, window, scale)
    found = field_layers(subject, place, plain.width)
    metal = tuple(_metal(solution, section, view, plain.width, plain.height))
    ghost = Drawn(tuple(view.path(section.curve(name), mirrored=True) for name in GHOSTS), GHOST)
    words = [
        Text(said, plain.width + MARGIN, plain.height - above, TINY)
        for said, above in (("dashed on the left:", 6.0), ("the bushing that is not there", 3.4))
    ]
    return Scene(
        f"{plain.key}-bare",
        f"Electric field without {installation.name}: its conductor alone in the hole, at "
        f"{voltage / 1e3:.4g} kV rms to earth",
        "Field strength round the bare conductor in the hole of the cover, air above and oil "
        "below, with lines of equal potential at every tenth of the voltage.",
        plain.width + LEGEND,
        plain.height,
        (
            *found[:-2],
            Layer("metal", "Conductor and cover", metal),
            Layer("bushing", "The bushing that is not there", (ghost, *words)),
            *found[-2:],
        ),
        place,
    )


def _metal(
    solution: Solution, section: Section, view: View, width: float, height: float
) -> Iterator[Item]:
    axis, rod = view.axis, view.size(section.radii.conductor)
    conductor = closed(
        Spot(axis - rod, 0.0),
        Spot(axis + rod, 0.0),
        Spot(axis + rod, height),
        Spot(axis - rod, height),
    )
    yield from _cut(conductor, "live metal")
    points = [p for name in COVER for p in solution.problem.shape.side(name).curve.points(2e-5)]
    for mirrored, edge in ((False, width), (True, 0.0)):
        place = view.left if mirrored else view.right
        spots = [place(p.r, p.z) for p in points]
        # Beyond the picture's edge the plate runs on; here it ends with the paper.
        inside = [s for s in spots if min(axis, edge) <= s.x <= max(axis, edge)]
        yield from _cut(closed(Spot(edge, inside[0].y), *inside, Spot(edge, inside[-1].y)), "cover")


def _cut(path: Path, look: str) -> Iterator[Item]:
    hatch = LOOKS[look].hatch
    yield Drawn((path,), fill=PAPER)
    if hatch is not None:
        yield Drawn(strokes([list(path.spots)], hatch), Pen(0.12, rounded=False))
    yield Drawn((path,), WIDE)
