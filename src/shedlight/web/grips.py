"""Grips: dimensions that may be dragged in the figure, where they stand and which way they grow."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from shedlight import units
from shedlight.figures.scene import Placement
from shedlight.figures.section.fittings import drawn_horns, horn_heights
from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation, PlainSheds
from shedlight.given.fields import Facts, facts_of


@dataclass(frozen=True)
class Grip:
    """One dimension that may be dragged.

    Attributes:
        path: The field it changes.
        label: Its short name.
        name: What it is, for those who cannot see it.
        value: The value, in the field's unit.
        low: Least accepted value, in the field's unit.
        high: Largest accepted value, in the field's unit.
        unit: The field's unit.
        x: Its place on paper [mm].
        y: Its place on paper [mm].
        across: Growth of the value per millimetre moved to the right on paper, in the unit.
        down: Growth of the value per millimetre moved down on paper, in the unit.
    """

    path: str
    label: str
    name: str
    value: float
    low: float
    high: float
    unit: str
    x: float
    y: float
    across: float
    down: float


@dataclass(frozen=True)
class _Place:
    """Where a grip stands in the section, and how far its value grows with a way outwards or up."""

    path: str
    r: float
    z: float
    left: bool = False
    outwards: float = 0.0
    upwards: float = 0.0


def grips(installation: Installation, section: Section, placement: Placement) -> tuple[Grip, ...]:
    """Every dimension that may be dragged in a figure.

    Args:
        installation: The installation.
        section: Its section.
        placement: Where the section lies in the figure.
    """
    found = [*_body(section), *_sheds(installation, section), *_horns(installation, section)]
    return tuple(_grip(place, installation, placement) for place in found)


def _body(section: Section) -> Iterator[_Place]:
    heights, radii = section.heights, section.radii
    yield _Place("bushing.porcelain.air_length", radii.cap, heights.cap_base, upwards=1.0)
    yield _Place("bushing.oil_end.length", radii.oil_end, heights.oil_end, upwards=-1.0)
    seat = (heights.seat + heights.shoulder) / 2
    yield _Place("bushing.porcelain.collar_diameter", radii.collar, seat, outwards=2.0)


def _sheds(installation: Installation, section: Section) -> Iterator[_Place]:
    sheds = section.sheds
    if not sheds:
        return
    lowest, highest = sheds[0], sheds[-1]
    table = "bushing.sheds"
    yield _Place(f"{table}.overhang", lowest.tip_radius, lowest.tip_height, outwards=1.0)
    yield _Place(f"{table}.first_tip", lowest.tip_radius, lowest.tip_height, True, upwards=1.0)
    if len(sheds) > 1:
        steps = len(sheds) - 1
        pitch = f"{table}.pitch"
        yield _Place(pitch, highest.tip_radius, highest.tip_height, True, upwards=1 / steps)
        if not isinstance(installation.bushing.sheds, PlainSheds):
            short, place = sheds[1], f"{table}.short_overhang"
            yield _Place(place, short.tip_radius, short.tip_height, outwards=1.0)


def _horns(installation: Installation, section: Section) -> Iterator[_Place]:
    pair = drawn_horns(installation, section)
    if pair:
        _, high, _, _ = horn_heights(section, pair.gap)
        yield _Place("bushing.horns.gap", pair.reach, high, True, upwards=2.0)


def _grip(place: _Place, installation: Installation, placement: Placement) -> Grip:
    facts, value = _fact(installation, place.path)
    in_unit: Callable[[float], float] = lambda metres: units.shown_in(metres, facts.unit)  # noqa: E731
    spot = placement.spot(-place.r if place.left else place.r, place.z)
    per_mm = in_unit(1 / placement.scale)
    return Grip(
        path=place.path,
        label=place.path.rpartition(".")[2].replace("_", " ").capitalize(),
        name=facts.sentence.rstrip("."),
        value=in_unit(value),
        low=in_unit(facts.low),
        high=in_unit(facts.high),
        unit=facts.unit,
        x=spot.x,
        y=spot.y,
        across=place.outwards * per_mm * (-1 if place.left else 1),
        down=-place.upwards * per_mm,
    )


def _fact(installation: Installation, path: str) -> tuple[Facts, float]:
    record: object = installation
    *way, last = path.split(".")
    for name in way:
        record = getattr(record, name)
    return facts_of(type(record), last), getattr(record, last)  # type: ignore[arg-type]
