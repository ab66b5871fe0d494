"""Filling, venting and tightness: heads at every height, the lowest safe level, what to test."""

from dataclasses import dataclass

from shedlight.geometry.section import Section
from shedlight.given.bushing import Installation
from shedlight.given.materials import material_property
from shedlight.physics.oil.head import expanded_volume, head_pressure, oil_density
from shedlight.physics.oil.immersion import depth_below, pressure_with_cushion, temperature_range
from shedlight.physics.oil.pressure_tests import (
    PressureTest,
    gas_test_drift,
    locked_oil_pressure,
    pressure_tests,
)
from shedlight.physics.oil.tilt import height_when_tilted, lowest_safe_level, trapped_height
from shedlight.trace import Label, Number, calculate, measured
from shedlight.workings.numbers import Description, assumption, from_table, on_outline
from shedlight.workings.oil import Oil
from shedlight.workings.warmth import Warmth

NO_CUSHION = "give transformer.lowest_cushion_pressure"
_KELVIN = 1.0  # [K], of which a gauge in a gas test is told


@dataclass(frozen=True)
class Head:
    """Gauge pressure at a place of the oil, least and greatest in service [Pa]."""

    place: str
    along: float  # height above the cover along the axis [m]
    across: float  # distance from the axis [m]
    least: Number | None  # upper side, lowest level, coldest oil; None without the cushion's
    greatest: Number  # lower side, highest level, coldest oil


@dataclass(frozen=True)
class Tightness:
    """One test of tightness as it is to be carried out."""

    test: PressureTest
    pressure: Number  # gauge [Pa]
    duration: Number  # how long it is held [s]
    drift: Number | None  # what a gauge shows per kelvin in a gas test [Pa]


@dataclass(frozen=True)
class Step:
    """One step of filling and venting, with the number it hangs on, if any."""

    words: str
    number: Number | None = None


@dataclass(frozen=True)
class Filling:
    """The oil space as it is filled, vented and tested."""

    tilt: Number
    highest_place: Number  # above the middle of the cover's hole [m]
    trapped: Number  # gas left where the vent is turned down [m]
    safe_level: Number | str
    heads: tuple[Head, ...]
    expansion: Number  # of the oil inside, from coldest to hottest [m³]
    contraction: Number  # of the same, from assembly to coldest [m³]
    locked: Number | None  # rise of pressure of a space that is closed [Pa]
    tests: tuple[Tightness, ...]
    steps: tuple[Step, ...]


def filling_of(
    installation: Installation, section: Section, found: tuple[Oil, Warmth], number: Description
) -> Filling:
    """How the oil space fills, vents and is proved tight.

    Args:
        installation: What was described.
        section: Its section.
        found: The oil end and the oil space, and how warm the parts are.
        number: Hands out the numbers of the description.
    """
    oil, warmth = found
    tilt = number("transformer.mounting_angle")
    dense = calculate(
        oil_density,
        material_property("oil", "density_20"),
        material_property("oil", "expansion"),
        number("site.coldest_air"),
    )
    top = _height(section.heights.cap_base, section.radii.bore, tilt)
    safe = _safe_level(installation, top, dense, number)
    heads = tuple(_heads(installation, section, dense, number))
    coldest, growth = number("site.coldest_air"), material_property("oil", "expansion")
    span = calculate(temperature_range, warmth.oil, coldest)
    cooling = calculate(temperature_range, assumption("assembly temperature"), coldest)
    expansion = calculate(expanded_volume, oil.volume, growth, span)
    return Filling(
        tilt=tilt,
        highest_place=top,
        trapped=_trapped(section, float(tilt)),
        safe_level=safe,
        heads=heads,
        expansion=expansion,
        contraction=calculate(expanded_volume, oil.volume, growth, cooling),
        locked=_locked(installation, span),
        tests=tuple(_tightness(test, oil) for test in pressure_tests()),
        steps=_steps(installation, safe, (heads[0].least, oil.head_highest), expansion),
    )


def _height(along: float, across: float, tilt: Number) -> Number:
    return calculate(
        height_when_tilted,
        on_outline(along, "Distance along the axis", "a", "mm", "above the cover"),
        on_outline(across, "Distance from the axis", "r", "mm", "on the section"),
        tilt,
    )


def _trapped(section: Section, tilt: float) -> Number:
    heights, radii = section.heights, section.radii
    cavity = ((heights.cap_base, radii.bore), (heights.oil_end, radii.bore))
    value = trapped_height(cavity, (heights.cap_base, -radii.conductor), tilt)
    label = Label("Gas over the vent if it is turned down", "h", "mm")
    return measured(value, label, "vent beside the stem, on the lower side")


def _safe_level(
    installation: Installation, top: Number, dense: Number, number: Description
) -> Number | str:
    reserve = assumption("oil reserve")
    if installation.transformer.breathing == "sealed cushion":
        cushion = installation.transformer.lowest_cushion_pressure
        if cushion is None:
            return NO_CUSHION
        reserve = measured(
            max(0.0, float(reserve) - cushion),
            Label("Pressure still wanted of the head", 'p_"res"', "kPa"),
            "reserve less the lowest pressure of the cushion",
        )
    return calculate(lowest_safe_level, top, reserve, dense)


def _heads(
    installation: Installation, section: Section, dense: Number, number: Description
) -> list[Head]:
    heights, radii = section.heights, section.radii
    tilt = number("transformer.mounting_angle")
    places = (
        ("top of the oil space", heights.cap_base, radii.bore),
        ("top of clamps or flange", heights.clamp_top, radii.bore),
        ("seat", heights.seat, radii.bore),
        ("floor of the oil space", heights.oil_end, radii.bore),
        ("underside of the shield", heights.shield_bottom, radii.shield),
    )
    lowest, highest = (number(f"transformer.{end}_oil_level") for end in ("lowest", "highest"))
    found = []
    for name, along, across in places:
        over = calculate(depth_below, lowest, _height(along, across, tilt))
        under = calculate(depth_below, highest, _height(along, -across, tilt))
        least = _under_cushion(installation, calculate(head_pressure, dense, over), number)
        found.append(Head(name, along, across, least, calculate(head_pressure, dense, under)))
    return found


def _under_cushion(installation: Installation, head: Number, number: Description) -> Number | None:
    transformer = installation.transformer
    if transformer.breathing != "sealed cushion":
        return head
    if transformer.lowest_cushion_pressure is None:
        return None
    cushion = number("transformer.lowest_cushion_pressure")
    return calculate(pressure_with_cushion, head, cushion)


def _locked(installation: Installation, span: Number) -> Number | None:
    """What oil that cannot get out would press, warmed from the coldest to the hottest."""
    if installation.bushing.oil_space.opening != "closed":
        return None
    material = f"porcelain {installation.bushing.porcelain.material}"
    linear = material_property(material, "expansion")
    vessel = measured(
        3 * float(linear),
        Label("Volume expansion of the vessel", "beta_v", "µ/K"),
        "three times that of the porcelain's length",
    )
    give = assumption("oil vessel give")
    return calculate(
        locked_oil_pressure,
        material_property("oil", "expansion"),
        vessel,
        assumption("oil compressibility"),
        give,
        span,
    )


def _tightness(test: PressureTest, oil: Oil) -> Tightness:
    above = test.above_service
    if above is not None:
        extra = from_table(
            above, "Test pressure above service", "p_0", "kPa", test.citation, test.test
        )
        pressure = calculate(pressure_with_cushion, oil.head_highest, extra)
    else:
        gauge = test.gauge or 0.0
        pressure = from_table(gauge, "Gauge pressure", "p", "kPa", test.citation, test.test)
    lasting = from_table(test.duration, "Time held", "t", "h", test.citation, test.test)
    if test.medium != "gas":
        return Tightness(test, pressure, lasting, None)
    absolute = measured(
        float(pressure) + float(assumption("air pressure")),
        Label("Pressure at the start, absolute", "p", "kPa"),
        "gauge pressure and the air's",
    )
    drift = calculate(gas_test_drift, absolute, test.temperature, test.temperature - _KELVIN)
    return Tightness(test, pressure, lasting, drift)


def _steps(
    installation: Installation,
    safe: Number | str,
    heads: tuple[Number | None, Number],
    expansion: Number,
) -> tuple[Step, ...]:
    """Filling and venting in order; the cautions of the whole document stand above them."""
    space, tilted = installation.bushing.oil_space, installation.transformer.mounting_angle > 0
    level = None if isinstance(safe, str) else safe
    bare = Step("There is no vent: fill under vacuum or change the cap, else gas stays at the stem")
    turned = Step("Turn the vent to the upper side; gas stays over it if it is turned down")
    return (
        *((bare,) * (space.vent == "none")),
        Step(
            "De-energise, earth and prove dead before anyone climbs up; let hot oil cool; treat "
            "old oil as if it held PCB until a test says otherwise"
        ),
        Step(f"See that the way to the tank is free ({space.opening}) for the growth", expansion),
        *((turned,) * tilted),
        Step("Fill slowly from below until the level stands above the lowest safe one", level),
        Step("Open the vent by a turn; close it when no more bubbles come; head there", heads[0]),
        Step("Bleed the cover beside the hole too, so that no gas stays round the body"),
        Step("Wait some hours, best with warm oil, and vent again until no bubble comes"),
        Step(
            "Clean and dry the vent; look for oil after a day at the greatest head",
            heads[1],
        ),
    )
