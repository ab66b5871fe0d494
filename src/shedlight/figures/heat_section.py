"""The section filled with its temperatures: shades in even steps, isotherms with their names."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from shedlight.figures.chart import round_step, thinned
from shedlight.figures.contours import Array, Sheet, above, at, sheets
from shedlight.figures.drafting import INK, SMALL, TINY
from shedlight.figures.field_layers import shapes_of
from shedlight.figures.field_section import UNDER, uncoloured, window_of
from shedlight.figures.scene import Box, Drawn, Item, Layer, Pen, Placement, Scene, Spot, Text, line
from shedlight.figures.section import section_drawing
from shedlight.geometry.measures import Measures
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.physics.heat.section_field import HeatField

ZERO = 273.15  # [K]
# Light to dark in even steps of grey; the darkest still lets an outline be seen.
SHADES = ("#fff7d6", "#fbe3a0", "#f5cb6e", "#efae51", "#e58e48", "#d46c49", "#b94d55", "#96375a")
WARM = ("porcelain", "oil", "clearance", "gasket", "clamps", "conductor", "cover")
THIN = ("oil", "clearance", "gasket")
STEP, FINE_STEP = 1.5e-3, 0.5e-3
LEGEND = 34.0
SHORTEST = 5.0  # an isotherm shorter than this has no room for its name [mm]
APART = 7.0  # of two names on paper [mm]


def temperature_section(
    installation: Installation, section: Section, measures: Measures, field: HeatField
) -> Scene:
    """The right half of the section filled with temperature, with named isotherms.

    Args:
        installation: What was described.
        section: Its section.
        measures: What was measured on it.
        field: Its temperatures.
    """
    plain = section_drawing(installation, section, measures, detail="plain")
    place = plain.placement
    window = window_of(place, plain.width, plain.height)
    box = shapely.intersection(window.box, shapely.box(0.0, -10.0, _drawn_to(plain), 10.0))
    found = _sheets(section, box, field)
    levels = _levels(found)
    isotherms = list(_isotherms(found, levels, place))
    kept = [uncoloured(layer) for layer in plain.layers if layer.name not in UNDER]
    low, high = _ends(found)
    return replace(
        plain,
        key=f"{plain.key}-temperature",
        title=f"Temperatures of {installation.name} at rated current",
        description=f"Temperature of metal, porcelain and oil on the right half of the section, "
        f"{low:.0f} to {high:.0f} °C, with isotherms every {levels[1] - levels[0]:g} K.",
        width=plain.width + LEGEND,
        layers=(
            Layer("temperature", "Temperature", tuple(_fills(found, levels, place))),
            *kept,
            Layer("isotherms", "Isotherms", tuple(isotherms)),
            Layer("names", "Names of isotherms", tuple(_names(found, levels, place))),
            Layer("legend", "Legend", tuple(_legend(installation, levels, plain.width + 4.0))),
        ),
    )


def _drawn_to(plain: Scene) -> float:
    """How far out the section's own colours reach: the cover ends there in a break [m]."""
    coloured = [item for item in plain.layer("colour").items if isinstance(item, Drawn)]
    right = max(spot.x for item in coloured for path in item.paths for spot in path.spots)
    return (right - plain.placement.axis) / plain.placement.scale


def _sheets(section: Section, box: BaseGeometry, field: HeatField) -> list[Sheet]:
    def read(r: Array, z: Array) -> tuple[Array, ...]:
        return (field.at(r, z) - ZERO,)

    found: list[Sheet] = []
    for region in WARM:
        shown = shapely.intersection(section.polygon(region), box)
        if shown.is_empty:
            continue
        found += sheets(shown, read, FINE_STEP if region in THIN else STEP)
    return found


def _ends(found: Sequence[Sheet]) -> tuple[float, float]:
    values = np.concatenate([one.values.ravel() for one in found])
    return float(values.min()), float(values.max())


def _levels(found: Sequence[Sheet]) -> tuple[float, ...]:
    """Round temperatures in even steps, as many as there are shades at most."""
    low, high = _ends(found)
    step = round_step(max(high - low, 0.1) / len(SHADES))
    first, last = math.floor(low / step) + 1, math.ceil(high / step)
    return tuple(step * n for n in range(first, last)) or (step * first,)


def _shades(levels: Sequence[float]) -> tuple[str, ...]:
    places = np.round(np.linspace(0, len(SHADES) - 1, len(levels) + 1)).astype(int)
    return tuple(SHADES[n] for n in places)


def _fills(found: Sequence[Sheet], levels: Sequence[float], place: Placement) -> Iterator[Item]:
    lowest, *shades = _shades(levels)
    yield Drawn(tuple(p for one in found for p in shapes_of(one.border, place)), fill=lowest)
    for level, shade in zip(levels, shades, strict=True):
        paths = [p for one in found for p in shapes_of(above(one, level), place)]
        if paths:
            yield Drawn(tuple(paths), fill=shade)


def _lines(found: Sequence[Sheet], levels: Sequence[float]) -> Iterator[tuple[float, BaseGeometry]]:
    for n, level in enumerate(levels):
        cuts = [at(one, levels)[n] for one in found]
        merged = shapely.line_merge(shapely.union_all(cuts))
        for part in shapely.get_parts(merged):
            if part.geom_type == "LineString" and not part.is_empty:
                yield level, part


def _isotherms(found: Sequence[Sheet], levels: Sequence[float], place: Placement) -> Iterator[Item]:
    paths = [
        line(*thinned([place.spot(r, z) for r, z in part.coords]))
        for _, part in _lines(found, levels)
    ]
    yield Drawn(tuple(paths), Pen(0.35, "#ffffff", rounded=False, opacity=0.6))
    yield Drawn(tuple(paths), Pen(0.16, INK, rounded=False))


def _names(found: Sequence[Sheet], levels: Sequence[float], place: Placement) -> Iterator[Item]:
    """A name on the longest piece of every isotherm, clear of the others."""
    longest: dict[float, BaseGeometry] = {}
    for level, part in _lines(found, levels):
        if level not in longest or part.length > longest[level].length:
            longest[level] = part
    taken: list[Spot] = []
    for level, part in longest.items():
        if part.length * place.scale < SHORTEST:
            continue
        for share in (0.5, 0.3, 0.7, 0.15, 0.85):
            middle = part.interpolate(share, normalized=True)
            spot = place.spot(middle.x, middle.y)
            if all(math.dist(spot, other) > APART for other in taken):
                taken.append(spot)
                yield from _name(f"{level:g}", spot)
                break


def _name(text: str, spot: Spot) -> Iterator[Item]:
    half = 0.55 * len(text) + 0.6
    box = Box(spot.x - half, spot.y - 1.25, spot.x + half, spot.y + 1.25)
    yield Drawn((box.path(),), fill="#ffffff")
    yield Text(text, spot.x, spot.y + TINY / 2 - 0.1, TINY, "middle")


def _legend(installation: Installation, levels: Sequence[float], left: float) -> Iterator[Item]:
    duty, site, oil = installation.duty, installation.site, installation.transformer
    yield Text("Temperature, °C", left, 8.0, SMALL)
    told = (
        f"at {duty.rated_current:g} A,",
        f"top oil {oil.top_oil_temperature - ZERO:.0f} °C,",
        f"air {site.hottest_air - ZERO:.0f} °C, noon sun",
    )
    for n, words in enumerate(told):
        yield Text(words, left, 11.6 + 2.6 * n, TINY)
    names = [f"up to {levels[0]:g}", *(f"above {level:g}" for level in levels)]
    for n, (name, shade) in enumerate(zip(names[::-1], _shades(levels)[::-1], strict=True)):
        top = 19.5 + 5.0 * n
        box = Box(left, top, left + 6.0, top + 4.2)
        yield Drawn((box.path(),), Pen(0.15, INK, rounded=False), shade)
        yield Text(name, left + 7.5, top + 3.0, SMALL)
    row = 19.5 + 5.0 * len(names) + 4.0
    yield Drawn((line(Spot(left, row), Spot(left + 6.0, row)),), Pen(0.16, INK, rounded=False))
    yield Text("isotherm, °C", left + 7.5, row + 0.8, TINY)
