"""Bushings to draw: the examples, and shapes that strain a drawing. All are invented."""

import re
from dataclasses import dataclass
from functools import cache

from edits import example as text_of
from shedlight.figures.scene import Scene
from shedlight.figures.section import Mark, SheetName, section_drawing
from shedlight.geometry.measures import Measures, measure
from shedlight.geometry.section import Section, build_section
from shedlight.given.bushing import Installation
from shedlight.given.changing import changed
from shedlight.given.reading import parse

LONG_NAME = "Ostrel Quay and the far longer name that somebody typed without a thought for " * 2


@dataclass(frozen=True)
class Drawable:
    """An installation with all that is needed to draw it."""

    installation: Installation
    section: Section
    measures: Measures

    def full(self, sheet: SheetName | None = None, *marks: Mark) -> Scene:
        return section_drawing(
            self.installation, self.section, self.measures, sheet=sheet, marks=marks
        )

    def plain(self, *marks: Mark) -> Scene:
        return section_drawing(
            self.installation, self.section, self.measures, detail="plain", marks=marks
        )


def drawable(installation: Installation) -> Drawable:
    section = build_section(installation.bushing, installation.transformer)
    return Drawable(installation, section, measure(section, installation.site.rain_angle))


def example(name: str) -> Installation:
    return parse(text_of(name))


def _without(table: str, text: str) -> str:
    return re.sub(rf"\n\[bushing\.{table}\][^\[]*", "\n", text)


def _ringed(installation: Installation) -> Installation:
    ring = {"diameter": "260 mm", "tube_diameter": "40 mm", "offset": "0 mm"}
    return changed(
        installation,
        bushing__horns=None,
        bushing__live_ring=ring,
        bushing__earth_ring=ring | {"tube_diameter": "25 mm"},
    )


def _smooth() -> Installation:
    text = text_of("quay-24kv")
    return parse(_without("horns", _without("sheds", text)))


def _fifty_sheds() -> Installation:
    return changed(
        example("quay-24kv"),
        bushing__sheds__count=50,
        bushing__porcelain__air_length="2.6 m",
        bushing__horns__gap="1.2 m",
        transformer__lowest_oil_level="3 m",
        transformer__highest_oil_level="4 m",
    )


def _slim() -> Installation:
    return changed(
        example("quay-24kv"),
        transformer__hole_diameter="32 mm",
        bushing__conductor__diameter="8 mm",
        bushing__porcelain__bore="12 mm",
        bushing__porcelain__wall="8 mm",
        bushing__porcelain__collar_diameter="70 mm",
        bushing__porcelain__air_length="600 mm",
        bushing__fixing__outer_diameter="100 mm",
        bushing__gasket__inner_diameter="36 mm",
        bushing__gasket__outer_diameter="64 mm",
        bushing__cap__diameter="34 mm",
        bushing__oil_end__end_diameter="22 mm",
        bushing__oil_end__shield_diameter="24 mm",
        bushing__oil_end__shield_edge_radius="5 mm",
        bushing__oil_end__stud_diameter="8 mm",
        bushing__sheds__count=10,
        bushing__sheds__overhang="25 mm",
        bushing__horns=None,
    )


def _fat() -> Installation:
    return changed(
        example("quay-24kv"),
        transformer__hole_diameter="290 mm",
        bushing__conductor__diameter="120 mm",
        bushing__porcelain__bore="180 mm",
        bushing__porcelain__wall="40 mm",
        bushing__porcelain__collar_diameter="360 mm",
        bushing__porcelain__air_length="200 mm",
        bushing__fixing__outer_diameter="440 mm",
        bushing__gasket__inner_diameter="300 mm",
        bushing__gasket__outer_diameter="350 mm",
        bushing__cap__diameter="280 mm",
        bushing__oil_end__end_diameter="240 mm",
        bushing__oil_end__shield_diameter="230 mm",
        bushing__oil_end__stud_diameter="100 mm",
        bushing__sheds__count=3,
        bushing__horns__reach="330 mm",
        bushing__horns__gap="120 mm",
    )


def _one_shed() -> Installation:
    return changed(
        example("quay-24kv"),
        bushing__sheds__count=1,
        bushing__porcelain__air_length="110 mm",
        bushing__horns__gap="60 mm",
        bushing__horns__reach="90 mm",
    )


def _flange_and_tube() -> Installation:
    text = text_of("quay-24kv")
    text = _without("terminal", _without("conductor", text))
    text = text.replace('form = "clamps"', 'form = "flange"')
    text += """
[bushing.terminal]
form = "stud"
metal = "copper"
finish = "tinned"
diameter = "24 mm"
height = "60 mm"
lug_metal = "copper"
lug_finish = "tinned"

[bushing.conductor]
form = "tube"
metal = "copper"
diameter = "24 mm"
inner_diameter = "14 mm"
"""
    return changed(
        parse(text),
        name=LONG_NAME,
        transformer__mounting_angle="20 °",
        transformer__hole_bled=False,
        bushing__fixing__thickness="26 mm",
    )


@cache
def subjects() -> dict[str, Drawable]:
    """Every bushing to draw, by a name that says what is special about it."""
    quay = example("quay-24kv")
    found = {
        "inland": example("inland-12kv"),
        "quay": quay,
        "quarry": example("quarry-36kv"),
        "smooth": _smooth(),
        "ringed": _ringed(quay),
        "fifty sheds": _fifty_sheds(),
        "slim": _slim(),
        "fat": _fat(),
        "one shed": _one_shed(),
        "flange and tube": _flange_and_tube(),
        "low oil": changed(quay, transformer__lowest_oil_level="250 mm", bushing__horns=None),
        "oil below cover": changed(quay, transformer__lowest_oil_level="-60 mm"),
    }
    return {name: drawable(installation) for name, installation in found.items()}


NAMES = (
    "inland", "quay", "quarry", "smooth", "ringed", "fifty sheds", "slim", "fat", "one shed",
    "flange and tube", "low oil", "oil below cover",
)  # fmt: skip
